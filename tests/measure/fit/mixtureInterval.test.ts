import { expect, test } from 'vitest'
import { mixtureHalfWidth } from '../../../src/measure/fit/mixtureInterval'
import { normalProbability } from '../../../src/numerics/normal'

const half = (explained: Parameters<typeof mixtureHalfWidth>[0]) =>
  mixtureHalfWidth(explained, 0.95, normalProbability)

test('one explanation gives its own interval, moved or not', () => {
  // Normal tables: 1.959964 for 95 % two-sided; far off, one tail alone: 1.644854.
  expect(half([{ weight: 3, offset: 0, standard: 2 }])).toBeCloseTo(2 * 1.959964, 4)
  expect(half([{ weight: 1, offset: 9, standard: 1 }])).toBeCloseTo(10.644854, 4)
})

test('two explanations hold the coverage together', () => {
  // A narrow one at the value and a wide one of 10 %: half of the wide one's probability may stay outside, so its median |z|.
  expect(
    half([
      { weight: 0.9, offset: 0, standard: 1e-6 },
      { weight: 0.1, offset: 0, standard: 1 },
    ]),
  ).toBeCloseTo(0.67449, 4)
  // The other way round, one that is far off by itself: of its 10 % half must be reached, at its own middle.
  expect(
    half([
      { weight: 0.9, offset: 0, standard: 1e-3 },
      { weight: 0.1, offset: -5, standard: 0.1 },
    ]),
  ).toBeCloseTo(5, 4)
})

test('weights count relative to each other, and one below 1e-5 of them all is not looked at', () => {
  const [near, wide] = [
    { weight: 30, offset: 0.2, standard: 1 },
    { weight: 10, offset: -0.6, standard: 3 },
  ]
  const both = half([near, wide])
  expect(half([near, wide].map((each) => ({ ...each, weight: each.weight / 1000 })))).toBeCloseTo(both, 5)
  expect(half([near, wide, { weight: 39e-5, offset: 1e9, standard: 1 }])).toBeCloseTo(both, 4)
  // 2 % of weight far off: 0.95 of all are 0.969 of the rest.
  const far = half([
    { ...near, offset: 0 },
    { weight: 0.6, offset: 1e9, standard: 1 },
  ])
  expect(2 * normalProbability(far) - 1).toBeCloseTo((0.95 * 30.6) / 30, 4)
})
