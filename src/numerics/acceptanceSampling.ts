// Sampling by attributes: how many parts of a lot must be looked at, with parts that fail independently (binomial).
// Source: NIST/SEMATECH e-Handbook of Statistical Methods, 6.2 (lot acceptance by an operating characteristic); the sums are exact.

import { InputError, requireInRange } from './inputError'

/** Probability that at most `most` of `trials` fail, each with probability `share`, 0 to 1. InputError outside of it. */
export function atMostFailing(most: number, trials: number, share: number): number {
  requireInRange('share', share, 0, 1)
  if (most >= trials || share === 0) return 1
  if (most < 0 || share === 1) return 0
  const [logFail, logPass] = [Math.log(share), Math.log1p(-share)]
  // Terms by their logarithms: the first of a large lot is below the smallest double.
  let logWays = 0
  let sum = 0
  for (let k = 0; k <= most; k++) {
    sum += Math.exp(logWays + k * logFail + (trials - k) * logPass)
    logWays += Math.log((trials - k) / (k + 1))
  }
  return Math.min(1, sum)
}

/**
 * The smallest sample in which more than `allowed` parts fail with probability `confidence` where a share `share` of the lot is
 * outside its limits: 59 for none allowed, 5 % and 95 %. InputError unless share and confidence lie between 0 and 1.
 */
export function sampleSize(allowed: number, share: number, confidence: number): number {
  if (!(share > 0 && share < 1)) throw new InputError('share', share, 'between 0 and 1, exclusive')
  if (!(confidence > 0 && confidence < 1))
    throw new InputError('confidence', confidence, 'between 0 and 1, exclusive')
  const enough = (size: number) => atMostFailing(allowed, size, share) <= 1 - confidence
  let high = allowed + 1
  while (!enough(high)) high *= 2
  let low = allowed
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2)
    if (enough(middle)) high = middle
    else low = middle
  }
  return high
}
