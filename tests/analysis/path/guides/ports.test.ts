// Modes at the ends of fibres, facets and tips as functions of wavelength, polarisation and tolerances, against products by hand.

import { describe, expect, test } from 'vitest'
import { type CompiledCandidate, compileCandidate } from '../../../../src/analysis/path/compileCandidate'
import { quantityOf } from '../../../../src/model/quantity/quantity'
import type { Project } from '../../../../src/model/schema/project'
import { familiesProject } from '../../support/families'
import { matchedProject } from '../../yield/cases'

function compiled(project: Project, id: string): CompiledCandidate {
  const result = compileCandidate(project, id)
  if (!result.ok) throw new Error(result.issues.map(({ message }) => message).join())
  return result.value
}

const exitOf = ({ guides }: CompiledCandidate, elementId: string) => {
  const guide = guides.find((each) => each.elementId === elementId)
  if (guide === undefined) throw new Error(elementId)
  return guide.model.exit
}

/** Diameters of an exit once `slots` hold other values. */
function mfdsAt(path: CompiledCandidate, elementId: string, slots: readonly (readonly [number, number])[]) {
  const v = path.nominal.slice()
  for (const [slot, value] of slots) v[slot] = value
  const { mfdXUm, mfdYUm } = exitOf(path, elementId)
  return [mfdXUm(v), mfdYUm(v)]
}

const slotOf = ({ variables }: CompiledCandidate, path: string) =>
  variables.findIndex((each) => each.path.join('/') === path)

const close = (...values: readonly number[]) => values.map((value) => expect.closeTo(value, 10))

describe('a facet', () => {
  const project = matchedProject(6, 2)
  const facet = project.facets[0]!
  facet.mfdX = quantityOf(4, 'um', 'estimate', 0.2)
  facet.mfdY = quantityOf(3, 'um', 'estimate', 0.3)
  facet.tm = {
    mfdX: quantityOf(5, 'um'),
    mfdY: quantityOf(2.5, 'um'),
    index: quantityOf(1.7, '1'),
    taperLoss: quantityOf(0.7, 'dB'),
  }
  facet.taperLoss = quantityOf(0.2, 'dB')
  facet.substrateLeakage = quantityOf(0.1, 'dB')
  facet.overWavelength = { kind: 'power law', exponent: quantityOf(2, '1') }
  const path = compiled(project, 'matched')
  const { wavelengthShift, polarisation } = path.slots

  test('has the mode of each polarisation, which the law over wavelength multiplies', () => {
    const square = 1.1 ** 2
    const longer = [wavelengthShift, 0.155] as const
    expect(mfdsAt(path, 'facet', [])).toEqual(close(4, 3))
    expect(mfdsAt(path, 'facet', [longer])).toEqual(close(4 * square, 3 * square))
    expect(mfdsAt(path, 'facet', [longer, [polarisation, 1]])).toEqual(close(4 * square, 3 * square))
    expect(mfdsAt(path, 'facet', [longer, [polarisation, 2]])).toEqual(close(5 * square, 2.5 * square))
    const tm = path.nominal.slice()
    tm[polarisation] = 2
    expect(exitOf(path, 'facet').index(tm)).toBe(1.7)
    const lossesAt = (v: Float64Array) =>
      path.guides.flatMap(({ model }) => model.lines.map(({ id, lossDb }) => [id, lossDb(v)]))
    expect(lossesAt(path.nominal)).toEqual([
      ['facet/taper', 0.2],
      ['facet/substrate', 0.1],
    ])
    expect(lossesAt(tm)).toEqual([
      ['facet/taper', 0.7],
      ['facet/substrate', 0.1],
    ])
  })

  test('of one width deviates in y as in x, in the ratio of the relative tolerances', () => {
    const one = structuredClone(project)
    one.facets[0]!.oneWidth = true
    one.facets[0]!.overWavelength = undefined
    const follows = compiled(one, 'matched')
    // 4.1 um are 2.5 % more, of 5 %: half of the tolerance, as 3.15 um are.
    expect(mfdsAt(follows, 'facet', [[slotOf(follows, 'facets/0/mfdX'), 4.1]])).toEqual(close(4.1, 3.15))
    expect(mfdsAt(follows, 'facet', [[slotOf(follows, 'facets/0/mfdX'), 3.8]])).toEqual(close(3.8, 2.7))
  })
})

