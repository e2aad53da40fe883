// Intervals of a lot by their formulas, written out for few readings: means of groups, trends, and the next lot.

import { lgamma } from 'mathjs'
import { describe, expect, test } from 'vitest'
import { controlChart } from '../../../src/measure/lots/controlChart'
import { groupedMeanHalfWidth } from '../../../src/measure/lots/groupedMean'
import { lotSummary } from '../../../src/measure/lots/lotSummary'
import { lotTrend } from '../../../src/measure/lots/lotTrend'
import { nextLot } from '../../../src/measure/lots/nextLot'

const sumOf = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0)
const meanOf = (values: readonly number[]) => sumOf(values) / values.length
const squaresOf = (values: readonly number[]) => sumOf(values.map((value) => (value - meanOf(values)) ** 2))

/** Student's t, two-sided 95 %, from the tables. */
const T95: Readonly<Record<number, number>> = {
  ...{ 1: 12.7062, 2: 4.30265, 3: 3.18245, 4: 2.77645, 6: 2.44691, 39: 2.02269, 29: 2.04523 },
}

describe('the mean of a lot from its groups', () => {
  test('of one size is that of the groups’ means, s / sqrt k', () => {
    const readings = [
      [1, 2, 3],
      [4, 6, 5],
      [9, 8, 7],
      [2, 3, 1],
    ] as const
    const half = groupedMeanHalfWidth(readings.map((each) => ({ readings: each, share: 1 / 4 })))
    const s = Math.sqrt(squaresOf([2, 5, 8, 2]) / 3)
    expect(half).toBeCloseTo((T95[3]! * s) / 2, 4)
  })

  test('of different sizes divides the variance of the means as the formula says', () => {
    const readings = [[1, 2, 4], [6], [8, 9.5]] as const
    const means = readings.map(meanOf)
    const square = squaresOf(means) / 2
    // Within: 2 + 0 + 1 degrees of freedom.
    const inner = sumOf(readings.map(squaresOf)) / 3
    const h = (1 / 3 + 1 + 1 / 2) / 3
    const outer = square - h * inner
    expect(outer).toBeGreaterThan(0)
    const shares = [1 / 2, 1 / 6, 1 / 3]
    const ofMean = sumOf(shares.map((p, i) => p * p * (outer + inner / readings[i]!.length)))
    const half = groupedMeanHalfWidth(readings.map((each, i) => ({ readings: each, share: shares[i]! })))
    expect(half).toBeCloseTo(T95[2]! * Math.sqrt((square * ofMean) / (outer + h * inner)), 4)
  })

  test('is no less certain than its groups’ own scatter allows where the means agree by chance', () => {
    const readings = [[0, 4, 2.1], [2]] as const
    const shares = [3 / 4, 1 / 4]
    const square = squaresOf(readings.map(meanOf)) / 1
    const inner = squaresOf(readings[0]) / 2
    const expected = meanOf([inner / 3, inner])
    const ofMean = sumOf([shares[0]! ** 2 * (inner / 3), shares[1]! ** 2 * inner])
    const half = groupedMeanHalfWidth(readings.map((each, i) => ({ readings: each, share: shares[i]! })))
    expect(half).toBeCloseTo(T95[1]! * Math.sqrt((square * ofMean) / expected), 4)
  })

  test('is not known from one group, and exact where all readings are the same', () => {
    const same = { readings: [2, 2], share: 1 / 2 }
    expect(groupedMeanHalfWidth([same])).toBeNull()
    expect(groupedMeanHalfWidth([same, same])).toBe(0)
    // One reading a group: nothing within, all of it between.
    const half = groupedMeanHalfWidth([1, 3, 8].map((each) => ({ readings: [each], share: 1 / 3 })))
    expect(half).toBeCloseTo((T95[2]! * Math.sqrt(squaresOf([1, 3, 8]) / 2)) / Math.sqrt(3), 4)
  })
})

