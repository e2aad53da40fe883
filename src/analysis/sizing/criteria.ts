// The result for which tolerances are sized: RSS, worst case, or a percentile of simulated assemblies, of one channel or of all. Where the fit
// of a joint by fields misses its target, what decides the result is summed exactly.

import type { Steps } from '../../numerics/steps'
import type { Evaluation } from '../results/evaluation'
import { lossAtShare } from '../results/lossAtShare'
import { cornerBeyondDb, exactCorner, fitsMiss } from '../tolerance/exactCorner'
import { exactSquares } from '../tolerance/exactSquares'
import { rootSumSquare, worstCorner, worstCornerNear } from '../tolerance/tolerances'
import { sampledSteps, samplesAbove } from './sampledLosses'
import type { SizedCandidate } from './wholeRow'

export const SIZING_CRITERIA = ['RSS', 'worst case', 'percentile', 'all channels'] as const
export type SizingCriterion = (typeof SIZING_CRITERIA)[number]

/** A criterion, and the share of assemblies of its percentile, 0 to 1. */
export interface SizingBasis {
  readonly criterion: SizingCriterion
  readonly share: number
}

export const isSampled = (criterion: SizingCriterion): boolean =>
  criterion === 'percentile' || criterion === 'all channels'

const worstOf = (sized: SizedCandidate): Evaluation['worstCorner'] =>
  fitsMiss(sized) ? exactCorner(sized, worstCorner(sized)) : worstCorner(sized)

/** The figure of a design with its tolerances as they are, dB, in steps; `share` is read for percentiles only. */
export function* criterionSteps(
  sized: SizedCandidate,
  { criterion, share }: SizingBasis,
  nominalDb: number,
): Steps<number> {
  switch (criterion) {
    case 'RSS':
      return exactSquares(sized, rootSumSquare(sized, nominalDb), nominalDb).squares.lossDb
    case 'worst case':
      return worstOf(sized).lossDb
    default:
      return lossAtShare(
        (yield* sampledSteps(sized, criterion === 'all channels', [samplesAbove(share)])).lossesDb,
        share,
      )
  }
}

/**
 * The same for one design whose tolerances are scaled again and again: the worst case is searched for once and then followed,
 * climbing from the combination that was found.
 */
export function criterionFollower(
  basis: SizingBasis,
  nominalDb: number,
): (sized: SizedCandidate) => Steps<number> {
  if (basis.criterion !== 'worst case') return (sized) => criterionSteps(sized, basis, nominalDb)
  let corner: Evaluation['worstCorner'] | null = null
  // biome-ignore lint/correctness/useYield: the search itself is one step
  return function* (sized) {
    if (corner !== null)
      return worstCornerNear(sized, corner) + (fitsMiss(sized) ? cornerBeyondDb(sized, corner) : 0)
    corner = worstOf(sized)
    return corner.lossDb
  }
}
