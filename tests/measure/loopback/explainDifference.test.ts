// Causes whose answer is known: a cause is found on whichever side of its nominal value it lies.

import { expect, test } from 'vitest'
import { explainDifference } from '../../../src/measure/loopback/explainDifference'

const STANDARD_DB = 0.01

/** Losses that are nearly even in x: only the right side fits all three exactly, the other nearly. */
const predict = ({ x = 0 }: Readonly<Record<string, number>>) =>
  [0.3, 0.1, -0.2].map((skew) => x * x + skew * x)

test.each([1, -1])('x = %d is found, with all of the difference that it makes', (truth) => {
  const found = explainDifference({
    predict,
    measuredDb: predict({ x: truth }),
    standardDb: [STANDARD_DB, STANDARD_DB, STANDARD_DB],
    causes: [{ id: 'x', nominal: 0, standard: 1 }],
  })
  const [single] = found.single
  expect(single?.value).toBeCloseTo(truth, 3)
  expect(found.joint.values.x).toBeCloseTo(truth, 3)
  expect(single?.pull).toBeCloseTo(truth, 3)
  expect(single?.dataPull).toBeCloseTo(truth, 3)
  expect(single?.explainedDb).toBeCloseTo(found.meanDifferenceDb, 3)
  expect(found.meanDifferenceDb).toBeCloseTo(1 + (0.2 / 3) * truth, 12)
  expect(found.verdict).toBe('x')
  expect(single?.isAtLimit).toBe(false)
  // d(loss)/dx = 2x + skew at three readings: 1/σ_x² = Σ (2x + skew)² / σ² + 1.
  const slopes = [0.3, 0.1, -0.2].map((skew) => 2 * truth + skew)
  const standard = 1 / Math.sqrt(slopes.reduce((sum, slope) => sum + (slope / STANDARD_DB) ** 2, 0) + 1)
  expect(found.joint.standards.x! / standard).toBeCloseTo(1, 2)
  expect((single?.interval?.[1] ?? 0) - (single?.interval?.[0] ?? 0)).toBeCloseTo(4 * standard, 3)
  expect(found.joint.priorShare.x).toBeCloseTo(standard ** 2, 6)
})

test('limits are five standard deviations, unless stated', () => {
  const at = (more: object) =>
    explainDifference({
      predict: ({ x = 0 }) => [x],
      measuredDb: [100],
      standardDb: [0.001],
      causes: [{ id: 'x', nominal: 1, standard: 2, ...more }],
    }).single[0]
  expect(at({})).toMatchObject({ value: expect.closeTo(11, 6), isAtLimit: true, interval: null })
  expect(at({ upper: 20 })).toMatchObject({ value: expect.closeTo(20, 6), isAtLimit: true })
})

test('causes together have each its own value, standard deviation and share of its tolerance', () => {
  // Two readings that see one cause each, of slopes 1 and 4: variances 1 / (slope² / σ² + 1 / tolerance²).
  const [sigma, tolerance] = [0.5, 2]
  const found = explainDifference({
    predict: ({ a = 0, b = 0 }) => [a, 4 * b],
    measuredDb: [1, 8],
    standardDb: [sigma, sigma],
    causes: [
      { id: 'a', nominal: 0, standard: tolerance },
      { id: 'b', nominal: 0, standard: tolerance },
    ],
  })
  const of = (slope: number) => 1 / Math.sqrt((slope / sigma) ** 2 + tolerance ** -2)
  expect(found.joint.standards.a).toBeCloseTo(of(1), 6)
  expect(found.joint.standards.b).toBeCloseTo(of(4), 6)
  expect(found.joint.priorShare.a).toBeCloseTo((of(1) / tolerance) ** 2, 6)
  expect(found.joint.priorShare.b).toBeCloseTo((of(4) / tolerance) ** 2, 6)
  expect(found.joint.values.a).toBeCloseTo((1 / sigma ** 2) * of(1) ** 2, 6)
  expect(found.joint.values.b).toBeCloseTo(((4 * 8) / sigma ** 2) * of(4) ** 2, 6)
})
