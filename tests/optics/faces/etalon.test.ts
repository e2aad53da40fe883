import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { InputError } from '../../../src/numerics/inputError'
import {
  etalonRippleDb,
  etalonTransmission,
  fringePeriodInGapUm,
  fringePeriodInWavelengthUm,
} from '../../../src/optics/faces/etalon'
import { uniform } from '../../support/arbitrary'

const reflectance = uniform(0, 0.9)
const SILICA = { reflectance1: 0.0330066, reflectance2: 0.0330066 }

describe('two parallel faces', () => {
  test('the ripple is the ratio of best to worst phase', () => {
    fc.assert(
      fc.property(reflectance, reflectance, (reflectance1, reflectance2) => {
        const faces = { reflectance1, reflectance2 }
        const best = etalonTransmission(faces, 0)
        const worst = etalonTransmission(faces, Math.PI)
        expect(etalonRippleDb(faces)).toBeCloseTo(10 * Math.log10(best / worst), 9)
      }),
    )
  })

  test('transmission stays in 0..1 and is the sum over all round trips', () => {
    fc.assert(
      fc.property(reflectance, reflectance, uniform(-9, 9), (r1, r2, phase) => {
        let [re, im] = [0, 0]
        for (let trip = 0; trip < 400; trip++) {
          const amplitude = Math.sqrt(r1 * r2) ** trip
          re += amplitude * Math.cos(trip * phase)
          im += amplitude * Math.sin(trip * phase)
        }
        const bySum = (1 - r1) * (1 - r2) * (re * re + im * im)
        const transmission = etalonTransmission({ reflectance1: r1, reflectance2: r2 }, phase)
        expect(transmission).toBeCloseTo(bySum, 10)
        expect(transmission).toBeLessThanOrEqual(1 + 1e-12)
      }),
    )
  })

  test('equal faces pass everything on resonance', () => {
    expect(etalonTransmission(SILICA, 2 * Math.PI)).toBeCloseTo(1, 12)
    expect(etalonRippleDb({ reflectance1: 0, reflectance2: 0.3 })).toBe(0)
  })

  test('a gap of 50 um in air at 1550 nm has fringes every 0.775 um of gap and 24.025 nm of wavelength', () => {
    expect(fringePeriodInGapUm(1.55, 1)).toBeCloseTo(0.775, 12)
    expect(fringePeriodInWavelengthUm(1.55, 1, 50)).toBeCloseTo(0.024025, 9)
  })

  test('oblique faces have longer fringes in the gap', () => {
    // V. Shah et al., J. Lightwave Technol. 7 (1989) 1478: the period in separation grows with the angle.
    expect(fringePeriodInGapUm(1.55, 1, 0.2)).toBeGreaterThan(fringePeriodInGapUm(1.55, 1, 0.1))
  })

  test('mirrors without loss or limit are refused', () => {
    expect(() => etalonRippleDb({ reflectance1: 1, reflectance2: 0.1 })).toThrow(
      'reflectance1 is 1; must be 0 to 0.999',
    )
    expect(() => fringePeriodInWavelengthUm(1.55, 1, 0)).toThrow(InputError)
    expect(() => etalonTransmission(SILICA, Number.NaN)).toThrow(InputError)
  })
})
