import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { InputError } from '../../src/numerics/inputError'
import { minimiseBrent } from '../../src/numerics/minimise'
import { anyWithin, logUniform } from '../support/arbitrary'

describe('a minimum in an interval', () => {
  test('a smooth dip is found to the square root of the machine precision', () => {
    const found = minimiseBrent((x) => Math.cosh(x - 0.7), -3, 5)
    expect(found.end).toBe('converged')
    expect(found.x).toBeCloseTo(0.7, 7)
    expect(found.value).toBeCloseTo(1, 15)
    expect(found.iterations).toBeLessThan(25)
  })

  test('a kink, where no parabola helps, is found by golden section', () => {
    expect(minimiseBrent((x) => Math.abs(x - Math.SQRT1_2), 0, 4).x).toBeCloseTo(Math.SQRT1_2, 7)
  })

  test('a minimum at the border is approached', () => {
    expect(minimiseBrent((x) => x, 2, 3).x).toBeCloseTo(2, 7)
    expect(minimiseBrent((x) => -x, 2, 3).x).toBeCloseTo(3, 7)
  })

  test('the order of the borders does not matter', () => {
    const f = (x: number) => (x - 1) ** 2
    expect(minimiseBrent(f, 4, -2)).toEqual(minimiseBrent(f, -2, 4))
  })

  test('failure is reported, not hidden', () => {
    expect(minimiseBrent(() => Number.NaN, 0, 1).end).toBe('not-finite')
    expect(minimiseBrent((x) => x * x, -1, 2, { maxIterations: 2 }).end).toBe('max-iterations')
    expect(() => minimiseBrent((x) => x, 0, Number.POSITIVE_INFINITY)).toThrow(InputError)
  })

  test('every parabola gives up its vertex', () => {
    fc.assert(
      fc.property(anyWithin(-50, 50), logUniform(0.01, 100), (vertex, curvature) => {
        const found = minimiseBrent((x) => curvature * (x - vertex) ** 2, -60, 70)
        return found.end === 'converged' && Math.abs(found.x - vertex) < 1e-6
      }),
    )
  })
})
