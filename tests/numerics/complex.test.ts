import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { complex, minus, over, phasor, plus, root, squareOf, times } from '../../src/numerics/complex'
import { anyWithin } from '../support/arbitrary'

const part = anyWithin(-1e3, 1e3)
const number = fc.record({ re: part, im: part })

describe('complex numbers', () => {
  test('the root squared is the number, and its real part is never negative', () => {
    fc.assert(
      fc.property(number, (a) => {
        const r = root(a)
        const size = 1e-12 * (1 + Math.hypot(a.re, a.im))
        expect(squareOf(minus(times(r, r), a))).toBeLessThanOrEqual(size * size)
        expect(r.re).toBeGreaterThanOrEqual(0)
      }),
    )
  })

  test('the root of a negative number points up: sqrt(-4) = 2i', () => {
    expect(root(complex(-4))).toEqual(complex(0, 2))
    expect(root(complex(0))).toEqual(complex(0, 0))
  })

  test('division undoes multiplication, subtraction addition', () => {
    fc.assert(
      fc.property(number, number, (a, b) => {
        fc.pre(squareOf(b) > 1e-6)
        const back = over(times(a, b), b)
        const scale = 1e-9 * (1 + Math.hypot(a.re, a.im))
        expect(Math.abs(back.re - a.re)).toBeLessThanOrEqual(scale)
        expect(Math.abs(back.im - a.im)).toBeLessThanOrEqual(scale)
        const same = minus(plus(a, b), b)
        expect(same.re).toBeCloseTo(a.re, 9)
        expect(same.im).toBeCloseTo(a.im, 9)
      }),
    )
  })

  test('(1 + 2i)(3 - i) = 5 + 5i and (5 + 5i) / (3 - i) = 1 + 2i, by hand', () => {
    expect(times(complex(1, 2), complex(3, -1))).toEqual(complex(5, 5))
    expect(over(complex(5, 5), complex(3, -1))).toEqual(complex(1, 2))
    expect(phasor(Math.PI / 2).im).toBe(1)
  })
})
