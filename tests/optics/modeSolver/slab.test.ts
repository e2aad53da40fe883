// A horizontal and a vertical slab, so that both kinds of wall are met by both polarisations.

import { describe, expect, test } from 'vitest'
import type { CrossSection } from '../../../src/optics/modeSolver/crossSection'
import { findMode } from '../../../src/optics/modeSolver/fundamental'
import { axisFromFaces, axisOf, planAxis } from '../../../src/optics/modeSolver/grid'
import { slicesOf } from '../../../src/optics/modeSolver/slices'
import { WALLS, type WaveKind, waveOperator } from '../../../src/optics/modeSolver/waveOperator'
import { type Slab, slabIndex } from './exactSlab'

const WIRE: Slab = {
  coreIndex: 3.476,
  belowIndex: 1.444,
  aboveIndex: 1.444,
  thicknessUm: 0.22,
  wavelengthUm: 1.55,
}
const NITRIDE: Slab = {
  coreIndex: 1.996,
  belowIndex: 1.444,
  aboveIndex: 1,
  thicknessUm: 0.4,
  wavelengthUm: 1.55,
}

const one = axisFromFaces(Float64Array.of(0, 1))

function effectiveIndex(
  kind: WaveKind,
  section: CrossSection,
  along: 'x' | 'y',
  { thicknessUm, wavelengthUm, coreIndex }: Slab,
  cells: number,
): number {
  const edges = [
    { atUm: 0, sizeUm: thicknessUm / 4 },
    { atUm: thicknessUm, sizeUm: thicknessUm / 4 },
  ]
  const reach = 4
  const axis = axisOf(planAxis([-reach, 0, thicknessUm, thicknessUm + reach], edges, cells, 0), 0)
  const [x, y] = along === 'x' ? [axis, one] : [one, axis]
  const borders =
    along === 'x'
      ? ({ ...WALLS, bottom: 'mirror', top: 'mirror' } as const)
      : ({ ...WALLS, left: 'mirror', right: 'mirror' } as const)
  const k2 = ((2 * Math.PI) / wavelengthUm) ** 2
  const operator = waveOperator(kind, slicesOf(section, y.faces), x, y, wavelengthUm, borders)
  const mode = findMode(operator, k2, k2 * coreIndex ** 2)
  return Math.sqrt((mode?.value ?? 0) / k2)
}

function lying({ coreIndex, belowIndex, aboveIndex, thicknessUm }: Slab): CrossSection {
  return {
    substrateIndex: belowIndex,
    layers: [{ thicknessUm, index: coreIndex }],
    coverIndex: aboveIndex,
    cores: [],
  }
}

function standing({ coreIndex, belowIndex, thicknessUm }: Slab): CrossSection {
  return {
    substrateIndex: belowIndex,
    layers: [],
    coverIndex: belowIndex,
    cores: [
      {
        shape: 'trapezoid',
        xUm: thicknessUm / 2,
        bottomUm: -5,
        widthUm: thicknessUm,
        heightUm: 10,
        sidewallRad: Math.PI / 2,
        index: coreIndex,
      },
    ],
  }
}

// E along x crosses the walls of a vertical slab: the slab's TM; it is parallel to those of a horizontal one: its TE.
const CASES = [
  ['lying silicon', 'TE', 'TE', 'y', WIRE, lying(WIRE)],
  ['lying silicon', 'TM', 'TM', 'y', WIRE, lying(WIRE)],
  ['lying nitride under air', 'TE', 'TE', 'y', NITRIDE, lying(NITRIDE)],
  ['lying nitride under air', 'TM', 'TM', 'y', NITRIDE, lying(NITRIDE)],
  ['standing silicon', 'TE', 'TM', 'x', WIRE, standing(WIRE)],
  ['standing silicon', 'TM', 'TE', 'x', WIRE, standing(WIRE)],
] as const

describe('a slab', () => {
  test.each(CASES)(
    '%s, quasi-%s: two grids point to the exact %s index within 1e-5',
    (_, kind, exact, along, slab, section) => {
      const [coarse, fine] = [320, 640].map((cells) => effectiveIndex(kind, section, along, slab, cells))
      const truth = slabIndex(exact, slab)
      expect(Math.abs(fine! - truth)).toBeLessThan(3e-4)
      expect(Math.abs(fine! + (fine! - coarse!) / 3 - truth)).toBeLessThan(1e-5)
    },
  )

  test.each(CASES)(
    '%s, quasi-%s: the error to the exact %s falls fourfold as cells halve',
    (_, kind, exact, along, slab, section) => {
      const errors = [80, 160, 320, 640].map(
        (cells) => effectiveIndex(kind, section, along, slab, cells) - slabIndex(exact, slab),
      )
      errors.slice(1).forEach((error, i) => {
        expect(errors[i]! / error).toBeGreaterThan(3.4)
        expect(errors[i]! / error).toBeLessThan(4.7)
      })
    },
  )
})

describe('the search for a mode that begins at a hint', () => {
  const k2 = ((2 * Math.PI) / NITRIDE.wavelengthUm) ** 2
  const axis = axisOf(planAxis([-4, 0, 0.4, 4.4], [{ atUm: 0, sizeUm: 0.1 }], 40, 0), 0)
  const borders = { ...WALLS, left: 'mirror', right: 'mirror' } as const
  const operator = waveOperator('TE', slicesOf(lying(NITRIDE), axis.faces), one, axis, 1.55, borders)
  const [least, greatest] = [k2 * 1.444 ** 2, k2 * NITRIDE.coreIndex ** 2]
  const alone = findMode(operator, least, greatest)
  const value = alone?.value ?? Number.NaN

  test.each([
    ['at the mode', value],
    ['a little below it', value - 0.01],
    ['a little above it', value + 0.01],
    ['far below it', least + 1e-6],
    ['far above it', greatest - 1e-6],
    ['below the range', 0.5 * least],
    ['above the range', 2 * greatest],
  ])('finds the same one: %s', (_name, near) => {
    const found = findMode(operator, least, greatest, near)
    expect(found?.value).toBeCloseTo(value, 8)
    expect(found?.field.every((each, i) => Math.abs(each - (alone?.field[i] ?? 2)) < 1e-6)).toBe(true)
  })

  test('finds none where there is none, whatever the hint', () => {
    for (const near of [undefined, value, value + 0.01, value + 0.1, greatest])
      expect(findMode(operator, value + 0.05, greatest, near)).toBeNull()
  })
})