describe('the trend of a lot', () => {
  /** Slope and its standard deviation by the normal equations. */
  const byHand = (x: readonly number[], y: readonly number[]) => {
    const [mx, my] = [meanOf(x), meanOf(y)]
    const slope = sumOf(x.map((each, i) => (each - mx) * (y[i]! - my))) / squaresOf(x)
    const left = sumOf(x.map((each, i) => (y[i]! - my - slope * (each - mx)) ** 2))
    return { slope, plusMinus: (free: number) => T95[free]! * Math.sqrt(left / free / squaresOf(x)) }
  }
  const VALUES = [1, 1.4, 1.1, 2, 1.9, 2.6, 2.2, 3]

  test('of assemblies is a straight line through their means', () => {
    const { slope, plusMinus } = byHand([0, 1, 2, 3, 4, 5, 6, 7], VALUES)
    const found = lotTrend(VALUES, null)
    expect(found).toMatchObject({ slope: expect.closeTo(slope, 12), from: 'assemblies' })
    expect(found.slopePlusMinus).toBeCloseTo(plusMinus(6), 4)
  })

  test('of batches of different sizes goes through their means at their middles', () => {
    const found = lotTrend(VALUES, [7, 7, 3, 3, 3, 5, 5, 5])
    const { slope, plusMinus } = byHand(
      [0.5, 3, 6],
      [VALUES.slice(0, 2), VALUES.slice(2, 5), VALUES.slice(5)].map(meanOf),
    )
    expect(found).toMatchObject({ slope: expect.closeTo(slope, 12), from: 'batches' })
    expect(found.slopePlusMinus).toBeCloseTo(plusMinus(1), 3)
    // Two batches give a slope, but no scatter about it.
    expect(lotTrend(VALUES, [1, 1, 1, 1, 2, 2, 2, 2])).toMatchObject({
      slopePlusMinus: null,
      from: 'batches',
    })
  })

  test.each([
    ['one batch', [1, 1, 1, 1, 1, 1, 1, 1]],
    ['a batch that comes back', [1, 1, 2, 2, 1, 1, 3, 3]],
    ['a batch for every assembly', [1, 2, 3, 4, 5, 6, 7, 8]],
  ])('is that of assemblies for %s', (_, batches) => {
    expect(lotTrend(VALUES, batches)).toEqual(lotTrend(VALUES, null))
  })
})

