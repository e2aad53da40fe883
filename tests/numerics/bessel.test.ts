import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  besselI0,
  besselI0Scaled,
  besselI1,
  besselI1Scaled,
  besselJ0,
  besselJ1,
  besselK0,
  besselK0Scaled,
  besselK1,
  besselK1Scaled,
} from '../../src/numerics/bessel'
import { InputError } from '../../src/numerics/inputError'
import { integrate, panelRule } from '../../src/numerics/quadrature'
import reference from '../reference/data/bessel.json'
import { logUniform } from '../support/arbitrary'

const REL_TOL = 1e-14 // some tens of roundings in the longest sums

describe('Bessel functions against mpmath at 40 digits (tests/reference/data/bessel.json)', () => {
  test.each(reference.rows)('J, K and I at x = $x', ({ x, ...exact }) => {
    // J is oscillating: its error is measured against the envelope, and the phase of large x costs x roundings.
    const envelope = Math.min(1, Math.sqrt(2 / (Math.PI * x)))
    const phase = REL_TOL + x * 2.3e-16
    expect(Math.abs(besselJ0(x) - exact.j0)).toBeLessThan(envelope * phase)
    expect(Math.abs(besselJ1(x) - exact.j1)).toBeLessThan(Math.min(envelope, x) * phase)
    expect(Math.abs(besselK0Scaled(x) / exact.k0Scaled - 1)).toBeLessThan(REL_TOL)
    expect(Math.abs(besselK1Scaled(x) / exact.k1Scaled - 1)).toBeLessThan(REL_TOL)
    expect(Math.abs(besselI0Scaled(x) / exact.i0Scaled - 1)).toBeLessThan(REL_TOL)
    expect(Math.abs(besselI1Scaled(x) / exact.i1Scaled - 1)).toBeLessThan(REL_TOL)
  })
})

describe('laws of Bessel functions', () => {
  const argument = logUniform(1e-6, 600)

  test('I0 K1 + I1 K0 = 1/x (NIST Digital Library of Mathematical Functions, 10.28.2)', () => {
    fc.assert(
      fc.property(argument, (x) => {
        const wronskian = besselI0Scaled(x) * besselK1Scaled(x) + besselI1Scaled(x) * besselK0Scaled(x)
        return Math.abs(wronskian * x - 1) < 3e-14
      }),
    )
  })

  test('the slope of x J1(x) is x J0(x), across every change of method', () => {
    fc.assert(
      fc.property(logUniform(0.1, 60), (x) => {
        const area = integrate((t) => t * besselJ0(t), panelRule([x - 0.1, x + 0.1], 12))
        const rise = (x + 0.1) * besselJ1(x + 0.1) - (x - 0.1) * besselJ1(x - 0.1)
        return Math.abs(area - rise) < 1e-12 * Math.max(1, x)
      }),
    )
  })

  test('J0, I0 are even, J1, I1 are odd', () => {
    fc.assert(
      fc.property(argument, (x) => {
        expect(besselJ0(-x)).toBe(besselJ0(x))
        expect(besselJ1(-x)).toBe(-besselJ1(x))
        expect(besselI0Scaled(-x)).toBe(besselI0Scaled(x))
        expect(besselI1Scaled(-x)).toBe(-besselI1Scaled(x))
      }),
    )
  })

  test('scaled and plain forms differ by the exponential', () => {
    for (const x of [0.3, 2, 17, 40]) {
      expect(besselK0(x) / (besselK0Scaled(x) * Math.exp(-x))).toBeCloseTo(1, 15)
      expect(besselK1(x) / (besselK1Scaled(x) * Math.exp(-x))).toBeCloseTo(1, 15)
      expect(besselI0(x) / (besselI0Scaled(x) * Math.exp(x))).toBeCloseTo(1, 15)
      expect(besselI1(x) / (besselI1Scaled(x) * Math.exp(x))).toBeCloseTo(1, 15)
    }
  })

  test('the origin, and where the second kind has no value', () => {
    expect([besselJ0(0), besselJ1(0), besselI0(0), besselI1(0)]).toEqual([1, 0, 1, 0])
    expect(() => besselK0(0)).toThrow(InputError)
    expect(() => besselK1(-1)).toThrow(InputError)
    expect(() => besselK0(1e-301)).toThrow('x is 1e-301; must be a finite number, 1e-300 or more')
    expect(besselK1Scaled(1e-300) * 1e-300).toBeCloseTo(1, 14)
    expect(() => besselJ0(Number.NaN)).toThrow(InputError)
    expect(() => besselI1(Number.POSITIVE_INFINITY)).toThrow(InputError)
  })
})
