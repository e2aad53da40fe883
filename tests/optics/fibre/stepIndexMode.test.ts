import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { InputError } from '../../../src/numerics/inputError'
import { integrate, panelRule } from '../../../src/numerics/quadrature'
import { lp01Field } from '../../../src/optics/fibre/lp01Field'
import {
  corePowerFraction,
  isSingleMode,
  normalisedFrequency,
  solveLp01,
  stepIndexMode,
} from '../../../src/optics/fibre/stepIndexMode'
import reference from '../../reference/data/step-index-lp01.json'
import { uniform } from '../../support/arbitrary'

const FIBRE = { coreRadiusUm: 4.1, na: 0.12, wavelengthUm: 1.55 }
const frequency = uniform(0.8, 10)

describe('the exact mode against scipy root finding and adaptive quadrature (tests/reference/data)', () => {
  test.each(reference.modes)('core radius $coreRadiusUm um, NA $na, $wavelengthUm um', (row) => {
    const mode = stepIndexMode(row)
    for (const key of [
      'V',
      'U',
      'W',
      'b',
      'petermann1MfdUm',
      'petermann2MfdUm',
      'bestGaussianOverlap',
    ] as const) {
      expect(Math.abs(mode[key] / row[key] - 1), key).toBeLessThan(1e-9)
    }
    // scipy's own minimiser stops some 1e-8 from the flat maximum.
    expect(Math.abs(mode.bestGaussianMfdUm / row.bestGaussianMfdUm - 1)).toBeLessThan(1e-6)
  })
})

describe('laws of the mode', () => {
  test('the eigenvalues satisfy U^2 + W^2 = V^2 and the field has no kink at the core edge', () => {
    fc.assert(
      fc.property(frequency, (V) => {
        const mode = solveLp01(V)
        expect(Math.hypot(mode.U, mode.W)).toBeCloseTo(V, 12)
        const h = 1e-5
        const inside = (1 - lp01Field(mode, 1 - h)) / h
        const outside = (lp01Field(mode, 1 + h) - 1) / h
        expect(outside / inside).toBeCloseTo(1, 3)
      }),
    )
  })

  test('the closed forms of both Petermann radii and of the core power equal their defining integrals', () => {
    fc.assert(
      fc.property(uniform(1, 4), (V) => {
        const mode = solveLp01(V)
        const edges = [0, 1, 2, 4, 8, 16, 32, 64, 128].filter((edge) => edge <= 2 || edge < 60 / mode.W)
        const whole = panelRule(edges, 32)
        const field = (r: number) => lp01Field(mode, r)
        const slope = (r: number) => {
          const h = 1e-5 * Math.abs(r - 1)
          return (field(r + h) - field(r - h)) / (2 * h)
        }
        const power = integrate((r) => field(r) ** 2 * r, whole)
        const spread = integrate((r) => field(r) ** 2 * r ** 3, whole)
        const bend = integrate((r) => slope(r) ** 2 * r, whole)
        const core = integrate((r) => field(r) ** 2 * r, panelRule([0, 1], 32))
        const fibre = { coreRadiusUm: 1, na: V / (2 * Math.PI), wavelengthUm: 1 }
        const { petermann1MfdUm, petermann2MfdUm } = stepIndexMode(fibre)
        expect(petermann1MfdUm / (2 * Math.sqrt((2 * spread) / power))).toBeCloseTo(1, 8)
        expect(petermann2MfdUm / (2 * Math.sqrt((2 * power) / bend))).toBeCloseTo(1, 6)
        expect(corePowerFraction(mode)).toBeCloseTo(core / power, 9)
      }),
      { numRuns: 30 },
    )
  })

  test('no width overlaps more with the mode than the best Gaussian, down to the weakest guides', () => {
    const anyFrequency = uniform(0.65, 12)
    const factor = uniform(0.5, 2)
    fc.assert(
      fc.property(anyFrequency, factor, (V, times) => {
        const mode = solveLp01(V)
        const fibre = { coreRadiusUm: 10, na: V / (20 * Math.PI), wavelengthUm: 1 }
        const { bestGaussianMfdUm, bestGaussianOverlap } = stepIndexMode(fibre)
        const best = bestGaussianMfdUm / 20
        const edges = [0, 1, 2]
        while ((edges.at(-1) ?? 0) < 40 / mode.W) edges.push(2 * (edges.at(-1) ?? 0))
        const rule = panelRule(edges, 40)
        const power = integrate((r) => lp01Field(mode, r) ** 2 * r, rule)
        const overlap = (w: number) =>
          integrate((r) => lp01Field(mode, r) * Math.exp(-((r / w) ** 2)) * r, rule) ** 2 /
          ((power * w ** 2) / 4)
        expect(overlap(best)).toBeCloseTo(bestGaussianOverlap, 8)
        expect(overlap(times * best)).toBeLessThanOrEqual(bestGaussianOverlap + 1e-10)
      }),
      { numRuns: 40 },
    )
  })

  test('scaling core and wavelength together scales the diameters and nothing else', () => {
    fc.assert(
      fc.property(uniform(0.2, 5), (scale) => {
        const small = stepIndexMode(FIBRE)
        const large = stepIndexMode({ ...FIBRE, coreRadiusUm: 4.1 * scale, wavelengthUm: 1.55 * scale })
        expect(large.b).toBeCloseTo(small.b, 11)
        expect(large.petermann2MfdUm / scale).toBeCloseTo(small.petermann2MfdUm, 10)
        expect(large.bestGaussianMfdUm / scale).toBeCloseTo(small.bestGaussianMfdUm, 5)
      }),
    )
  })

  test('a stronger guide holds more power in the core, and Petermann II is never above Petermann I', () => {
    fc.assert(
      fc.property(frequency, (V) => {
        expect(corePowerFraction(solveLp01(V + 0.1))).toBeGreaterThan(corePowerFraction(solveLp01(V)))
        const { petermann1MfdUm, petermann2MfdUm, b } = stepIndexMode({
          coreRadiusUm: 10,
          na: V / (20 * Math.PI),
          wavelengthUm: 1,
        })
        expect(petermann2MfdUm).toBeLessThanOrEqual(petermann1MfdUm)
        expect(b).toBeGreaterThan(0)
        expect(b).toBeLessThan(1)
      }),
    )
  })

  test('standard fibre at 1310 nm, a 4.1 um core at V = 2.2: 9.43071 um (Petermann II), 9.53067 um (best Gaussian)', () => {
    const fibre = { coreRadiusUm: 4.1, na: (2.2 * 1.31) / (2 * Math.PI * 4.1), wavelengthUm: 1.31 }
    expect(stepIndexMode(fibre).petermann2MfdUm).toBeCloseTo(9.43071, 5)
    expect(stepIndexMode(fibre).bestGaussianMfdUm).toBeCloseTo(9.53067, 5)
  })
})

