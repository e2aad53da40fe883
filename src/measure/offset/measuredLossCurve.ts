// A transverse-offset scan of the real joint as a measured tolerance curve: loss against stage position.

import { InputError } from '../../numerics/inputError'
import type { OffsetScanResult } from './offsetScanMfd'

export interface MeasuredLossCurve {
  /** Stage positions, relative to the fitted centre with `fromCentre`. */
  readonly positionUm: readonly number[]
  readonly lossDb: readonly number[]
  readonly standardDb: readonly number[]
}

/** Below this level the background dominates. */
const DEEPEST_DB = 10
const MOST_POINTS = 60
/** Repeatability of a power meter (common practice, no source). */
const LEAST_STANDARD_DB = 0.02

/**
 * Loss relative to the reference power, or to the fitted peak where there is none. Each point's standard uncertainty
 * is the scan's own scatter about its fit. InputError where fewer than three points are within 10 dB of the peak.
 */
export function measuredLossCurve(
  result: OffsetScanResult,
  referencePower: number | null,
  fromCentre: boolean,
): MeasuredLossCurve {
  const { positionUm, power } = result.profile
  const top = referencePower ?? result.peakPower
  const signal = power.map((value) => value - result.backgroundPower)
  const near = Array.from(signal, (_, i) => i).filter(
    (i) => (signal[i] ?? 0) > result.peakPower * 10 ** (-DEEPEST_DB / 10),
  )
  if (near.length < 3) {
    throw new InputError('number of points within 10 dB of the peak', near.length, '3 or more')
  }
  const stride = Math.ceil(near.length / MOST_POINTS)
  const indices = near.filter((_, k) => k % stride === 0)
  const dbPerShare = 10 / Math.LN10
  return {
    positionUm: indices.map((i) => (positionUm[i] ?? 0) - (fromCentre ? result.centreUm : 0)),
    lossDb: indices.map((i) => -10 * Math.log10((signal[i] ?? 0) / top)),
    standardDb: indices.map((i) =>
      Math.max(
        LEAST_STANDARD_DB,
        (dbPerShare * result.residualRms * result.peakPower) / (signal[i] ?? result.peakPower),
      ),
    ),
  }
}
