import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { InputError } from '../../../src/numerics/inputError'
import {
  beamRadiusUm,
  divergenceHalfAngleRad,
  MFD_PER_FWHM,
  rayleighRangeUm,
  wavefrontRadiusUm,
} from '../../../src/optics/beam/gaussianBeam'
import { anyWithin } from '../../support/arbitrary'

const BEAM = { waistRadiusUm: 5.2, wavelengthUm: 1.55, index: 1 }
const distance = anyWithin(-1e4, 1e4)

describe('a Gaussian beam', () => {
  test('standard fibre at 1550 nm: Rayleigh range 54.8056 um, slope 0.094882 (5.4363 small-angle degrees)', () => {
    // Worked example after H. Kogelnik and T. Li, Appl. Opt. 5 (1966) 1550 (recomputed, not from the paper).
    expect(rayleighRangeUm(BEAM)).toBeCloseTo(54.8056, 4)
    const slope = Math.tan(divergenceHalfAngleRad(BEAM))
    expect((slope * 180) / Math.PI).toBeCloseTo(5.4363, 4)
  })

  test('its radius is symmetric about the waist and never below it', () => {
    fc.assert(
      fc.property(distance, (z) => {
        const w = beamRadiusUm(BEAM, z)
        return w >= BEAM.waistRadiusUm && w === beamRadiusUm(BEAM, -z)
      }),
    )
  })

  test('one Rayleigh range out, the radius is sqrt(2) waists and the wavefront is most curved, R = 2 zR', () => {
    const zR = rayleighRangeUm(BEAM)
    expect(beamRadiusUm(BEAM, zR)).toBeCloseTo(5.2 * Math.SQRT2, 12)
    expect(wavefrontRadiusUm(BEAM, zR)).toBeCloseTo(2 * zR, 10)
    fc.assert(fc.property(distance, (z) => Math.abs(wavefrontRadiusUm(BEAM, z)) >= 2 * zR * (1 - 1e-12)))
  })

  test('the wavefront is flat at the waist, diverging after it, converging before it', () => {
    expect(wavefrontRadiusUm(BEAM, 0)).toBe(Number.POSITIVE_INFINITY)
    expect(wavefrontRadiusUm(BEAM, 10)).toBeGreaterThan(0)
    expect(wavefrontRadiusUm(BEAM, -10)).toBeLessThan(0)
  })

  test('far away it opens at the divergence angle', () => {
    const slope = beamRadiusUm(BEAM, 1e6) / 1e6
    expect(slope).toBeCloseTo(Math.tan(divergenceHalfAngleRad(BEAM)), 8)
  })

  test('half the peak intensity lies at half the full width at half maximum', () => {
    const halfWidth = 10.4 / MFD_PER_FWHM / 2
    expect(Math.exp((-2 * halfWidth ** 2) / 5.2 ** 2)).toBeCloseTo(0.5, 14)
  })

  test('a beam without width, colour or medium is refused', () => {
    expect(() => rayleighRangeUm({ ...BEAM, waistRadiusUm: 0 })).toThrow(
      'waistRadiusUm is 0; must be a finite number above 0',
    )
    expect(() => divergenceHalfAngleRad({ ...BEAM, wavelengthUm: -1 })).toThrow(InputError)
    expect(() => beamRadiusUm({ ...BEAM, index: Number.NaN }, 1)).toThrow(InputError)
    expect(() => wavefrontRadiusUm(BEAM, Number.POSITIVE_INFINITY)).toThrow(InputError)
  })
})
