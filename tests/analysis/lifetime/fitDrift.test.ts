// The fit of a stress test against closed forms, an independent mixed-effects least squares and tests of known truth; acceleration
// against a published worked example.

import { describe, expect, test } from 'vitest'
import { driftAt, fitDrift } from '../../../src/analysis/lifetime/fitDrift'
import { arrheniusFactor, coffinMansonFactor, lawAt } from '../../../src/analysis/lifetime/laws'
import { stressTest } from '../../../src/model/measurements/stressSeries'
import { DRIFT_LAWS } from '../../../src/model/words/lifetime'
import { packNumbers } from '../../../src/numerics/compactNumbers'
import { normalQuantile } from '../../../src/numerics/normal'

const STEPS = [0, 100, 250, 500, 1000]

function rowsOf(losses: readonly (readonly number[])[], exposures: readonly number[] = STEPS) {
  const all = losses.flatMap((own, assembly) =>
    own.map((loss, i) => ({ assembly, loss, at: exposures[i] ?? 0 })),
  )
  return {
    labels: [
      {
        role: 'assembly' as const,
        names: losses.map((_, i) => `A${i}`),
        values: packNumbers(Float64Array.from(all, ({ assembly }) => assembly)),
      },
    ],
    lossDb: packNumbers(Float64Array.from(all, ({ loss }) => loss)),
    exposure: packNumbers(Float64Array.from(all, ({ at }) => at)),
    exposureUnit: 'h' as const,
  }
}

test.each(DRIFT_LAWS)('losses that follow the %s law exactly give its rate and no interval', (law) => {
  const losses = [0.8, 1.1, 0.9].map((start) => STEPS.map((t) => start + 0.02 * lawAt(law, t, 100)))
  const test = stressTest(rowsOf(losses))
  const fit = fitDrift(test, law)
  expect(fit.rateDb).toBeCloseTo(0.02, 12)
  expect(fit.rateStandardDb).toBeLessThan(1e-12)
  expect(fit.residualDb).toBeLessThan(1e-12)
  expect(driftAt(fit, 1000, 100).meanDb).toBeCloseTo(
    { linear: 20, 'square root': 0.02 * Math.sqrt(1000), logarithmic: 0.02 * Math.log10(11) }[law],
    10,
  )
})

test('a single series is the straight line of a textbook', () => {
  // D. C. Montgomery's form of the line through x = 0 to 4, y = 1, 3, 2, 5, 4: slope 0.8, residual sum 3.6, t(3) = 3.18245 (by hand;
  // Student's t from a table).
  const fit = fitDrift(stressTest(rowsOf([[1, 3, 2, 5, 4]], [0, 1, 2, 3, 4])), 'linear')
  expect(fit.rateDb).toBeCloseTo(0.8, 12)
  expect(fit.residualDb).toBeCloseTo(Math.sqrt(3.6 / 3), 12)
  expect(fit.rateStandardDb).toBeCloseTo(Math.sqrt(3.6 / 3 / 10), 12)
  expect(fit.rateSpreadDb).toBeNull()
  expect(driftAt(fit, 1, 1).meanPlusMinusDb).toBeCloseTo(3.18245 * Math.sqrt(0.12), 4)
})

test('the mean rate is that of one least-squares solution with a start for each assembly, if all are measured alike', () => {
  const losses = [
    [0.81, 0.84, 0.86, 0.93, 1.02],
    [1.1, 1.13, 1.11, 1.21, 1.24],
    [0.92, 0.91, 0.99, 1.0, 1.09],
  ]
  const fit = fitDrift(stressTest(rowsOf(losses)), 'square root')
  // Normal equations of loss = a_assembly + b sqrt(t), solved by elimination of the starts: sums about the means of each assembly.
  const g = STEPS.map(Math.sqrt)
  const mean = (list: readonly number[]) => list.reduce((a, b) => a + b, 0) / list.length
  const products = losses.flatMap((own) => own.map((loss, i) => (g[i]! - mean(g)) * (loss - mean(own))))
  const squares = losses.flatMap(() => g.map((each) => (each - mean(g)) ** 2))
  const sum = (list: readonly number[]) => list.reduce((a, b) => a + b, 0)
  expect(fit.rateDb).toBeCloseTo(sum(products) / sum(squares), 12)
})

test('intervals hold the true mean rate, and the rate of one further assembly, in 92 to 98 % of 500 tests', () => {
  let state = 12345
  const normal = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    return normalQuantile((state + 0.5) / 2 ** 32)
  }
  let [held, next] = [0, 0]
  for (let n = 0; n < 500; n++) {
    const losses = Array.from({ length: 6 }, () => {
      const [start, rate] = [1 + 0.2 * normal(), 0.01 + 0.004 * normal()]
      return STEPS.map((t) => start + rate * Math.sqrt(t) + 0.01 * normal())
    })
    const at = driftAt(fitDrift(stressTest(rowsOf(losses)), 'square root'), 2000, 100)
    const truth = 0.01 * Math.sqrt(2000)
    if (Math.abs(at.meanDb - truth) <= at.meanPlusMinusDb) held++
    const further = truth + 0.004 * Math.sqrt(2000) * normal()
    if (Math.abs(at.meanDb - further) <= at.onePlusMinusDb) next++
  }
  expect(held / 500).toBeGreaterThan(0.92)
  expect(held / 500).toBeLessThan(0.98)
  expect(next / 500).toBeGreaterThan(0.92)
  expect(next / 500).toBeLessThan(0.98)
})

describe('a test that cannot be fitted is refused with the reason', () => {
  test.each([
    ['nothing after the start', [[1, 1.1]], [0, 0], /limited to exposure 0/],
    ['one channel at two exposures', [[1, 1.1]], [0, 10], /three exposures or two assemblies/],
    ['an exposure below 0', [[1, 1.1]], [-1, 10], /exposure is -1; must be at least 0/],
  ] as const)('%s', (_, losses, exposures, reason) => {
    expect(() => fitDrift(stressTest(rowsOf(losses, exposures)), 'linear')).toThrow(reason)
  })
})

describe('acceleration', () => {
  // NIST/SEMATECH e-Handbook of Statistical Methods, 8.1.5.1, from memory: from 25 to 125 degC the Arrhenius factor is 133 for
  // 0.5 eV and 17,597 for 1.0 eV (there with 1/k = 11605 and 0 degC = 273.16 K).
  test.each([
    [0.5, 133, 1],
    [1, 17_597, 50],
  ])('Arrhenius with %f eV between 25 and 125 °C is %d', (activationEnergyEv, published, within) => {
    const factor = arrheniusFactor({ activationEnergyEv, testC: 125, serviceC: 25 })
    expect(Math.abs(factor - published)).toBeLessThan(within)
  })

  test('Coffin-Manson: twice the swing with an exponent of 2 is four times as fast; a larger swing in service slows the test', () => {
    expect(coffinMansonFactor({ exponent: 2, testSwingC: 100, serviceSwingC: 50 })).toBe(4)
    expect(coffinMansonFactor({ exponent: 3, testSwingC: 50, serviceSwingC: 100 })).toBe(0.125)
  })
})