describe('the next lot', () => {
  /** Passes of each batch and their number. */
  const lotOf = (batches: readonly (readonly [number, number])[]) => ({
    passes: batches.flatMap(([passed, n]) => Array.from({ length: n }, (_, i) => i < passed)),
    labels: batches.flatMap(([, n], b) => new Array<number>(n).fill(b)),
  })
  /** Design effect from the mean squares between and within batches, n0 of them each. */
  function effectOf(batches: readonly (readonly [number, number])[]) {
    const all = sumOf(batches.map(([, n]) => n))
    const mean = sumOf(batches.map(([p]) => p)) / all
    const squares = sumOf(batches.map(([, n]) => n * n))
    const between = sumOf(batches.map(([p, n]) => n * (p / n - mean) ** 2)) / (batches.length - 1)
    const within = sumOf(batches.map(([p, n]) => (p * (n - p)) / n)) / (all - batches.length)
    const n0 = (all - squares / all) / (batches.length - 1)
    const component = (between - within) / n0
    return 1 + ((squares / all - 1) * component) / (component + within)
  }

  test.each([
    [
      'equal',
      [
        [10, 10],
        [9, 10],
        [6, 10],
        [3, 10],
      ] as const,
      40,
    ],
    [
      'unequal',
      [
        [9, 12],
        [2, 4],
        [8, 8],
        [1, 6],
      ] as const,
      30,
    ],
  ])(
    'of %s batches counts as many assemblies as their differences leave independent',
    (_, batches, count) => {
      const { passes, labels } = lotOf(batches)
      const lot = nextLot(passes, labels)
      const expected = (count / effectOf(batches)) * (T95[count - 1]! / T95[3]!) ** 2
      expect(lot.effective).toBeCloseTo(expected, 2)
      expect(lot).toMatchObject({ assemblies: count, passed: sumOf(batches.map(([p]) => p)) })
      expect(lot.yield).toBe(lot.passed / count)
      // Jeffreys' prior: half an assembly that passes and half a one that fails.
      expect(lot.expected).toBeCloseTo((lot.yield * lot.effective + 0.5) / (lot.effective + 1), 12)
    },
  )

  test('counts all of them where nothing speaks against it', () => {
    const effective = (passes: readonly boolean[], labels: readonly number[] | null) =>
      nextLot(passes, labels).effective
    const alike = lotOf([
      [8, 10],
      [8, 10],
      [8, 10],
    ])
    expect(effective(alike.passes, alike.labels)).toBe(30)
    expect(effective([true, true, true, true], [0, 0, 1, 1])).toBe(4)
    expect(effective([false, false, false], [0, 1, 1])).toBe(3)
    expect(effective([true, false], [0, 1])).toBe(2)
    expect(effective([true, false, true], null)).toBe(3)
    const opposed = lotOf([
      [20, 20],
      [0, 20],
    ])
    // Of two batches that are all or nothing there are fewer than two: one is left at least.
    expect(effective(opposed.passes, opposed.labels)).toBe(1)
    expect(() => nextLot([], null)).toThrow(/passes is .*an empty list/)
  })

  test.each([
    [50, 45],
    [7, 6],
    [12, 0],
    [9, 9],
  ])(
    'of %d assemblies, %d of which passed, ranges over what a beta-binomial count reaches with 2.5 % beyond either end',
    (n, k) => {
      const { range } = nextLot(
        Array.from({ length: n }, (_, i) => i < k),
        null,
      )
      const [a, b] = [k + 0.5, n - k + 0.5]
      const logBeta = (u: number, v: number) => lgamma(u) + lgamma(v) - lgamma(u + v)
      const chance = Array.from({ length: n + 1 }, (_, j) =>
        Math.exp(
          lgamma(n + 1) - lgamma(j + 1) - lgamma(n - j + 1) + logBeta(j + a, n - j + b) - logBeta(a, b),
        ),
      )
      const low = chance.findIndex((_, j) => sumOf(chance.slice(0, j + 1)) > 0.025)
      const high = chance.findLastIndex((_, j) => sumOf(chance.slice(j)) > 0.025)
      expect(range.low).toBeCloseTo(low / n, 12)
      expect(range.high).toBeCloseTo(high / n, 12)
    },
  )

  test('warns of two or three batches, and of batches whose sizes make them count as fewer than 3.5', () => {
    const warning = (...sizes: readonly number[]) => {
      const { passes, labels } = lotOf(sizes.map((n) => [n - 1, n] as const))
      return nextLot(passes, labels).warning
    }
    expect(nextLot([true, false, true], null).warning).toBeNull()
    expect(warning(10)).toBeNull()
    expect(warning(10, 10)).toMatch(/^Two batches are too few .* in only 80 % if/)
    expect(warning(10, 10, 10)).toMatch(/^Three batches are too few .* in only 90 % if/)
    expect(warning(10, 10, 10, 10)).toBeNull()
    // 10² / (36 + 4) = 2.5 equal ones.
    expect(warning(6, 2, 1, 1)).toMatch(
      /^The 4 batches differ so much in size \(1 to 6 assemblies\) .* than 2\.4 of equal/,
    )
    // 30² / (4 · 49 + 4) = 4.5.
    expect(warning(7, 7, 7, 7, 2)).toBeNull()
    expect(warning(9, 4, 4, 4)).toMatch(/than 3\.4 of equal/)
  })
})

test('values and ranges on their limits are inside, beyond them outside on either side', () => {
  const chart = controlChart([5, 6, 5, 6, 5, 6, -1, 6])
  // Ranges 1 × 5 and 7 × 2: mean 19 / 7; D4 3.267.
  expect(chart.ranges).toEqual([1, 1, 1, 1, 1, 7, 7])
  expect(chart.sigma).toBeCloseTo(19 / 7 / 1.128379, 6)
  expect([chart.lower, chart.upper]).toEqual([-3, 3].map((k) => expect.closeTo(4.75 + k * chart.sigma, 12)))
  expect(chart.upperRange).toBeCloseTo((19 / 7) * 3.26653, 4)
  expect([chart.outside, chart.outsideRanges]).toEqual([[], []])
  const low = controlChart([5, 5.1, 5, 5.1, 5, 5.1, 5, 5.1, 3])
  expect([low.outside, low.outsideRanges]).toEqual([[8], [8]])
  // All the same: limits of no width, nothing beyond them.
  expect(controlChart([2, 2, 2, 2])).toMatchObject({ outside: [], outsideRanges: [] })
})

