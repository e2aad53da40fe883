// How far a sample can be from its value: the limits of a distribution, and of the physical range.

import { RULES } from '../../model/quantity/quantityRules'
import { spreadEnds } from '../../model/quantity/spread'
import type { Variable } from './evaluation'

/** No sample of 32 bits lies further out than this many standard deviations: the normal quantile of 2^-33. */
const FURTHEST_SIGMA = 6.5

/** Least and greatest value that a sample of the variable can take with its tolerance `widening` times as wide, core unit. */
export function sampledRange(
  { nominal, rule, spread }: Variable,
  widening = 1,
): readonly [low: number, high: number] {
  const { minCore, maxCore } = RULES[rule]
  const reach = FURTHEST_SIGMA / spread.coverage
  const [low, high] =
    spread.distribution === 'normal'
      ? [-spread.halfWidth * reach, spread.halfWidth * reach]
      : spreadEnds(spread)
  return [Math.max(minCore, nominal + widening * low), Math.min(maxCore, nominal + widening * high)]
}
