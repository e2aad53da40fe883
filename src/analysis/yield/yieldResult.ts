// A yield run as plain data: percentiles and share of passes with their intervals, histogram, worst samples.

import type { Path } from '../../model/issue'
import { quantileShares, wilsonInterval } from '../../numerics/proportion'
import type { PointKind } from '../../numerics/random/unitPoints'
import { NO_LIGHT_DB } from '../../optics/index'
import type { PercentileGain } from '../results/percentileGain'
import { CLASSES_PER_DB, FINE_CLASSES, type Tally, tallyQuantile, type WorstSample } from './tally'

/** Two-sided confidence of every interval. */
export const CONFIDENCE = 0.95

/** Shares that every run states, in addition to those of the requirements. */
export const PERCENTILES = [0.5, 0.95, 0.99] as const

export interface Percentile {
  /** Share of the assemblies that lose at most `lossDb`, 0 to 1. */
  readonly share: number
  /** NO_LIGHT_DB at most. */
  readonly lossDb: number
  /** Bounds of the interval: 0 and NO_LIGHT_DB where so few samples give none. */
  readonly lowDb: number
  readonly highDb: number
}

interface LossHistogram {
  readonly fromDb: number
  readonly stepDb: number
  readonly counts: readonly number[]
  /** Samples above the last class. */
  readonly beyond: number
}

/** Effect of one tolerance on the loss and on the yield. */
export interface RankedTolerance extends PercentileGain {
  readonly path: Path
  readonly label: string
  /** Present half width, and its unit. */
  readonly plusMinus: number
  readonly unit: string
  /** Share of the variance of the loss that this quantity makes alone, and with its interactions. */
  readonly firstOrder: number
  readonly total: number
  /** Change of the yield for one unit more of half width; negative where a wider tolerance lowers the yield. */
  readonly yieldPerUnit: number
  /** Change of the yield when the tolerance is halved. */
  readonly yieldGainHalved: number
}

export interface YieldResult {
  readonly candidateId: string
  readonly samples: number
  readonly seed: number
  readonly method: PointKind
  /** Whether the run ended before all samples because the percentile was known well enough. */
  readonly stoppedEarly: boolean
  readonly limitDb: number
  readonly nominalDb: number
  readonly temperaturesC: readonly number[]
  readonly p50Db: number
  readonly p95Db: number
  readonly p99Db: number
  /** 50, 95, 99 % and the percentile that the requirements ask for. */
  readonly percentiles: readonly Percentile[]
  readonly meanDb: number
  readonly standardDeviationDb: number
  /** Standard deviation by first-order propagation (JCGM 100, eq. 10): zero at perfect alignment, where it is wrong. */
  readonly firstOrderDb: number
  readonly leastDb: number
  readonly greatestDb: number
  readonly yield: number
  /** Share of assemblies in which glass touches chip, each in its own pose; null where no chip edge or outline is stated. */
  readonly touching: number | null
  readonly yieldInterval: { readonly low: number; readonly high: number }
  readonly confidence: number
  readonly histogram: LossHistogram
  readonly worst: readonly WorstSample[]
  readonly ranking: readonly RankedTolerance[]
  /** Yield of the smaller sample that the changes in `ranking` are measured from. */
  readonly rankingYield: number
  readonly assumptions: readonly string[]
}

export function percentileOf(tally: Tally, share: number): Percentile {
  const { low, high } = quantileShares(share, tally.samples, CONFIDENCE)
  return {
    share,
    lossDb: tallyQuantile(tally, share),
    lowDb: low > 0 ? tallyQuantile(tally, low) : 0,
    highDb: high > 1 ? NO_LIGHT_DB : tallyQuantile(tally, high),
  }
}

const MOST_CLASSES = 60
const SHOWN_SHARE = 0.999
const STEPS = [1, 2, 4, 10, 20, 40, 100, 200, 400, 1000, 2000, 4000, 10_000]

/** Classes wide enough to be drawn, on round limits. */
export function histogramOf(tally: Tally): LossHistogram {
  const first = Math.min(FINE_CLASSES - 1, Math.floor(tally.leastDb * CLASSES_PER_DB))
  const most = Math.min(FINE_CLASSES - 1, Math.ceil(tallyQuantile(tally, SHOWN_SHARE) * CLASSES_PER_DB))
  const step = STEPS.find((each) => (most - first) / each <= MOST_CLASSES) ?? 10_000
  const start = Math.floor(first / step) * step
  const classes = Math.max(1, Math.ceil((most + 1 - start) / step))
  const counts = Array.from({ length: classes }, (_, c) => {
    let sum = 0
    for (let i = start + c * step; i < start + (c + 1) * step; i++) sum += tally.counts[i] as number
    return sum
  })
  const shown = counts.reduce((sum, count) => sum + count, 0)
  return {
    fromDb: start / CLASSES_PER_DB,
    stepDb: step / CLASSES_PER_DB,
    counts,
    beyond: tally.samples - shown,
  }
}

/** Mean and standard deviation from the sums of the blocks, added in their order. */
export function momentsOf(tally: Tally): { readonly meanDb: number; readonly standardDeviationDb: number } {
  let sum = 0
  let squares = 0
  for (const block of tally.blocks) {
    sum += block.sumDb
    squares += block.sumSquaresDb2
  }
  const meanDb = sum / tally.samples
  const variance = Math.max(0, squares / tally.samples - meanDb * meanDb)
  return { meanDb, standardDeviationDb: Math.sqrt(variance) }
}

export function yieldOf(tally: Tally) {
  return {
    yield: tally.passed / tally.samples,
    yieldInterval: wilsonInterval(tally.passed, tally.samples, CONFIDENCE),
  }
}
