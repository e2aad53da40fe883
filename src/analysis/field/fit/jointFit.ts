// What a fit of a real joint is, wherever it was made.

import type { SparseSeries } from '../../../numerics/polynomial/sparseValue'
import type { JointRegion } from './jointAxes'

export interface JointFit {
  readonly region: JointRegion
  /** Real less Gaussian loss over the region, dB. */
  readonly series: SparseSeries
  /** Largest difference from exact sums at held-out poses within the tolerances that lose at most 10 dB more than the best, dB. */
  readonly errorDb: number
  readonly evaluations: number
}

/** A fit that misses held-out poses by less is done. */
export const FIT_ERROR_DB = 0.02
