import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { saturatedLength } from '../../../src/measure/fit/saturation'
import { uniform } from '../../support/arbitrary'

const scan = (points: number, change: (power: number) => number, centre = 5) =>
  Array.from({ length: points }, (_, i) => change(100 * Math.exp(-2 * ((10 * i) / points - centre) ** 2)))

describe('a flat top', () => {
  test('of a scan cut at any level from a tenth to 98 % of its peak is counted', () => {
    fc.assert(
      fc.property(fc.integer({ min: 200, max: 5000 }), uniform(10, 98), (points, level) => {
        const cut = scan(points, (power) => Math.min(level, power))
        return saturatedLength(cut) === cut.filter((power) => power === level).length
      }),
    )
  })

  test('of a smooth peak rounded to few digits is no cut, however closely it was sampled', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 50, max: 50_000 }),
        fc.constantFrom(0, 1, 2, 4),
        uniform(4.5, 5.5),
        uniform(0.3, 3),
        (points, digits, centre, height) =>
          saturatedLength(scan(points, (power) => Number((height * power).toFixed(digits)), centre)) === 0,
      ),
      { examples: [[602, 0, 5, 1]] },
    )
  })

  test('of a scan of few points is counted, though its neighbours differ by much', () => {
    expect(saturatedLength([5, 9, 9, 9, 9, 1])).toBe(4)
    expect(saturatedLength([0.005, 0.009, 0.009, 0.009, 0.009, 0.001])).toBe(4)
  })

  test('is not seen in three equal points, in a constant or in nothing', () => {
    expect(saturatedLength([1, 5, 5, 5, 1])).toBe(0)
    expect(saturatedLength([3, 3, 3, 3, 3])).toBe(0)
    expect(saturatedLength([])).toBe(0)
  })
})