describe('the summary of a lot', () => {
  const words = (names: readonly string[], ...indices: readonly number[]) => ({
    names,
    indices: Float64Array.from(indices),
  })
  const none = {
    returnLossDb: null,
    day: null,
    assembly: null,
    channel: null,
    batch: null,
    station: null,
    standardDb: 0.1,
  }

  test('without names has an assembly for every loss and one channel', () => {
    const lot = lotSummary({ ...none, lossDb: Float64Array.of(2, 1, 4, 3, 5) })
    expect(lot.assemblies.map(({ name, meanDb, losses }) => [name, meanDb, losses])).toEqual(
      [2, 1, 4, 3, 5].map((loss, i) => [`${i + 1}`, loss, 1]),
    )
    expect(lot).toMatchObject({ meanDb: 3, p50Db: 3, worstDb: 5, meanFrom: 'assemblies', byDate: false })
    expect(lot.p95Db).toBeCloseTo(4.8, 12)
    expect(lot.spreadDb).toBeCloseTo(Math.sqrt(2.5), 12)
    expect(lot.meanPlusMinusDb).toBeCloseTo((T95[4]! * Math.sqrt(2.5)) / Math.sqrt(5), 4)
    expect(lot.channels).toEqual([{ name: 'all', meanDb: 3, losses: 5 }])
    expect([lot.chart?.ranges.length, lot.trend?.from, lot.lowestReturnLossDb]).toEqual([
      4,
      'assemblies',
      null,
    ])
    expect(lot.variances.components.map(({ name }) => name)).toEqual([])
    expect(lotSummary({ ...none, lossDb: Float64Array.of(2, 1, 4) })).toMatchObject({
      chart: null,
      trend: null,
    })
    const four = lotSummary({ ...none, lossDb: Float64Array.of(2, 1, 4, 3) })
    expect([four.chart?.ranges.length, four.trend?.from]).toEqual([3, 'assemblies'])
    expect(() => lotSummary({ ...none, lossDb: Float64Array.of(2) })).toThrow(/losses in the lot is 1/)
  })

  test('puts assemblies in the order of their days, with all that belongs to them', () => {
    const lot = lotSummary({
      ...none,
      lossDb: Float64Array.of(1, 2, 3, 5, 4, 8),
      returnLossDb: Float64Array.of(50, 45, 60, 41, 70, 55),
      day: Float64Array.of(12, 12, 10, 10, 11, 11),
      assembly: words(['a', 'b', 'c', 'unused'], 0, 0, 1, 1, 2, 2),
      channel: words(['left', 'right', 'dark'], 0, 1, 0, 1, 0, 1),
      batch: words(['x', 'y'], 0, 0, 1, 1, 1, 1),
    })
    expect(lot.assemblies).toEqual([
      { name: 'b', meanDb: 4, worstDb: 5, losses: 2, day: 10, batch: 1 },
      { name: 'c', meanDb: 6, worstDb: 8, losses: 2, day: 11, batch: 1 },
      { name: 'a', meanDb: 1.5, worstDb: 2, losses: 2, day: 12, batch: 0 },
    ])
    expect([...lot.assemblyOf]).toEqual([2, 2, 0, 0, 1, 1])
    expect(lot.channels).toEqual([
      { name: 'left', meanDb: 8 / 3, losses: 3 },
      { name: 'right', meanDb: 5, losses: 3 },
      { name: 'dark', meanDb: 0, losses: 0 },
    ])
    expect(lot).toMatchObject({ lowestReturnLossDb: 41, byDate: true, meanFrom: 'batches' })
    // Batches of the assemblies' means: 1.5 with a third of the losses, 4 and 6 with two thirds.
    expect(lot.meanPlusMinusDb).toBe(
      groupedMeanHalfWidth([
        { readings: [1.5], share: 1 / 3 },
        { readings: [4, 6], share: 2 / 3 },
      ]),
    )
  })

  test('of a single batch takes its mean from the assemblies', () => {
    const lot = lotSummary({
      ...none,
      lossDb: Float64Array.of(1, 2, 4, 6),
      assembly: words(['a', 'b'], 0, 0, 1, 1),
      batch: words(['x', 'unused'], 0, 0, 0, 0),
    })
    expect(lot.meanFrom).toBe('assemblies')
    expect(lot.meanPlusMinusDb).toBeCloseTo((T95[1]! * Math.sqrt(squaresOf([1.5, 5]))) / Math.sqrt(2), 3)
  })
})
