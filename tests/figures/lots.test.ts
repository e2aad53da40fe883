// Figures of a lot: its distribution over the predicted one, its control chart, and its quantile plot (both ranges on one scale, but
// for a lot far narrower than predicted).

import { expect, test } from 'vitest'
import { controlChartFigure } from '../../src/figures/lots/controlChart'
import { lossDistributionFigure, quantileFigure } from '../../src/figures/lots/lossDistribution'
import { lotSummary } from '../../src/measure/lots/lotSummary'
import { barsOf, pointsOf, rulesOf } from './support/series'

const spread = (from: number, to: number) =>
  Float64Array.from({ length: 200 }, (_, i) => from + ((to - from) * i) / 199)
const drawn = (measured: Float64Array) => {
  const { picture } = quantileFigure({ measured, predicted: spread(1, 5), limitDb: 2 })
  const [pane] = picture.panes
  const line = pane?.series.find((each) => each.kind === 'line')
  if (pane === undefined || line?.kind !== 'line') throw new Error('no line')
  return { from: pane.y.from, to: pane.y.to, ends: Array.from(line.y) }
}

test('a lot far narrower than predicted fills the height, and the line of agreement ends at the frame', () => {
  const { from, to, ends } = drawn(spread(2, 2.4))
  expect(to - from).toBeCloseTo(0.4 * 1.12, 9)
  expect(ends).toEqual([from, to])
})

test('a lot as wide as predicted, and one beyond the predicted range, are shown over both ranges', () => {
  for (const measured of [spread(1.2, 4.4), spread(7, 7.2)]) {
    const { from, to, ends } = drawn(measured)
    expect(from).toBeLessThan(1)
    expect(to).toBeGreaterThan(Math.max(5, measured[199] ?? 0))
    expect(ends[0]).toBe(1)
  }
})

/** Shares below a value, percent. */
const shareBelow = (values: Float64Array, at: number) =>
  (100 * values.filter((each) => each < at).length) / values.length

test('the distribution has its percentiles in words, and in every bin the share of losses between its ends', () => {
  const measured = spread(1.003, 1.997).map((each) => each ** 2)
  const predicted = spread(1.2, 4.2)
  const { sentence, picture, table } = lossDistributionFigure({ measured, predicted, limitDb: 2 })
  const percentile = (values: Float64Array, share: number) => {
    const last = values.length - 1
    const index = share * last
    const [low = 0, high = 0] = [values[Math.floor(index)], values[Math.ceil(index)]]
    return (low + (high - low) * (index % 1)).toFixed(2)
  }
  expect(sentence).toBe(
    `200 measured losses: P50 ${percentile(measured, 0.5)} dB, P95 ${percentile(measured, 0.95)} dB; predicted P50 ${percentile(predicted, 0.5)} dB, P95 ${percentile(predicted, 0.95)} dB.`,
  )
  const bars = barsOf(picture, 'measured') ?? []
  const curve = pointsOf(picture, 'predicted') ?? []
  const last = table.rows.length - 1
  for (const [i, row] of table.rows.entries()) {
    const [from = 0, to = 0, share = 0, expected = 0] = row.map(Number)
    expect(bars[i]?.[1]).toBe(share)
    expect(curve[i]?.[1]).toBe(expected)
    expect(curve[i]?.[0]).toBeCloseTo((from + to) / 2, 9)
    if (i > 0) expect(from).toBeCloseTo(Number(table.rows[i - 1]?.[1]), 9)
    // The outermost bins hold what lies beyond; a value on an edge may fall to either side.
    const [below, above] = [
      i === 0 ? 0 : shareBelow(measured, from),
      i === last ? 100 : shareBelow(measured, to),
    ]
    expect(Math.abs(share - (above - below))).toBeLessThanOrEqual(0.5 + 1e-9)
  }
  expect(table.rows.reduce((sum, row) => sum + Number(row[2]), 0)).toBeCloseTo(100, 9)
  expect(table.rows.reduce((sum, row) => sum + Number(row[3]), 0)).toBeCloseTo(100, 9)
  expect(rulesOf(picture)).toEqual({ limit: 2 })
  expect(lossDistributionFigure({ measured, predicted: [], limitDb: 2 }).table.columns).toHaveLength(3)
})

test('the control chart marks the assembly that is outside, and the ranges on both sides of it, at their places', () => {
  const losses = [1, 1.02, 0.98, 1.01, 0.99, 3, 1, 1.02, 0.99, 1.01, 0.98, 1.01]
  const lot = lotSummary({
    lossDb: Float64Array.from(losses),
    returnLossDb: null,
    day: null,
    assembly: { names: losses.map((_, i) => `A${i + 1}`), indices: Float64Array.from(losses, (_, i) => i) },
    channel: null,
    batch: null,
    station: null,
    standardDb: 0.01,
  })
  const figure = controlChartFigure(lot)
  if (figure === null) throw new Error('no chart')
  // Individuals: mean of the moving ranges over d2 = 2/√π = 1.128, three of it on each side; ranges up to D4 = 3.267 of their mean
  // (D. C. Montgomery, Introduction to Statistical Quality Control, appendix VI; from memory).
  const ranges = losses.slice(1).map((each, i) => Math.abs(each - (losses[i] ?? 0)))
  const mean = losses.reduce((sum, each) => sum + each, 0) / losses.length
  const meanRange = ranges.reduce((sum, each) => sum + each, 0) / ranges.length
  const half = (3 * meanRange) / (2 / Math.sqrt(Math.PI))
  expect(figure.sentence).toBe(
    `1 assembly is outside the control limits ${(mean - half).toFixed(2)} to ${(mean + half).toFixed(2)} dB; 2 moving ranges exceed ${(3.267 * meanRange).toFixed(2)} dB.`,
  )
  const marked = figure.picture.panes.map(({ series }) =>
    series.flatMap((each) =>
      each.kind === 'points'
        ? Array.from(each.x).filter((_, i) => (Array.isArray(each.mark) ? each.mark[i] : each.mark) === 'x')
        : [],
    ),
  )
  expect(marked).toEqual([[6], [6, 7]])
  expect(figure.table.rows.map((row) => row[3])).toEqual(['', ...ranges])
})
