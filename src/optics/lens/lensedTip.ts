// A fibre whose end is ground to a sphere: the mode, flat at the tip, leaves through one curved face.
//   g = pi w0^2 (n - m) / (lambda R),   spot w1 = w0 / sqrt(1 + g^2),   working distance = (m R / (n - m)) / (1 + 1/g^2)
// with n the fibre's index, m the medium's and R the tip's radius. Light further than R m / n from the axis is totally
// reflected at the tip.
// Source: one refracting surface acting on a flat Gaussian beam (H. Kogelnik and T. Li, Appl. Opt. 5 (1966) 1550);
// for hemispherical ends H. Kuwahara et al., Appl. Opt. 19 (1980) 2578 (citation only). Paraxial: tipCoupling.ts
// has the real spot, which lies nearer. Micrometres.

import { InputError, requirePositive } from '../../numerics/inputError'

export interface LensedTip {
  /** 1/e^2 radius of the fibre's mode, in the plane considered. */
  readonly modeRadiusUm: number
  readonly tipRadiusUm: number
  readonly fibreIndex: number
  readonly mediumIndex: number
  readonly wavelengthUm: number
}

export interface TipFocus {
  /** 1/e^2 radius at the waist. */
  readonly spotRadiusUm: number
  /** From the tip to the waist, in the medium. */
  readonly workingDistanceUm: number
}

/** Spot and working distance. Throws InputError for lengths of 0 or below, or a medium whose index is not below that of the fibre. */
export function lensedTipFocus(tip: LensedTip): TipFocus {
  const { modeRadiusUm, tipRadiusUm, mediumIndex } = tip
  const step = indexStep(tip)
  const g =
    (Math.PI * modeRadiusUm ** 2 * step) / (requirePositive('wavelengthUm', tip.wavelengthUm) * tipRadiusUm)
  const g2 = g * g
  return {
    spotRadiusUm: modeRadiusUm / Math.sqrt(1 + g2),
    workingDistanceUm: ((mediumIndex * tipRadiusUm) / step) * (g2 / (1 + g2)),
  }
}

/** Distance from the axis beyond which the tip reflects everything. Errors as lensedTipFocus. */
export function tipApertureRadiusUm(tip: LensedTip): number {
  indexStep(tip)
  return (tip.tipRadiusUm * tip.mediumIndex) / tip.fibreIndex
}

/**
 * How far short of the paraxial focus a ray at the mode's 1/e^2 radius crosses the axis, by exact refraction; null
 * where that ray is totally reflected. To be compared with the Rayleigh range of the spot. Errors as lensedTipFocus.
 */
export function tipAberrationUm(tip: LensedTip): number | null {
  const { modeRadiusUm, tipRadiusUm, fibreIndex, mediumIndex } = tip
  const paraxialUm = (mediumIndex * tipRadiusUm) / indexStep(tip)
  if (modeRadiusUm >= tipApertureRadiusUm(tip)) return null
  const incidence = Math.asin(modeRadiusUm / tipRadiusUm)
  const refracted = Math.asin((fibreIndex * modeRadiusUm) / (mediumIndex * tipRadiusUm))
  const sagUm = tipRadiusUm * (1 - Math.cos(incidence))
  return paraxialUm - (modeRadiusUm / Math.tan(refracted - incidence) - sagUm)
}

/**
 * Share of the light reflected at the tip that couples back into the fibre's own mode: a flat face gives 1, a curved
 * one 1 / (1 + (pi n w0^2 / (lambda R))^2). Each transverse axis contributes the square root.
 */
export function tipReturnOverlap(tip: Omit<LensedTip, 'mediumIndex'>): number {
  requirePositive('tipRadiusUm', tip.tipRadiusUm)
  const bend = (Math.PI * tip.fibreIndex * tip.modeRadiusUm ** 2) / (tip.wavelengthUm * tip.tipRadiusUm)
  return 1 / (1 + bend * bend)
}

function indexStep(tip: LensedTip): number {
  requirePositive('modeRadiusUm', tip.modeRadiusUm)
  requirePositive('tipRadiusUm', tip.tipRadiusUm)
  requirePositive('mediumIndex', tip.mediumIndex)
  const step = tip.fibreIndex - tip.mediumIndex
  if (!(step > 0))
    throw new InputError('index of the fibre', tip.fibreIndex, `above that of the medium, ${tip.mediumIndex}`)
  return step
}
