// Variance components, control limits and the next lot against published numbers, and against lots of known truth.

import { describe, expect, test } from 'vitest'
import { controlChart, RANGE_OF_TWO } from '../../../src/measure/lots/controlChart'
import { lotTrend } from '../../../src/measure/lots/lotTrend'
import { nextLot } from '../../../src/measure/lots/nextLot'
import { varianceComponents } from '../../../src/measure/lots/varianceComponents'
import { normalQuantile } from '../../../src/numerics/normal'
import { unitPoints } from '../../../src/numerics/random/unitPoints'

function draws(seed: number): () => number {
  const points = unitPoints('random', 1, seed)
  const out = new Float64Array(1)
  let index = 0
  return () => {
    points.point(index++, out)
    return out[0]!
  }
}

// D. C. Montgomery, Design and Analysis of Experiments (2012), problem 13.1: ten parts, two operators, three readings.
const READINGS = [
  '50 52 53 49 48 52 51 52 50 47 / 49 52 50 51 49 50 51 50 51 46 / 50 51 50 50 48 50 51 49 50 49',
  '50 51 54 48 48 52 51 53 51 46 / 48 51 52 50 49 50 50 48 48 47 / 51 51 51 51 48 50 50 50 49 48',
].flatMap((lines, operator) =>
  lines.split('/').flatMap((line) =>
    line
      .trim()
      .split(' ')
      .map((value, part) => ({ value: Number(value), part, operator })),
  ),
)

describe('variance components', () => {
  test('of a published gauge study: parts 1.7333, interaction and operators below 0, error 1.5', () => {
    const { components, residual, omitted } = varianceComponents(
      READINGS.map(({ value }) => value),
      [
        { name: 'part', levels: READINGS.map(({ part }) => part) },
        { name: 'operator', levels: READINGS.map(({ operator }) => operator) },
        {
          name: 'both',
          levels: READINGS.map(({ part, operator }) => 2 * part + operator),
        },
      ],
    )
    const [part, operator, both] = components
    // Mean squares 11.00185, 0.41667, 0.60185 and 1.5 from the published sums of squares.
    expect(part!.estimate).toBeCloseTo((99.0166667 - 5.4166667) / 9 / 6, 6)
    expect(part!.variance).toBeCloseTo(1.7333, 4)
    expect(both!.estimate).toBeCloseTo((5.4166667 / 9 - 1.5) / 3, 6)
    expect(operator!.estimate).toBeCloseTo((0.4166667 - 5.4166667 / 9) / 30, 6)
    expect([operator!.variance, both!.variance]).toEqual([0, 0])
    expect(residual.variance).toBeCloseTo(1.5, 9)
    expect(omitted).toEqual([])
  })

  test('of unbalanced nested lots average to the truth', () => {
    const draw = draws(5)
    const normal = () => normalQuantile(draw())
    const sums = [0, 0, 0]
    const runs = 300
    for (let run = 0; run < runs; run++) {
      const values: number[] = []
      const batches: number[] = []
      const assemblies: number[] = []
      for (let batch = 0; batch < 6; batch++) {
        const ofBatch = 0.3 * normal()
        for (let assembly = 0; assembly < 3 + (batch % 3); assembly++) {
          const ofAssembly = 0.2 * normal()
          for (let channel = 0; channel < 2 + ((batch + assembly) % 4); channel++) {
            values.push(1 + ofBatch + ofAssembly + 0.1 * normal())
            batches.push(batch)
            assemblies.push(10 * batch + assembly)
          }
        }
      }
      const { components, residual } = varianceComponents(values, [
        { name: 'batch', levels: batches },
        { name: 'assembly', levels: assemblies },
      ])
      sums[0]! += components[0]!.estimate / runs
      sums[1]! += components[1]!.estimate / runs
      sums[2]! += residual.estimate / runs
    }
    expect(Math.abs(sums[0]! - 0.09)).toBeLessThan(4 * 0.004)
    expect(Math.abs(sums[1]! - 0.04)).toBeLessThan(0.003)
    expect(Math.abs(sums[2]! - 0.01)).toBeLessThan(0.0003)
  })

  test('leave out, by name, what the data cannot separate', () => {
    const once = varianceComponents(
      [1, 2, 3, 4],
      [
        { name: 'assembly', levels: [0, 1, 2, 3] },
        { name: 'batch', levels: [7, 7, 7, 7] },
      ],
    )
    expect(once.omitted).toEqual(['assembly', 'batch'])
    expect(once.residual.variance).toBeCloseTo(5 / 3, 12)
    // Station and batch divide the readings alike: only one of them is estimated, and the assemblies still are.
    const twins = varianceComponents(
      [1, 2, 4, 3, 6, 8, 7, 5],
      [
        { name: 'batch', levels: [0, 0, 0, 0, 1, 1, 1, 1] },
        { name: 'station', levels: [5, 5, 5, 5, 3, 3, 3, 3] },
        { name: 'assembly', levels: [0, 0, 1, 1, 2, 2, 3, 3] },
      ],
    )
    expect(twins.omitted).toEqual(['station'])
    expect(twins.components.map(({ name }) => name)).toEqual(['batch', 'assembly'])
    expect(() => varianceComponents([1], [])).toThrow('at least two readings')
  })
})

