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
