// The effect on the integral of a far-field scan that ends too early, and its correction.
//   bias b = (integral of the fitted shape up to the last angle) / (Petermann II of its whole near field) − 1
// A small bias is a recognised systematic effect, and the result is corrected for it (JCGM 100:2008, 3.2.3 and 5.1):
// divided by 1 + b, with the uncertainty of b in the budget. A large one would make the fitted shape the result, so
// the integral is then kept as the scan gives it and the size of the bias is added to the interval (F.2.4.5).

import type { FarFieldFit, FarFieldShape } from './farFieldFit'
import { petermann2MfdUm, petermannIntegrals } from './petermannIntegral'

/** Largest bias, as a fraction, that is corrected. */
export const LARGEST_CORRECTION = 0.01
/** Misfit from which the shape only shows that the true value lies between no correction and twice the correction. */
const POOR_SHAPE = 10

interface Truncation {
  /** How much too large the integral reads, as a fraction. */
  readonly bias: number
  /** Standard uncertainty of the bias from how well the shape describes the scan; its noise is in the scan's own. */
  readonly shapeStandard: number
  readonly isCorrected: boolean
}

/** Bias of the integral of `shape` up to `limitRad`; NaN where the shape has no power up to there. */
export function truncationBias(shape: FarFieldShape, limitRad: number): number {
  const seen = petermannIntegrals((angle) => shape.intensity(Math.sin(angle)), limitRad)
  return petermann2MfdUm(seen, 1) / shape.mfdInWavelengths - 1
}

export function truncationOf(fit: FarFieldFit, limitRad: number): Truncation {
  const bias = truncationBias(fit, limitRad)
  return {
    bias,
    shapeStandard: (Math.abs(bias) * Math.min(1, fit.misfit / POOR_SHAPE)) / Math.sqrt(3),
    isCorrected: Math.abs(bias) <= LARGEST_CORRECTION,
  }
}
