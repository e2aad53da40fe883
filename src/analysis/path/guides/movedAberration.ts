// How the aberration of a relay changes with movements across its axis: by a fit, or by rays and waves summed at every pose.

import { fixedText } from '../../../numerics/numberText'
import { sparseValue } from '../../../numerics/polynomial/sparseValue'
import { FIT_ERROR_DB, type JointFit } from '../../field/fit/jointFit'
import { directRelaySums } from '../../field/fit/knownFits'
import { RELAY_AXES, type RelaySides } from '../../field/fit/relayAxes'
import { type RelayDirections, toDirections } from '../../field/fit/relayDirections'
import { holds, type ValueAt } from '../../field/fit/summedBeyond'
import type { Sums } from '../vector/elementModels'

export interface MovedAberration {
  readonly fit: JointFit
  /** Real less paraxial joint at coordinates of RELAY_AXES, dB, as it is read: differences of it matter. */
  readonly valueDb: ValueAt
  /** Whether it holds beyond the region of the fit too. */
  readonly reachesBeyond: boolean
}

/**
 * A fit that misses by more is not used: assemblies are then summed one by one, and where nothing is summed, the distances alone move the
 * aberration.
 */
export const MOST_ERROR_DB = 0.15

export function movedAberration(
  fit: JointFit,
  sides: () => RelaySides,
  directions: RelayDirections,
  sums: Sums,
): MovedAberration {
  const fitted: ValueAt = fit.errorDb > MOST_ERROR_DB ? () => 0 : sparseValue(fit.series)
  const along = new Float64Array(RELAY_AXES.length)
  const summed = sums === 'fitted' ? null : directRelaySums()
  let sum: ValueAt | null = null
  const sumAt: ValueAt = (at) => {
    sum ??= summed?.(sides()) ?? null
    return sum === null ? fitted(along) : sum(at)
  }
  const isSummed = summed !== null && fit.errorDb > MOST_ERROR_DB && sums === 'direct'
  return {
    fit,
    valueDb: (at) => {
      if (isSummed) return sumAt(at)
      along.set(at)
      toDirections(directions, along)
      return holds(fit.region, along) ? fitted(along) : sumAt(at)
    },
    reachesBeyond: summed !== null,
  }
}

/** What tolerances, yield and temperature use. */
export function movedWords({ errorDb }: JointFit): string {
  const error = fixedText(errorDb, 3)
  if (errorDb <= FIT_ERROR_DB)
    return `Tolerances, yield and temperature use the real lenses; fit error ${error} dB.`
  const missed = `The fit differs from the real lenses by ${error} dB, above the target of ${FIT_ERROR_DB} dB:`
  return errorDb > MOST_ERROR_DB
    ? `${missed} RSS, worst case, yield, arrays, tolerance ranking, temperature and sizing are computed directly from the rays instead, which takes longer. On curves other than those of the Tolerance tab the aberration varies with the lens distances only.`
    : `${missed} the worst case is computed directly from the rays; RSS, yield, arrays and sizing use the fit, and single assemblies may be off by this much.`
}
