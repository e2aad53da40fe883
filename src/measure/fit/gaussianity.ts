// How Gaussian a measured profile is, as numbers and as a plain sentence.

import { significantText } from '../../numerics/numberText'

export interface Gaussianity {
  /** Rms residual relative to the fitted peak. */
  readonly residualRms: number
  readonly largestResidual: number
  /** Correlation of neighbouring residuals: near 0 for noise, near 1 for a shape that the model lacks. */
  readonly neighbourCorrelation: number
  readonly systematic: boolean
  readonly sentence: string
}

/** `residuals` in scan order, in the unit of `peak`. */
export function gaussianity(residuals: Float64Array, peak: number): Gaussianity {
  const n = residuals.length
  let square = 0
  let product = 0
  let largest = 0
  for (let i = 0; i < n; i++) {
    const here = residuals[i] as number
    square += here * here
    largest = Math.max(largest, Math.abs(here))
    if (i > 0) product += here * (residuals[i - 1] ?? 0)
  }
  const neighbourCorrelation = square > 0 ? product / square : 0
  const residualRms = Math.sqrt(square / n) / peak
  // Three standard deviations of the correlation of white noise.
  const systematic = neighbourCorrelation > 3 / Math.sqrt(n) && residualRms > 1e-4
  const size = `${significantText(100 * residualRms, 2)} % of the peak (rms), ${significantText((100 * largest) / peak, 2)} % at most`
  const sentence = systematic
    ? `The mode departs from a Gaussian by ${size}; the residuals are systematic: this is the mode shape or a fault of the scan, not noise.`
    : `The mode is Gaussian to within ${size}; the residuals look random.`
  return { residualRms, largestResidual: largest / peak, neighbourCorrelation, systematic, sentence }
}
