import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../../src/analysis/index'
import { compileCandidate } from '../../../src/analysis/path/compileCandidate'
import { settledCandidate } from '../../../src/analysis/tolerance/bestSettings'
import { fittingRelay, withFittingLenses } from '../../../src/analysis/tolerance/relayLenses'
import { newIsolator } from '../../../src/model/designs/newElements'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { Candidate } from '../../../src/model/schema/candidate'
import type { Project } from '../../../src/model/schema/project'
import { familiesProject, relayElement } from '../support/families'

const all = familiesProject()
/** A few of its lenses, of which the best pair is neither the first nor the last. */
const project = { ...all, lenses: all.lenses.filter((_, i) => i % 2 === 0 || i === 1) }

function lossDb(own: Project, candidate: Candidate): number {
  const result = compileCandidate({ ...own, candidates: [candidate] }, candidate.id)
  return result.ok ? result.value.lossDb(result.value.nominal) : Number.MAX_VALUE
}

const relayWith = (lens1Id: string, lens2Id: string): Candidate => ({
  id: 'new',
  name: 'new',
  userLines: [],
  chain: [
    { kind: 'fibre', id: 'fibre', fibreId: 'fibre-standard' },
    relayElement({ lens1Id, lens2Id, device: undefined }),
    { kind: 'facet', id: 'facet', facetId: 'facet-nitride' },
  ],
})

describe('the lenses of a new relay', () => {
  test('lose as little as the best of all pairs, whichever two it started with', () => {
    const ids = project.lenses.map(({ id }) => id)
    const losses = ids.flatMap((first) =>
      ids.map((second) => lossDb(project, settledCandidate(project, relayWith(first, second)))),
    )
    const chosen = withFittingLenses(project, relayWith('plano-2', 'lens-1'))
    expect(lossDb(project, chosen)).toBeLessThan(Math.min(...losses) + 0.01)
  })

  test('stay as they were where no pair can be computed', () => {
    const none = { ...project, lenses: [] }
    expect(withFittingLenses(none, relayWith('lens-1', 'lens-2')).chain[1]).toMatchObject({
      lens1Id: 'lens-1',
      lens2Id: 'lens-2',
    })
  })

  test('do not affect a path without a relay', () => {
    const [butt] = project.candidates
    if (butt === undefined) throw new Error('no candidate')
    const own = { ...butt, id: 'new' }
    expect(withFittingLenses(project, own)).toEqual(settledCandidate(project, own))
  })
})

test('a relay inserted into a design is worked out in it as it will be, and its beam stays parallel', () => {
  const few = { ...project, lenses: project.lenses.slice(0, 2) }
  const [first] = few.candidates
  if (first === undefined) throw new Error('no design')
  // The design that it changes is still in the project, under the same id.
  const own = { ...relayWith('plano-2', 'lens-1'), id: first.id }
  const relay = fittingRelay(few, own, 'relay')
  if (relay === null) throw new Error('no relay')
  const inserted = { ...own, chain: own.chain.map((each) => (each.kind === 'relay' ? relay : each)) }
  // 250 um before the lenses and 5 mm between them, as a new relay begins, are not the optimum of anything.
  expect(lossDb(few, inserted)).toBeLessThan(lossDb(few, own) - 1)
  const compiled = compileCandidate({ ...few, candidates: [inserted] }, inserted.id)
  if (!compiled.ok) throw new Error('not computed')
  const { joins, nominal } = compiled.value
  const { focal1Um = 0 } = joins[0]?.relayFoci?.(nominal) ?? {}
  const mfdUm = joins[0]?.view?.(nominal).near.mfdXUm ?? 0
  const wavelengthUm = joins[0]?.view?.(nominal).joint.wavelengthUm ?? 1
  // By hand: behind lens 1 the Rayleigh range is f1 squared over that of the fibre, and two of them are parallel.
  const rayleighUm = (Math.PI * mfdUm ** 2) / (4 * wavelengthUm)
  expect(relay.stretch.value * 1000).toBeLessThan((2 * focal1Um ** 2) / rayleighUm)
})

describe('what a relay says of its lenses', () => {
  const joinOf = (change: Parameters<typeof relayElement>[0]) => {
    const own = familiesProject(relayElement({ device: undefined, ...change }))
    const compiled = compileCandidate(own, 'relay')
    if (!compiled.ok) throw new Error('not computed')
    const { joins, nominal } = compiled.value
    return { join: joins[0], nominal }
  }

  test('are the focal lengths of thin lenses as they are entered, one of them before the first', () => {
    const { join, nominal } = joinOf({})
    const foci = join?.relayFoci?.(nominal)
    expect(foci?.focal1Um).toBeCloseTo(1000, 6)
    expect(foci?.focal2Um).toBeCloseTo(300, 6)
    expect(foci?.frontUm).toBeCloseTo(1000, 6)
  })

  test('is where each part begins: gaps, thicknesses and the section between the lenses in a row', () => {
    const { join, nominal } = joinOf({
      ...{ lens1Id: 'plano-1', lens2Id: 'plano-2', device: newIsolator() },
      ...{ frontGap: quantityOf(810, 'um'), stretch: quantityOf(6, 'mm'), backGap: quantityOf(245, 'um') },
    })
    const view = join?.relay?.(nominal)
    const thickness = view?.lenses.map(({ thicknessUm }) => thicknessUm)
    expect(thickness).toEqual([300, 100])
    expect(view?.lenses.map(({ frontZUm }) => frontZUm)).toEqual([810, 810 + 300 + 6000])
    expect(view?.lengthUm).toBe(810 + 300 + 6000 + 100 + 245)
    // The device in the middle of the section between the lenses.
    const { startZUm = 0, lengthUm = 0 } = view?.device ?? {}
    expect(startZUm + lengthUm / 2).toBeCloseTo(810 + 300 + 3000, 9)
    expect(lengthUm).toBeGreaterThan(1000)
    const ends = [view?.path.at(0)?.zUm, view?.path.at(-1)?.zUm]
    expect(ends).toEqual([0, view?.lengthUm])
  })

  test('are the radii of a ball, half its diameter on both sides', () => {
    const own = familiesProject(relayElement({ device: undefined }))
    const second = own.lenses.find(({ id }) => id === 'lens-2')
    if (second === undefined) throw new Error('no lens')
    second.shape = { kind: 'ball', diameter: quantityOf(300, 'um') }
    second.glass = { kind: 'value', index: quantityOf(1.5, '1') }
    const [relay] = evaluateCandidate(own, 'relay').relays
    expect(relay?.lenses[1]).toMatchObject({ frontRadiusUm: 150, backRadiusUm: 150, thicknessUm: 300 })
  })

  test('is where the axis of the fibre meets the first lens: offset plus gap times slope', () => {
    const { join, nominal } = joinOf({
      ...{
        lens1Id: 'plano-1',
        lens2Id: 'plano-2',
        frontGap: quantityOf(810, 'um'),
        backGap: quantityOf(245, 'um'),
      },
      ...{ offsetX: quantityOf(2, 'um'), offsetY: quantityOf(-1, 'um') },
      ...{ tiltX: quantityOf(5, 'mrad'), tiltY: quantityOf(-4, 'mrad') },
    })
    const { chief } = join?.lensesInLight?.(nominal) ?? {}
    expect(chief?.x.heightUm).toBeCloseTo(2 + 810 * 0.005, 9)
    expect(chief?.y.heightUm).toBeCloseTo(-1 - 810 * 0.004, 9)
    expect([chief?.x.slopeRad, chief?.y.slopeRad]).toEqual([0.005, -0.004])
  })
})
