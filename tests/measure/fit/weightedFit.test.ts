import { expect, test } from 'vitest'
import { noiseSigma } from '../../../src/measure/fit/noiseModel'
import { weightedFit } from '../../../src/measure/fit/weightedFit'

const X = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11]
const SCATTER = [1, -2, 0.5, 1.2, -0.7, -1, 2, 0.3, -1.4, 0.8, -0.6, 0.4]
/** 2 + 3 x with noise of 0.01 and 2 % of 3 x. */
const Y = X.map((x, i) => 2 + 3 * x + SCATTER[i]! * Math.hypot(0.01, 0.06 * x))

const fitted = (data: readonly number[]) =>
  weightedFit(
    {
      start: [1, 1],
      residualCount: X.length,
      residuals: ([a = 0, b = 0], out) => {
        for (const [i, x] of X.entries()) out[i] = a + b * x - data[i]!
      },
    },
    ([, b = 0], out) => {
      for (const [i, x] of X.entries()) out[i] = b * x
    },
  )

// A straight line by its normal equations, weighted by the noise that the fit itself states.
test('parameters, uncertainties and covariance are those of the weighted normal equations', () => {
  const fit = fitted(Y)
  const [a = 0, b = 0] = fit.parameters
  const weights = X.map((x) => noiseSigma(fit.noise, b * x) ** -2)
  const sum = (of: (i: number) => number) => X.reduce((total, _, i) => total + weights[i]! * of(i), 0)
  const [one, x, xx] = [sum(() => 1), sum((i) => X[i]!), sum((i) => X[i]! ** 2)]
  const [y, xy] = [sum((i) => Y[i]!), sum((i) => X[i]! * Y[i]!)]
  const determinant = one * xx - x * x
  expect(a).toBeCloseTo((xx * y - x * xy) / determinant, 4)
  expect(b).toBeCloseTo((one * xy - x * y) / determinant, 4)
  const square = sum((i) => (a + b * X[i]! - Y[i]!) ** 2)
  // 12 readings, 2 parameters and the 2 numbers of the noise; an uncertainty from 8 is itself known to 1 / sqrt(16).
  const scale = (square / 8) * (1 + 1 / Math.sqrt(16)) ** 2
  expect(fit.degreesOfFreedom).toBe(8)
  const expected = [xx, -x, -x, one].map((value) => (value / determinant) * scale)
  expected.forEach((value, k) => {
    expect(fit.covariance[k]! / value).toBeCloseTo(1, 2)
  })
  expect(fit.standards[0]! / Math.sqrt(expected[0]!)).toBeCloseTo(1, 2)
  expect(fit.standards[1]! / Math.sqrt(expected[3]!)).toBeCloseTo(1, 2)
  expect(fit.residuals[4]).toBeCloseTo(a + 4 * b - Y[4]!, 12)
  expect(fit.converged).toBe(true)
  // The reading of the least noise counts for far more than the others.
  expect(Math.abs(a - Y[0]!)).toBeLessThan(0.02)
})

test('readings without any noise are fitted exactly, and so are those of equal noise without a signal', () => {
  const fit = fitted(X.map((x) => 2 + 3 * x))
  expect(fit.parameters[0]).toBeCloseTo(2, 9)
  expect(fit.parameters[1]).toBeCloseTo(3, 9)
  expect(fit.standards.every((standard) => standard < 1e-9)).toBe(true)
  const dark = weightedFit(
    {
      start: [1],
      residualCount: 4,
      residuals: ([a = 0], out) => {
        for (const [i, value] of [1, 2, 4, 9].entries()) out[i] = a - value
      },
    },
    (_, out) => {
      out.fill(0)
    },
  )
  expect(dark.parameters[0]).toBeCloseTo(4, 9) // the mean
})