describe('a fibre known by its diameters', () => {
  const at = (nm: number, x: number, y: number) => ({
    wavelength: quantityOf(nm, 'nm'),
    mfdX: quantityOf(x, 'um'),
    mfdY: quantityOf(y, 'um'),
  })
  const points = [at(1500, 8, 6), at(1600, 10, 7)]

  test('has both multiplied by what its table says, apart, and stays round where the law is one', () => {
    const project = matchedProject(9, 2)
    const law = { kind: 'points', points } as const
    project.fibres[0]!.mode = {
      kind: 'mfd',
      mfdX: quantityOf(9, 'um'),
      mfdY: quantityOf(13, 'um'),
      overWavelength: law,
    }
    // At 1550 nm the table says 9 and 6.5 um, at 1600 nm 10 and 7.
    const oval = compiled(project, 'matched')
    expect(mfdsAt(oval, 'fibre', [[oval.slots.wavelengthShift, 0.05]])).toEqual(close(10, 14))
    project.fibres[0]!.mode = { kind: 'mfd', mfdX: quantityOf(9, 'um'), overWavelength: law }
    const round = compiled(project, 'matched')
    expect(mfdsAt(round, 'fibre', [[round.slots.wavelengthShift, 0.05]])).toEqual(close(10, (9 * 7) / 6.5))
    const power = { kind: 'power law', exponent: quantityOf(1, '1') } as const
    project.fibres[0]!.mode = { kind: 'mfd', mfdX: quantityOf(9, 'um'), overWavelength: power }
    const scaled = compiled(project, 'matched')
    expect(exitOf(scaled, 'fibre').mfdYUm).toBe(exitOf(scaled, 'fibre').mfdXUm)
    expect(mfdsAt(scaled, 'fibre', [[scaled.slots.wavelengthShift, 0.155]])).toEqual(close(9.9, 9.9))
  })
})

describe('a fibre known by its core', () => {
  const cored = (diameterUm: number, na: number) => {
    const project = matchedProject(9, 2)
    project.fibres[0]!.mode = {
      kind: 'core',
      coreDiameter: quantityOf(diameterUm, 'um', 'estimate', 0.2),
      na: quantityOf(na, '1', 'estimate', 0.002),
    }
    return project
  }

  test('carries a caution from V = 2.405 on, and says how Gaussian its mode is below', () => {
    // V = pi d NA / wavelength: 2.405 at 9.887 um.
    const notes = (diameterUm: number) => compiled(cored(diameterUm, 0.12), 'matched').notes
    const [first, ...others] = notes(9.88)
    expect(first?.message).toMatch(
      /overlaps its best-fit Gaussian by 99\.\d\d % .*; the budget uses the Gaussian\.$/,
    )
    expect(others.filter(({ elementId }) => elementId === 'fibre')).toEqual([])
    expect(notes(9.9)[1]).toMatchObject({
      message: 'Fibre is not single-mode at this wavelength: V is 2.408, single-mode below 2.405.',
      caution: true,
    })
  })

  test('scales: core, wavelength and mode together; what was solved before is no matter', () => {
    const path = compiled(cored(8, 0.12), 'matched')
    const diameter = slotOf(path, 'fibres/0/mode/coreDiameter')
    const [before = 0] = mfdsAt(path, 'fibre', [])
    const scaled = mfdsAt(path, 'fibre', [
      [diameter, 8.8],
      [path.slots.wavelengthShift, 0.155],
    ])
    expect(scaled).toEqual(close(1.1 * before, 1.1 * before))
    // A higher aperture at the same core holds the mode closer; each value alone makes it another mode.
    const na = slotOf(path, 'fibres/0/mode/na')
    const held = [
      mfdsAt(path, 'fibre', [[na, 0.13]])[0] ?? 0,
      mfdsAt(path, 'fibre', [[path.slots.wavelengthShift, -0.1]])[0] ?? 0,
    ]
    for (const mfd of held) expect(mfd).toBeLessThan(before)
    expect(mfdsAt(path, 'fibre', [[diameter, 8.4]])[0]).not.toBe(before)
    expect(mfdsAt(path, 'fibre', [])[0]).toBe(before)
    const { core } = exitOf(path, 'fibre')
    expect(core?.at(path.nominal)).toMatchObject({
      V: expect.closeTo((Math.PI * 8 * 0.12) / 1.55, 12),
      radiusXUm: 4,
      radiusYUm: 4,
    })
  })
})

describe('a lensed tip by its spot', () => {
  const notesOf = (spotUm: number, distanceUm: number) => {
    const project = familiesProject()
    const tip = project.converters.find(({ id }) => id === 'tip-spot')
    if (tip?.kind !== 'lensed tip') throw new Error('no tip')
    tip.tip = {
      kind: 'spot',
      spotX: quantityOf(spotUm, 'um'),
      workingDistance: quantityOf(distanceUm, 'um'),
      radius: quantityOf(9, 'um', 'data sheet', 1.5),
    }
    const path = compiled(project, 'spot-tip')
    expect(exitOf(path, 'fibre').tip?.radiusUm?.(path.nominal)).toBe(10.5)
    expect(exitOf(path, 'fibre').mfdYUm).toBe(exitOf(path, 'fibre').mfdXUm)
    return path.notes.flatMap(({ message }) => /: (a .*) of .* µm; usual/.exec(message)?.[1] ?? [])
  }

  test('is doubted outside 2 to 6 µm and 5 to 20 µm, and not at their ends', () => {
    expect(notesOf(2, 5)).toEqual([])
    expect(notesOf(6, 20)).toEqual([])
    expect(notesOf(1.99, 20)).toEqual(['a spot'])
    expect(notesOf(6.01, 4.99)).toEqual(['a spot', 'a working distance'])
    expect(notesOf(4, 20.1)).toEqual(['a working distance'])
  })
})
