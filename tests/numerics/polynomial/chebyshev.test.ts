import { describe, expect, test } from 'vitest'
import { chebyshevSeries, chebyshevValue } from '../../../src/numerics/polynomial/chebyshev'

describe('a Chebyshev series', () => {
  test('of a polynomial of lower degree is that polynomial', () => {
    const cubic = (x: number) => 1 - 2 * x + 0.5 * x ** 3
    const series = chebyshevSeries(cubic, -3, 5, 8)
    for (let x = -3; x <= 5; x += 0.37) expect(chebyshevValue(series, x)).toBeCloseTo(cubic(x), 12)
    expect(series.error).toBeLessThan(1e-12)
  })
  test('of exp states about the error that it has', () => {
    const series = chebyshevSeries(Math.exp, 0, 2, 7)
    let worst = 0
    for (let x = 0; x <= 2; x += 0.01)
      worst = Math.max(worst, Math.abs(chebyshevValue(series, x) - Math.exp(x)))
    expect(worst).toBeLessThan(series.error)
    expect(worst).toBeGreaterThan(series.error / 1000)
  })
  test('needs an interval and four points', () => {
    expect(() => chebyshevSeries(Math.exp, 1, 1, 8)).toThrow('to is 1; must be above from, 1')
    expect(() => chebyshevSeries(Math.exp, 0, 1, 3)).toThrow('count is 3')
  })
})
