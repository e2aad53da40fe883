// The quantile plot of a lot: both ranges on one scale, but for a lot far narrower than predicted.

import { expect, test } from 'vitest'
import { quantileFigure } from '../../src/figures/lots/lossDistribution'

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
