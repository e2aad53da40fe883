// A round Gaussian beam along its axis.
//   zR = pi n w0^2 / lambda,   w(z) = w0 sqrt(1 + (z/zR)^2),   R(z) = z + zR^2/z,   theta = atan(lambda / (pi n w0))
// w is the 1/e^2 intensity radius, half the MFD. Lengths in micrometres, z from the waist, downstream positive.
// Source: H. Kogelnik and T. Li, Appl. Opt. 5 (1966) 1550, eqs. 20, 21, 23 (equation numbers from memory).
// Paraxial: trust for theta below about 0.3 rad.

import { requireFinite, requirePositive } from '../../numerics/inputError'

/** Waist radius, vacuum wavelength and the medium's index; all above 0. */
export interface GaussianBeam {
  readonly waistRadiusUm: number
  readonly wavelengthUm: number
  readonly index: number
}

/** Divergence half-angle above which paraxial results carry a warning. Common practice, no source. */
export const PARAXIAL_LIMIT_RAD = 0.3

/** 1/e^2 diameter over full width at half maximum of a Gaussian: sqrt(2 / ln 2). */
export const MFD_PER_FWHM = Math.sqrt(2 / Math.LN2)

/** Returns the beam if its fields are finite and above 0; throws InputError otherwise. */
export function requireBeam<B extends GaussianBeam>(beam: B): B {
  requirePositive('waistRadiusUm', beam.waistRadiusUm)
  requirePositive('wavelengthUm', beam.wavelengthUm)
  requirePositive('index', beam.index)
  return beam
}

/** Distance from the waist at which the area has doubled. Throws InputError for a beam that is not one. */
export function rayleighRangeUm(beam: GaussianBeam): number {
  requireBeam(beam)
  return (Math.PI * beam.index * beam.waistRadiusUm ** 2) / beam.wavelengthUm
}

/** 1/e^2 intensity radius at z from the waist. */
export function beamRadiusUm(beam: GaussianBeam, zUm: number): number {
  requireFinite('zUm', zUm)
  return beam.waistRadiusUm * Math.hypot(1, zUm / rayleighRangeUm(beam))
}

/** Radius of the wavefront at z: positive for a diverging beam, Infinity at the waist. */
export function wavefrontRadiusUm(beam: GaussianBeam, zUm: number): number {
  requireFinite('zUm', zUm)
  if (zUm === 0) return Number.POSITIVE_INFINITY
  return zUm + rayleighRangeUm(beam) ** 2 / zUm
}

/** 1/e^2 half-angle of the far field. */
export function divergenceHalfAngleRad(beam: GaussianBeam): number {
  requireBeam(beam)
  return Math.atan(beam.wavelengthUm / (Math.PI * beam.index * beam.waistRadiusUm))
}
