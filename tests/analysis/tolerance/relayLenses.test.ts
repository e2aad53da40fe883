import { describe, expect, test } from 'vitest'
import { tryEvaluate } from '../../../src/analysis/index'
import { compileCandidate } from '../../../src/analysis/path/compileCandidate'
import { settledCandidate } from '../../../src/analysis/tolerance/bestSettings'
import { fittingRelay, withFittingLenses } from '../../../src/analysis/tolerance/relayLenses'
import type { Candidate } from '../../../src/model/schema/candidate'
import type { Project } from '../../../src/model/schema/project'
import { familiesProject, relayElement } from '../support/families'

const all = familiesProject()
/** A few of its lenses, of which the best pair is neither the first nor the last. */
const project = { ...all, lenses: all.lenses.filter((_, i) => i % 2 === 0 || i === 1) }

function lossDb(own: Project, candidate: Candidate): number {
  const result = tryEvaluate({ ...own, candidates: [candidate] }, candidate.id)
  return result.ok ? result.value.nominalDb : Number.MAX_VALUE
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
