// The plane-wave interference of two parallel faces (Airy function).
//   T(d) = (1-R1)(1-R2) / [(1-r)^2 + 4 r sin^2(d/2)],  r = sqrt(R1 R2),  d = 4 pi n L cos(t) / lambda
//   ripple = 20 log10[(1+r)/(1-r)]
// Source: M. Born and E. Wolf, Principles of Optics (7th ed.), sect. 7.6.1. Neglects diffraction in the gap, which
// makes the real ripple smaller as the gap grows: an upper bound.

import { requireFinite, requireInRange, requirePositive } from '../../numerics/inputError'

export interface FacePairReflectance {
  readonly reflectance1: number
  readonly reflectance2: number
}

/** Power through the pair at a round-trip phase, 0..1. Reflectances 0 to 0.999, else InputError. */
export function etalonTransmission(faces: FacePairReflectance, roundTripPhaseRad: number): number {
  requireFinite('roundTripPhaseRad', roundTripPhaseRad)
  const r = meanReflectance(faces)
  const passed = (1 - faces.reflectance1) * (1 - faces.reflectance2)
  return passed / ((1 - r) ** 2 + 4 * r * Math.sin(roundTripPhaseRad / 2) ** 2)
}

/** Peak-to-peak ripple of the transmission in dB. */
export function etalonRippleDb(faces: FacePairReflectance): number {
  const r = meanReflectance(faces)
  return 20 * Math.log10((1 + r) / (1 - r))
}

/** Change of gap from one transmission peak to the next; the angle is the one inside the gap. */
export function fringePeriodInGapUm(wavelengthUm: number, index: number, refractedRad = 0): number {
  requirePositive('wavelengthUm', wavelengthUm)
  requirePositive('index', index)
  requireInRange('refractedRad', refractedRad, -1.5, 1.5)
  return wavelengthUm / (2 * index * Math.cos(refractedRad))
}

/** Change of wavelength from one peak to the next near `wavelengthUm`, for a cavity of the given group index. */
export function fringePeriodInWavelengthUm(
  wavelengthUm: number,
  groupIndex: number,
  lengthUm: number,
): number {
  requirePositive('wavelengthUm', wavelengthUm)
  requirePositive('groupIndex', groupIndex)
  requirePositive('lengthUm', lengthUm)
  return wavelengthUm ** 2 / (2 * groupIndex * lengthUm)
}

function meanReflectance(faces: FacePairReflectance): number {
  requireInRange('reflectance1', faces.reflectance1, 0, 0.999)
  requireInRange('reflectance2', faces.reflectance2, 0, 0.999)
  return Math.sqrt(faces.reflectance1 * faces.reflectance2)
}
