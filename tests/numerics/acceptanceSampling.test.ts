import { describe, expect, test } from 'vitest'
import { atMostFailing, sampleSize } from '../../src/numerics/acceptanceSampling'
import { InputError } from '../../src/numerics/inputError'

/** The same sum over exact integers: ways to choose as BigInt, the share a fraction of whole numbers. */
function exactly(most: number, trials: number, failing: number, outOf: number): number {
  let sum = 0n
  let ways = 1n
  for (let k = 0; k <= most; k++) {
    sum += ways * BigInt(failing) ** BigInt(k) * BigInt(outOf - failing) ** BigInt(trials - k)
    ways = (ways * BigInt(trials - k)) / BigInt(k + 1)
  }
  const digits = 10n ** 18n
  return Number((sum * digits) / BigInt(outOf) ** BigInt(trials)) / 1e18
}

describe('sampling by attributes', () => {
  // 59 from n >= ln(1 - C) / ln(1 - p). The series 59, 93, 124, 153, 181 are the sizes of nonparametric tolerance limits for
  // 95 % and 95 % (S. S. Wilks, Ann. Math. Stat. 12 (1941) 91, as tabulated; from memory), which are the same sum.
  test.each([
    [0, 59],
    [1, 93],
    [2, 124],
    [3, 153],
    [4, 181],
  ])('with %i failures allowed, 5 %% are found with 95 %% in %i parts', (allowed, size) => {
    expect(sampleSize(allowed, 0.05, 0.95)).toBe(size)
  })

  test.each([
    [0, 0.01, 0.9],
    [0, 0.001, 0.99],
    [7, 0.2, 0.8],
    [50, 0.5, 0.9999],
  ])('the size for %i, %f, %f is the smallest that suffices', (allowed, share, confidence) => {
    const size = sampleSize(allowed, share, confidence)
    expect(atMostFailing(allowed, size, share)).toBeLessThanOrEqual(1 - confidence)
    expect(atMostFailing(allowed, size - 1, share)).toBeGreaterThan(1 - confidence)
  })

  test.each([
    [0, 22, 8, 100],
    [2, 22, 8, 100],
    [4, 24, 8, 100],
    [30, 1000, 3, 100],
    [99, 100, 1, 2],
  ])('at most %i of %i failing is the exact sum', (most, trials, failing, outOf) => {
    expect(atMostFailing(most, trials, failing / outOf)).toBeCloseTo(
      exactly(most, trials, failing, outOf),
      13,
    )
  })

  test('ends where the sum does, and keeps its digits where single terms are below the smallest number', () => {
    expect(atMostFailing(5, 5, 0.3)).toBe(1)
    expect(atMostFailing(0, 10, 0)).toBe(1)
    expect(atMostFailing(0, 10, 1)).toBe(0)
    expect(atMostFailing(-1, 10, 0.1)).toBe(0)
    // The middle of a binomial of a million: about a half.
    expect(atMostFailing(500_000, 1_000_000, 0.5)).toBeCloseTo(0.5, 3)
    expect(() => sampleSize(0, 0, 0.95)).toThrow(InputError)
    expect(() => sampleSize(0, 0.05, 1)).toThrow(InputError)
  })
})
