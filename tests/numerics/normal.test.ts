import { describe, expect, test } from 'vitest'
import { normalProbability, normalQuantile } from '../../src/numerics/normal'
import { quantileShares, wilsonInterval } from '../../src/numerics/proportion'
import reference from '../reference/data/yield.json'

describe('the normal distribution agrees with scipy.stats.norm', () => {
  test.each(reference.quantiles)('quantile of $p to 1e-14', ({ p, z }) => {
    expect(Math.abs(normalQuantile(p) - z)).toBeLessThanOrEqual(1e-14 * Math.max(1, Math.abs(z)))
  })
  test.each(reference.probabilities)('probability below $z to a relative 1e-12', ({ z, p }) => {
    expect(Math.abs(normalProbability(z) / p - 1)).toBeLessThan(1e-12)
  })
  test('and each undoes the other', () => {
    for (let p = 0.001; p < 1; p += 0.0137) expect(normalProbability(normalQuantile(p))).toBeCloseTo(p, 14)
  })
  test('a quantile of 0 or 1 is refused', () => {
    expect(() => normalQuantile(0)).toThrow('p is 0')
    expect(() => normalQuantile(1)).toThrow('p is 1')
  })
})

// One-sided fall-out Phi(-3 Cpk): lecture table of process capability, 1349.9 ppm at 1.00 and 31.671 ppm at 4/3.
test.each([
  [1, 1349.898],
  [4 / 3, 31.67124],
])('a process of Cpk %f lets %f ppm fall out on one side', (cpk, ppm) => {
  expect(normalProbability(-3 * cpk) * 1e6).toBeCloseTo(ppm, 3)
})

describe('intervals of a share', () => {
  test.each(reference.wilson)(
    'Wilson for $successes of $trials at $confidence agrees with scipy',
    (entry) => {
      const { low, high } = wilsonInterval(entry.successes, entry.trials, entry.confidence)
      expect(low).toBeCloseTo(entry.low, 12)
      expect(high).toBeCloseTo(entry.high, 12)
    },
  )
  test('counts outside the trials are refused', () => {
    expect(() => wilsonInterval(6, 5, 0.95)).toThrow('successes is 6')
    expect(() => wilsonInterval(0, 0, 0.95)).toThrow('trials is 0')
  })
  // Ranks of X(l) and X(u) from scipy.stats.binom: largest l with cdf(l - 1) <= 0.025, smallest u with cdf(u - 1) >= 0.975.
  test.each([
    [0.95, 1000, 936, 964],
    [0.95, 10_000, 9457, 9543],
    [0.99, 10_000, 9880, 9920],
    [0.5, 10, 2, 9],
  ])(
    'the %f quantile of %i samples lies between ranks %i and %i, as scipy has them',
    (p, samples, low, high) => {
      const shares = quantileShares(p, samples, 0.95)
      expect(shares.low * samples).toBeCloseTo(low, 9)
      expect(shares.high * samples).toBeCloseTo(high, 9)
    },
  )
  test('a hundred samples give the 99th percentile no upper bound', () => {
    expect(quantileShares(0.99, 100, 0.95).high).toBeGreaterThan(1)
    expect(quantileShares(0.99, 100, 0.95).low).toBeCloseTo(0.97, 12)
  })
  test('the shares that bound a percentile close in with the square root of the samples', () => {
    const few = quantileShares(0.95, 100_000, 0.95)
    const many = quantileShares(0.95, 10_000_000, 0.95)
    expect((few.high - few.low) / (many.high - many.low)).toBeCloseTo(10, 10)
    // Where the ranks stop being exact, both ways agree to two ranks.
    const [exact, normal] = [quantileShares(0.95, 20_000, 0.95), quantileShares(0.95, 20_001, 0.95)]
    expect(Math.abs(exact.low - normal.low) * 20_000).toBeLessThan(2)
    expect(Math.abs(exact.high - normal.high) * 20_000).toBeLessThan(2)
  })
})
