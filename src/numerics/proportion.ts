// How well a share is known from a count: of passes in a yield, of samples below a percentile.

import { InputError, requireInRange } from './inputError'
import { normalQuantile } from './normal'

export interface Interval {
  readonly low: number
  readonly high: number
}

/**
 * Wilson's score interval of a share, `successes` of `trials` independent samples, at a two-sided `confidence`.
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

/** Samples up to which the ranks are exact; beyond, the normal approximation is right to a rank or so. */
const EXACT_UP_TO = 20_000

/**
 * Shares of a sample between which the true p-quantile lies with the confidence: quantiles of the sample at these shares
 * bound it, whatever the distribution. `low` is 0 and `high` above 1 where so few samples give no bound on that side.
 * Source: H. A. David and H. N. Nagaraja, Order Statistics (2003), sect. 7.1 (from memory): the rank of the quantile is
 * binomial.
 */
export function quantileShares(p: number, samples: number, confidence: number): Interval {
  if (!(samples >= 1)) throw new InputError('samples', samples, 'at least 1')
  requireInRange('p', p, 0, 1)
  if (samples <= EXACT_UP_TO && p > 0 && p < 1) return exactShares(p, samples, (1 - confidence) / 2)
  const half = normalQuantile((1 + confidence) / 2) * Math.sqrt((p * (1 - p)) / samples)
  return { low: Math.max(0, p - half), high: Math.min(1, p + half) }
}

/** The largest rank l with P(K < l) <= tail and the smallest u with P(K >= u) <= tail, K binomial, over the samples. */
function exactShares(p: number, samples: number, tail: number): Interval {
  const odds = Math.log(p / (1 - p))
  let logTerm = samples * Math.log1p(-p)
  let below = 0 // P(K < k)
  let low = 0
  for (let k = 0; k <= samples; k++) {
    if (below <= tail) low = k
    if (below >= 1 - tail) return { low: low / samples, high: k / samples }
    below += Math.exp(logTerm)
    logTerm += odds + Math.log((samples - k) / (k + 1))
  }
  return { low: low / samples, high: (samples + 1) / samples }
}
