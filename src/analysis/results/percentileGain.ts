// What halving a tolerance gains at the percentile, and whether the simulated assemblies can distinguish it from zero or from another.

import { percentileName } from '../../model/project/statedRequirements'
import { fixedText, signedText } from '../../numerics/numberText'

export interface PercentileGain {
  /** Share of assemblies of that percentile, 0 to 1. */
  readonly percentile: number
  /** What the percentile falls by when the tolerance is halved, dB: ranks also where the yield is 0 or 1. */
  readonly percentileGainHalvedDb: number
  /** Standard error of it, dB; infinite where too few assemblies state none. */
  readonly percentileGainErrorDb: number
}

/** Standard errors of a two-sided interval at 95 %. */
const COVERAGE = 1.96
/** Half of the last of two decimals: smaller differences need not be distinguished. */
const SLIGHT_DB = 0.005

/** Whether a difference of that standard error is known, or known to be too small to show. */
const isTold = (differenceDb: number, errorDb: number) =>
  Math.abs(differenceDb) > COVERAGE * errorDb || COVERAGE * errorDb < SLIGHT_DB

/** Whether the gain differs significantly from zero at 95 %. */
export const gainIsTold = (gain: PercentileGain): boolean =>
  isTold(gain.percentileGainHalvedDb, gain.percentileGainErrorDb)

/** For ranking: a gain that does not differ significantly from zero ranks as zero. */
export const rankedGainDb = (gain: PercentileGain): number =>
  gainIsTold(gain) ? gain.percentileGainHalvedDb : 0

/** Whether two gains, each with its error, differ by more than chance. */
export const gainsDiffer = (a: PercentileGain, b: PercentileGain): boolean =>
  isTold(
    a.percentileGainHalvedDb - b.percentileGainHalvedDb,
    Math.hypot(a.percentileGainErrorDb, b.percentileGainErrorDb),
  )

/** `P95`; for an empty list just `percentile`. */
export const gainName = (gains: readonly Pick<PercentileGain, 'percentile'>[]): string =>
  gains[0] === undefined ? 'percentile' : percentileName(100 * gains[0].percentile)

export const NOT_TOLD = 'not distinguishable'

/** The change of the percentile with its standard error: `−0.31 ± 0.02`. */
export function percentileChangeText(gain: PercentileGain): string {
  if (!gainIsTold(gain)) return NOT_TOLD
  const change = signedText(-gain.percentileGainHalvedDb, 2)
  const error = gain.percentileGainErrorDb
  return error < SLIGHT_DB ? change : `${change} ± ${fixedText(error, 2)}`
}
