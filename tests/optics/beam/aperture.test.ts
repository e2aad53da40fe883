import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { InputError } from '../../../src/numerics/inputError'
import { integrate, panelRule } from '../../../src/numerics/quadrature'
import {
  apertureTransmission,
  coupledTruncation,
  ellipticalApertureTransmission,
  offsetApertureTransmission,
  shiftedApertureTransmission,
} from '../../../src/optics/beam/aperture'
import { uniform } from '../../support/arbitrary'

const size = uniform(0.2, 8)

describe('a circular aperture', () => {
  test('of one beam radius passes 1 - exp(-2), and tiny and huge ones pass nothing and everything', () => {
    expect(apertureTransmission({ apertureRadiusUm: 3, beamRadiusUm: 3 })).toBeCloseTo(0.8646647168, 10)
    expect(apertureTransmission({ apertureRadiusUm: 1e-9, beamRadiusUm: 1 })).toBeCloseTo(2e-18, 30)
    expect(apertureTransmission({ apertureRadiusUm: 1e3, beamRadiusUm: 1 })).toBe(1)
  })

  test('equal radii, or no offset, are the round centred case', () => {
    fc.assert(
      fc.property(size, size, (apertureRadiusUm, beamRadiusUm) => {
        const exact = apertureTransmission({ apertureRadiusUm, beamRadiusUm })
        const round = { apertureRadiusUm, beamRadiusXUm: beamRadiusUm, beamRadiusYUm: beamRadiusUm }
        expect(Math.abs(ellipticalApertureTransmission(round) - exact)).toBeLessThan(1e-12)
        const centred = { apertureRadiusUm, beamRadiusUm, offsetUm: 0 }
        expect(Math.abs(offsetApertureTransmission(centred) - exact)).toBeLessThan(1e-12)
      }),
    )
  })

  test('an elliptical or decentred beam agrees with the plain sum over the disc', () => {
    fc.assert(
      fc.property(size, size, size, (a, wx, wy) => {
        fc.pre(a < 6 * Math.min(wx, wy) && Math.max(wx, wy) < 6 * Math.min(wx, wy))
        const ellipse = ellipticalApertureTransmission({
          apertureRadiusUm: a,
          beamRadiusXUm: wx,
          beamRadiusYUm: wy,
        })
        expect(ellipse).toBeCloseTo(discSum(a, wx, wy, 0), 9)
        const offset = offsetApertureTransmission({ apertureRadiusUm: a, beamRadiusUm: wx, offsetUm: wy / 2 })
        expect(offset).toBeCloseTo(discSum(a, wx, wx, wy / 2), 9)
      }),
      { numRuns: 40 },
    )
  })

  test('an offset never passes more, and its sign does not matter', () => {
    fc.assert(
      fc.property(size, size, size, (apertureRadiusUm, beamRadiusUm, offsetUm) => {
        const aperture = { apertureRadiusUm, beamRadiusUm }
        const offCentre = offsetApertureTransmission({ ...aperture, offsetUm })
        expect(offCentre).toBeLessThanOrEqual(apertureTransmission(aperture) + 1e-12)
        expect(offsetApertureTransmission({ ...aperture, offsetUm: -offsetUm })).toBe(offCentre)
      }),
    )
  })

  test('coupled back into its mode the beam pays twice, in decibels', () => {
    expect(coupledTruncation(0.9)).toBeCloseTo(0.81, 15)
    expect(() => coupledTruncation(1.1)).toThrow('transmission is 1.1; must be 0 to 1')
  })

  test('apertures and beams without size are refused', () => {
    expect(() => apertureTransmission({ apertureRadiusUm: 0, beamRadiusUm: 1 })).toThrow(InputError)
    expect(() => apertureTransmission({ apertureRadiusUm: 1, beamRadiusUm: -1 })).toThrow(InputError)
    expect(() =>
      ellipticalApertureTransmission({ apertureRadiusUm: 1, beamRadiusXUm: 1, beamRadiusYUm: 0 }),
    ).toThrow(InputError)
    expect(() =>
      offsetApertureTransmission({ apertureRadiusUm: 1, beamRadiusUm: 1, offsetUm: Number.NaN }),
    ).toThrow(InputError)
  })
})

/** Intensity of a Gaussian summed over a disc in polar coordinates, with no Bessel function. */
function discSum(a: number, wx: number, wy: number, dx: number): number {
  const radial = panelRule([0, a / 4, a / 2, (3 * a) / 4, a], 24)
  const steps = 256
  return integrate((r) => {
    let ring = 0
    for (let i = 0; i < steps; i++) {
      const angle = (2 * Math.PI * i) / steps
      const x = r * Math.cos(angle) - dx
      const y = r * Math.sin(angle)
      ring += Math.exp((-2 * x * x) / (wx * wx) - (2 * y * y) / (wy * wy))
    }
    return (ring / steps) * r * (4 / (wx * wy))
  }, radial)
}

describe('the fast form for hot loops', () => {
  const radius = uniform(1, 2)
  const aperture = uniform(1, 6)

  test('is the radial integral for an ellipse in the middle and for a round beam off it', () => {
    fc.assert(
      fc.property(aperture, radius, radius, (apertureRadiusUm, x, y) => {
        const exact = ellipticalApertureTransmission({ apertureRadiusUm, beamRadiusXUm: x, beamRadiusYUm: y })
        expect(Math.abs(shiftedApertureTransmission(apertureRadiusUm, x, y, 0, 0) - exact)).toBeLessThan(1e-6)
        const offsetUm = apertureRadiusUm / 3
        const off = offsetApertureTransmission({ apertureRadiusUm, beamRadiusUm: x, offsetUm })
        const fast = shiftedApertureTransmission(apertureRadiusUm, x, x, 0, offsetUm)
        expect(Math.abs(fast - off)).toBeLessThan(1e-6)
      }),
    )
  })

  test('still gives the small transmitted power when the beam misses the aperture', () => {
    const exact = offsetApertureTransmission({ apertureRadiusUm: 2, beamRadiusUm: 3, offsetUm: 4 })
    expect(shiftedApertureTransmission(2, 3, 3, 4, 0)).toBeCloseTo(exact, 2)
  })
})
