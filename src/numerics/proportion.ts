// How well a share is known from a count: of passes in a yield, of samples below a percentile.

import { InputError, requireInRange } from './inputError'
import { normalQuantile } from './normal'

export interface Interval {
  readonly low: number
  readonly high: number
}

/**
 * Wilson's score interval of a share, `successes` of `trials` independent draws, at a two-sided `confidence`.
 * Source: E. B. Wilson, J. Am. Stat. Assoc. 22 (1927) 209. InputError for no trials or a count outside them.
 */
export function wilsonInterval(successes: number, trials: number, confidence: number): Interval {
  if (!(trials >= 1)) throw new InputError('trials', trials, 'at least 1')
  requireInRange('successes', successes, 0, trials)
  requireInRange('confidence', confidence, 0.5, 1 - 1e-9)
  const z = normalQuantile((1 + confidence) / 2)
  const share = successes / trials
  const scale = 1 / (1 + (z * z) / trials)
  const centre = (share + (z * z) / (2 * trials)) * scale
  const half = z * scale * Math.sqrt((share * (1 - share)) / trials + ((z / trials) * (z / trials)) / 4)
  return {
    low: successes === 0 ? 0 : Math.max(0, centre - half),
    high: successes === trials ? 1 : Math.min(1, centre + half),
  }
}

/**
 * Shares of a sample between which the true p-quantile lies with the confidence: quantiles of the sample at these shares
 * bound it, whatever the distribution. Normal approximation of the binomial rank; trust from about 10 samples beyond p.
 * Source: H. A. David and H. N. Nagaraja, Order Statistics (2003), sect. 7.1 (from memory).
 */
export function quantileShares(p: number, samples: number, confidence: number): Interval {
  if (!(samples >= 1)) throw new InputError('samples', samples, 'at least 1')
  requireInRange('p', p, 0, 1)
  const half = normalQuantile((1 + confidence) / 2) * Math.sqrt((p * (1 - p)) / samples)
  return { low: Math.max(0, p - half), high: Math.min(1, p + half) }
}