describe('single mode or not', () => {
  test('the second mode begins at the first zero of J0', () => {
    expect(isSingleMode(2.4048)).toBe(true)
    expect(isSingleMode(2.405)).toBe(false)
  })

  test('standard fibre guides one mode at 1310 nm and two at 980 nm', () => {
    expect(isSingleMode(normalisedFrequency({ ...FIBRE, wavelengthUm: 1.31 }))).toBe(true)
    expect(isSingleMode(normalisedFrequency({ ...FIBRE, wavelengthUm: 0.98 }))).toBe(false)
  })
})

describe('impossible fibres', () => {
  test('they are refused with the field and what is allowed', () => {
    expect(() => stepIndexMode({ ...FIBRE, coreRadiusUm: 0 })).toThrow(
      'coreRadiusUm is 0; must be a finite number above 0',
    )
    expect(() => stepIndexMode({ ...FIBRE, na: 1.2 })).toThrow('na is 1.2; must be 0 to 1')
    expect(() => stepIndexMode({ ...FIBRE, wavelengthUm: Number.NaN })).toThrow(InputError)
    expect(() => stepIndexMode({ ...FIBRE, coreRadiusUm: 0.5 })).toThrow(
      'the core diameter is 1 µm; must be 2.467 to 82.23 µm at this NA and wavelength (V 0.6 to 20)',
    )
    expect(() => solveLp01(0.1)).toThrow('V is 0.1; must be 0.6 to 20')
  })

  test('the borders themselves are solved', () => {
    for (const V of [0.6, 20]) {
      const { U, W } = solveLp01(V)
      expect(Math.hypot(U, W)).toBeCloseTo(V, 12)
      expect(W).toBeGreaterThan(0)
    }
  })
})
