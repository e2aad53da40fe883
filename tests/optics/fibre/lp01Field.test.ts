import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { besselJ0 } from '../../../src/numerics/bessel'
import { InputError } from '../../../src/numerics/inputError'
import { integrate, panelRule } from '../../../src/numerics/quadrature'
import {
  fieldRadiusOneOverE,
  lp01FarField,
  lp01Field,
  lp01Samples,
} from '../../../src/optics/fibre/lp01Field'
import { solveLp01 } from '../../../src/optics/fibre/stepIndexMode'
import { uniform } from '../../support/arbitrary'

const frequency = uniform(1, 4)

describe('the near field', () => {
  test('it is 1 at the core edge and falls all the way', () => {
    fc.assert(
      fc.property(frequency, uniform(0, 20), (V, r) => {
        const mode = solveLp01(V)
        expect(lp01Field(mode, 1)).toBe(1)
        expect(lp01Field(mode, r + 0.01)).toBeLessThan(lp01Field(mode, r))
      }),
    )
  })

  test('at its 1/e radius it is 1/e of the axis value', () => {
    fc.assert(
      fc.property(frequency, (V) => {
        const mode = solveLp01(V)
        const r = fieldRadiusOneOverE(mode)
        expect((lp01Field(mode, r) / lp01Field(mode, 0)) * Math.E).toBeCloseTo(1, 12)
      }),
    )
  })

  test('far out it is small but never lost to overflow', () => {
    expect(lp01Field(solveLp01(2), 500)).toBeGreaterThanOrEqual(0)
    expect(() => lp01Field(solveLp01(2), -1)).toThrow(InputError)
  })

  test('its samples integrate as the field does', () => {
    const mode = solveLp01(2)
    const { radius, field, weight } = lp01Samples(mode, 32)
    let power = 0
    for (let i = 0; i < radius.length; i++) power += (weight[i] ?? 0) * (field[i] ?? 0) ** 2
    const direct = integrate((r) => lp01Field(mode, r) ** 2 * r, panelRule([0, 1, 2, 4, 8, 16, 32], 40))
    expect(power).toBeCloseTo(direct, 13)
  })
})

describe('the far field', () => {
  test('it is the Hankel transform of the near field, normalised on the axis', () => {
    fc.assert(
      fc.property(frequency, uniform(0, 6), (V, alpha) => {
        const mode = solveLp01(V)
        const edges = Array.from({ length: 2 + Math.ceil(36 / mode.W) }, (_, i) => i)
        const rule = panelRule(edges, 14)
        const wave = integrate((r) => lp01Field(mode, r) * besselJ0(alpha * r) * r, rule)
        const total = integrate((r) => lp01Field(mode, r) * r, rule)
        expect(lp01FarField(mode, alpha)).toBeCloseTo(wave / total, 11)
      }),
      { numRuns: 60 },
    )
  })

  test('it passes smoothly through alpha = U, where the closed form is 0 / 0', () => {
    const mode = solveLp01(2)
    const at = (step: number) => lp01FarField(mode, mode.U + step)
    const slope = (at(2e-4) - at(-2e-4)) / 4e-4
    for (const border of [-1e-4, 1e-4]) {
      const jump = at(border + 1e-7) - at(border - 1e-7) - 2e-7 * slope
      expect(Math.abs(jump)).toBeLessThan(1e-11)
    }
    expect((at(1e-7) - at(-1e-7)) / 2e-7).toBeCloseTo(slope, 7)
    expect(at(0)).toBeCloseTo((at(1e-4) + at(-1e-4)) / 2, 8)
  })

  test('it is 1 on the axis, even in alpha, and negative beyond its first null', () => {
    const mode = solveLp01(2)
    expect(lp01FarField(mode, 0)).toBeCloseTo(1, 14)
    expect(lp01FarField(mode, -1.3)).toBe(lp01FarField(mode, 1.3))
    expect(lp01FarField(mode, 4.2)).toBeGreaterThan(0)
    expect(lp01FarField(mode, 4.3)).toBeLessThan(0)
    expect(() => lp01FarField(mode, Number.NaN)).toThrow(InputError)
  })
})
