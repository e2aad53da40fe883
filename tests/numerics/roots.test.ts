import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { InputError } from '../../src/numerics/inputError'
import { brentRoot } from '../../src/numerics/roots'
import { anyWithin, logUniform } from '../support/arbitrary'

describe('a bracketed root', () => {
  test.each([
    ['x^3 = 2', (x: number) => x ** 3 - 2, 0, 2, Math.cbrt(2)],
    ['cos x = x', (x: number) => Math.cos(x) - x, 0, 1, 0.7390851332151607],
    ['exp(-20 x) = 1e-6', (x: number) => Math.exp(-20 * x) - 1e-6, 0, 5, Math.log(1e6) / 20],
    ['a root of odd order 9', (x: number) => (x - 0.3) ** 9, -1, 4, 0.3],
    ['a step', (x: number) => (x < 1 / 3 ? -1 : 1), 0, 1, 1 / 3],
  ])('%s is found to the last digits', (_, f, lo, hi, expected) => {
    const root = brentRoot(f, lo, hi)
    expect(root.end).toBe('converged')
    const orderNine = expected === 0.3
    expect(Math.abs(root.x - expected)).toBeLessThan(orderNine ? 1e-3 : 4e-15)
  })

  test('smooth functions need far fewer steps than bisection, which needs 50', () => {
    expect(brentRoot((x) => x ** 3 - 2, 0, 2).iterations).toBeLessThan(14)
  })

  test('a root at a border is found without a search', () => {
    expect(brentRoot((x) => x, 0, 1)).toEqual({ x: 0, residual: 0, iterations: 0, end: 'converged' })
    expect(brentRoot((x) => x - 1, 0, 1).x).toBe(1)
  })

  test('a tiny root keeps its relative accuracy', () => {
    const root = brentRoot((x) => x - 1.25e-200, 0, 1, { maxIterations: 2000 })
    expect(root.x / 1.25e-200).toBeCloseTo(1, 12)
  })

  test('failure is reported, not hidden', () => {
    expect(brentRoot((x) => x * x + 1, -1, 1).end).toBe('no-sign-change')
    expect(brentRoot((x) => 1 / x, 0, 1).end).toBe('not-finite')
    expect(brentRoot((x) => Math.tan(x) - 1e5, 0, 1.57079, { maxIterations: 3 }).end).toBe('max-iterations')
    expect(() => brentRoot((x) => x, Number.NaN, 1)).toThrow(InputError)
  })

  test('it finds the root of any line, from any bracket around it', () => {
    fc.assert(
      fc.property(anyWithin(-1e3, 1e3), logUniform(1e-3, 1e3), logUniform(1e-3, 1e3), (at, below, above) => {
        const root = brentRoot((x) => (x - at) * 7, at - below, at + above)
        return root.end === 'converged' && Math.abs(root.x - at) <= 1e-13 * Math.max(Math.abs(at), 1e-3)
      }),
    )
  })
})
