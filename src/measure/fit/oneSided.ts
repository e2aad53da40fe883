// A fit whose last parameter cannot be negative: its normal posterior, cut at zero.
//   Z = Φ(t),   λ = φ(t) / Φ(t),   t = a / s;   mean a + s λ,   variance s² [1 − λ (λ + t)]
// The other parameters follow along their covariance with it. Source: mean and variance of a truncated normal
// distribution: N. L. Johnson, S. Kotz and N. Balakrishnan, Continuous Univariate Distributions 1 (1994) 13.10 (from memory).

import { normalProbability } from '../../numerics/normal'
import type { RestrictedFit } from './restrictedLikelihood'

/** Below this many standard deviations the data leave nothing of a positive value. */
const IMPOSSIBLE = -5

interface OneSidedFit {
  readonly fit: RestrictedFit
  /** Share of the untruncated posterior that is positive, relative to the half of a prior about zero: 0 to 2. */
  readonly evidence: number
}

/** Null where the data leave no positive value. */
export function oneSided(fit: RestrictedFit): OneSidedFit | null {
  const p = fit.shift.length
  const value = fit.shift[p - 1] as number
  const square = fit.covariance[p * p - 1] as number
  const t = value / Math.sqrt(square)
  if (!(t > IMPOSSIBLE)) return null
  const positive = normalProbability(t)
  const lambda = Math.exp((-t * t) / 2) / Math.sqrt(2 * Math.PI) / positive
  const moved = Math.sqrt(square) * lambda
  const narrower = lambda * (lambda + t)
  const along = Float64Array.from({ length: p }, (_, j) => (fit.covariance[j * p + p - 1] as number) / square)
  return {
    fit: {
      ...fit,
      shift: fit.shift.map((shift, j) => shift + (along[j] as number) * moved),
      covariance: fit.covariance.map(
        (c, at) => c - (along[Math.floor(at / p)] as number) * (along[at % p] as number) * square * narrower,
      ),
    },
    evidence: 2 * positive,
  }
}
