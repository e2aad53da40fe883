// Acceptance limits from tolerance limits and the uncertainty of the measurement.
// Source: JCGM 106:2012, 8.3.2 (guarded acceptance): acceptance limit = tolerance limit less a guard band w = k u. With a normal
// uncertainty a part exactly at the tolerance limit is accepted with probability 1 - Phi(k).

import { normalQuantile } from '../../numerics/normal'
import { rounded } from '../../numerics/numberText'

/** Null without a limit on that side. */
export interface Bounds {
  readonly lower: number | null
  readonly upper: number | null
}

/** How many standard uncertainties the guard band has where a part at its limit may be accepted with the risk, 0 to 0.5. */
export function guardFactor(risk: number): number {
  return normalQuantile(1 - risk)
}

/** Digits that hide what binary leaves. */
const DIGITS = 12

/** To two digits of the guard band, towards the middle: no instrument is read more finely. */
function inwards(limit: number, guard: number, round: (value: number) => number): number {
  if (!(guard > 0)) return limit
  const scale = 10 ** (1 - Math.floor(Math.log10(guard)))
  return rounded(round(rounded(limit * scale, DIGITS)) / scale, DIGITS)
}

/** The limits for the measured value, in the unit of all of them; null where the guard bands leave nothing between them. */
export function acceptanceLimits({ lower, upper }: Bounds, standard: number, factor: number): Bounds | null {
  const guard = factor * standard
  const limits = {
    lower: lower === null ? null : inwards(lower + guard, guard, Math.ceil),
    upper: upper === null ? null : inwards(upper - guard, guard, Math.floor),
  }
  return limits.lower !== null && limits.upper !== null && limits.lower >= limits.upper ? null : limits
}

/** The largest expanded uncertainty (k = 2) that leaves half of the tolerance as acceptance range; null with one limit or none. */
export function usefulUncertainty({ lower, upper }: Bounds, factor: number): number | null {
  return lower === null || upper === null ? null : (upper - lower) / 2 / factor
}
