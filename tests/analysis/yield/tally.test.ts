// Counts in classes against the samples themselves: quantiles, histogram and moments of lists whose answers are known.

import { describe, expect, test } from 'vitest'
import {
  addAll,
  addTallies,
  CLASSES,
  classOf,
  emptyTally,
  FINE_CLASSES,
  type Tally,
  tallyQuantile,
  WORST_KEPT,
} from '../../../src/analysis/yield/tally'
import { histogramOf, momentsOf, percentileOf, yieldOf } from '../../../src/analysis/yield/yieldResult'
import { NO_LIGHT_DB } from '../../../src/optics'

/** The tally of one block of losses, in their order, within a limit. */
function tallyOf(losses: readonly number[], limitDb = 1, block = 0, first = 0): Tally {
  const counts = new Uint32Array(CLASSES)
  for (const loss of losses) counts[classOf(loss)]! += 1
  return {
    counts,
    passed: losses.filter((loss) => loss <= limitDb).length,
    samples: losses.length,
    leastDb: Math.min(...losses),
    greatestDb: Math.max(...losses),
    worst: losses.map((lossDb, i) => ({ index: first + i, lossDb })),
    blocks: [
      {
        block,
        samples: losses.length,
        sumDb: losses.reduce((sum, loss) => sum + loss, 0),
        sumSquaresDb2: losses.reduce((sum, loss) => sum + loss * loss, 0),
      },
    ],
  }
}

describe('classes', () => {
  test('are two thousand a dB up to 64 dB, ten a dB beyond, and one for no light', () => {
    expect([-0.1, 0, 0.00049, 0.0005, 1, 63.9999].map(classOf)).toEqual([0, 0, 0, 1, 2000, 127_999])
    expect([64, 64.09, 64.1001, 100.05].map((loss) => classOf(loss) - FINE_CLASSES)).toEqual([0, 0, 1, 360])
    expect([NO_LIGHT_DB, NO_LIGHT_DB + 1, Number.NaN].map(classOf)).toEqual(Array(3).fill(CLASSES - 1))
    expect(classOf(NO_LIGHT_DB - 0.05)).toBe(CLASSES - 2)
  })

  test('give the quantiles of the samples to the width of a class', () => {
    // 1000 losses of 0.003, 0.006, ... dB in any order: the share p stays at or below 3 p dB.
    const losses = Array.from({ length: 1000 }, (_, i) => 0.003 * (((i * 377) % 1000) + 1))
    const tally = tallyOf(losses)
    for (const share of [0.001, 0.25, 0.5, 0.95, 0.999])
      expect(Math.abs(tallyQuantile(tally, share) - 3 * share)).toBeLessThan(0.0011)
    expect(tallyQuantile(tally, 1)).toBe(tally.greatestDb)
    expect(tallyQuantile(tally, 0)).toBe(tally.leastDb)
    // Above 64 dB to a tenth of a dB.
    const dark = tallyOf(Array.from({ length: 100 }, (_, i) => 70 + i))
    expect(Math.abs(tallyQuantile(dark, 0.5) - 119)).toBeLessThan(0.11)
  })

  test('within which all samples lie are read on a straight line between their edges', () => {
    // Four samples in the class from 1 to 1.0005 dB: a half of them reach its middle.
    const tally = tallyOf([1.00001, 1.0001, 1.0003, 1.00049])
    expect(tallyQuantile(tally, 0.5)).toBeCloseTo(1.00025, 9)
  })
})

test('an interval of a percentile of few samples is open above and begins at nothing', () => {
  const tally = tallyOf([1, 2, 3, 4, 5])
  const { lossDb, lowDb, highDb } = percentileOf(tally, 0.99)
  expect(lossDb).toBeCloseTo(5, 3)
  expect(lowDb).toBeLessThan(5)
  expect(highDb).toBe(NO_LIGHT_DB)
  expect(percentileOf(tally, 0.01).lowDb).toBe(0)
  // Of a thousand, the median lies between the order statistics 469 and 531 (binomial, 500 ± 1.96 sqrt(250)).
  const many = percentileOf(tallyOf(Array.from({ length: 1000 }, (_, i) => 0.003 * (i + 1))), 0.5)
  expect(Math.abs(many.lowDb - 3 * 0.469)).toBeLessThan(0.006)
  expect(Math.abs(many.highDb - 3 * 0.531)).toBeLessThan(0.006)
})

test('moments and shares of blocks are those of all samples', () => {
  // Mean of 1 to 5 is 3, mean of their squares 11: a variance of 2.
  const tally = addTallies(tallyOf([1, 2], 3), tallyOf([3, 4, 5], 3, 1))
  expect(momentsOf(tally).meanDb).toBeCloseTo(3, 12)
  expect(momentsOf(tally).standardDeviationDb).toBeCloseTo(Math.SQRT2, 12)
  expect(yieldOf(tally).yield).toBe(0.6)
})

test('tallies of any workers add up to the same, with the worst samples of all', () => {
  const parts = [0, 1, 2].map((block) =>
    tallyOf(
      Array.from({ length: 15 }, (_, i) => 0.1 * (((i + 5 * block) * 7) % 15)),
      1,
      block,
      15 * block,
    ),
  )
  const [a, b] = [addAll(parts), addAll(parts.toReversed())]
  expect(a).toEqual(b)
  expect(a.samples).toBe(45)
  expect(a.blocks.map(({ block }) => block)).toEqual([0, 1, 2])
  expect(a.worst).toHaveLength(WORST_KEPT)
  expect([a.leastDb, a.greatestDb]).toEqual([0, 0.1 * 14])
  for (const [i, { lossDb, index }] of a.worst.entries()) {
    const next = a.worst[i + 1]
    if (next === undefined) continue
    expect(lossDb > next.lossDb || (lossDb === next.lossDb && index < next.index)).toBe(true)
  }
  expect(addAll([])).toEqual(emptyTally())
})

describe('a histogram', () => {
  test('counts every sample once, in classes that are wide enough to be drawn', () => {
    const losses = Array.from({ length: 3000 }, (_, i) => 0.5 + (((i * 911) % 3000) + 0.5) / 1000)
    const { fromDb, stepDb, counts, beyond } = histogramOf(tallyOf(losses))
    expect(counts.length).toBeLessThanOrEqual(61)
    // Three dB in at most sixty classes: the next round width is 0.05 dB.
    expect(stepDb).toBe(0.05)
    expect(fromDb).toBe(0.5)
    expect(counts.reduce((sum, count) => sum + count, 0) + beyond).toBe(3000)
    expect(counts[0]).toBe(50)
    expect(counts[30]).toBe(50)
  })

  test('begins on a multiple of its width, and leaves one sample in a thousand beyond', () => {
    const losses = [...Array.from({ length: 1999 }, (_, i) => 0.013 + 0.0001 * i), 60]
    const { fromDb, stepDb, counts, beyond } = histogramOf(tallyOf(losses))
    expect(beyond).toBe(1)
    expect(fromDb % stepDb).toBe(0)
    expect(fromDb).toBeLessThanOrEqual(0.013)
    expect(fromDb).toBeGreaterThan(0.013 - stepDb)
    expect(counts.reduce((sum, count) => sum + count, 0)).toBe(1999)
  })
})