describe('the control chart', () => {
  test('has the tabulated constants of two readings: 1.128, 0.853, 3.267', () => {
    expect(RANGE_OF_TWO.d2).toBeCloseTo(1.128379, 6)
    expect(RANGE_OF_TWO.d3).toBeCloseTo(0.852502, 6)
    expect(RANGE_OF_TWO.D4).toBeCloseTo(3.267, 3)
  })

  test('finds a jump and a slope, and has its limits where they are by hand', () => {
    const chart = controlChart([1, 2, 1, 2, 1, 2, 1, 2, 9])
    // Moving ranges 1 x 7 and 7: mean 1.75; mean of the values 21 / 9.
    expect(chart.meanRange).toBeCloseTo(1.75, 12)
    expect(chart.upper).toBeCloseTo(21 / 9 + (3 * 1.75) / 1.128379, 5)
    expect(chart.outside).toEqual([8])
    expect(chart.outsideRanges).toEqual([8])
    const rising = lotTrend([0, 1, 2, 3, 4.1], null)
    expect(rising.slope).toBeCloseTo(1.02, 9)
    expect(rising.slopePlusMinus).toBeLessThan(0.1)
    expect(() => controlChart([1, 2, 3])).toThrow('at least 4')
  })
})

describe('the next lot', () => {
  test('by hand: 45 of 50', () => {
    const lot = nextLot(
      Array.from({ length: 50 }, (_, i) => i >= 5),
      null,
    )
    expect(lot.expected).toBeCloseTo(45.5 / 51, 12)
    // Wilson's interval of 45 / 50 at 95 %: 0.7864 to 0.9565 (closed form).
    expect(lot.interval.low).toBeCloseTo(0.7864, 4)
    expect(lot.interval.high).toBeCloseTo(0.95652, 4)
    expect(lot.range.low).toBeLessThan(0.8)
    expect(lot.range.high).toBeGreaterThan(0.96)
  })

  test('of 200 processes of known yield: both intervals hold it in 92 to 98 %', () => {
    const draw = draws(11)
    let [held, next] = [0, 0]
    for (let run = 0; run < 200; run++) {
      const truth = 0.6 + 0.35 * draw()
      const passes = Array.from({ length: 100 }, () => draw() < truth)
      const lot = nextLot(passes, null)
      if (lot.interval.low <= truth && truth <= lot.interval.high) held++
      const later = Array.from({ length: 100 }, () => draw() < truth).filter(Boolean).length / 100
      if (lot.range.low <= later && later <= lot.range.high) next++
    }
    for (const count of [held, next]) {
      expect(count).toBeGreaterThanOrEqual(184)
      expect(count).toBeLessThanOrEqual(196)
    }
  })

  test('counts fewer independent assemblies where batches pass or fail together', () => {
    const batches = Array.from({ length: 40 }, (_, i) => Math.floor(i / 10))
    const together = nextLot(
      batches.map((batch) => batch !== 2),
      batches,
    )
    expect(together.effective).toBeLessThan(5)
    expect(together.interval.high - together.interval.low).toBeGreaterThan(0.5)
    const mixed = nextLot(
      batches.map((_, i) => i % 10 !== 0),
      batches,
    )
    expect(mixed.effective).toBeCloseTo(40, 0)
  })
})
