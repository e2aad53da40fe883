// Scales tolerances together until a percentile of simulated assemblies meets a limit. The percentile depends on the assemblies
// that lose most only, so the search looks at those, and all of them confirm what it finds.

import { type Steps, within } from '../../numerics/steps'
import { lossAtShare } from '../results/lossAtShare'
import { ALL_SAMPLES, SIZING_SAMPLES, sampledSteps, samplesAbove } from './sampledLosses'
import type { SizedCandidate } from './wholeRow'

/** Where the fit of a joint misses its target: how its percentile was found with the allocated tolerances. */
export interface DirectPercentile {
  /** Samples of SIZING_SAMPLES whose fields were summed directly: those that decide it. */
  readonly summed: number
  /** Of the percentile, from the number of samples, dB. */
  readonly standardErrorDb: number
}

interface SampledScale {
  readonly factor: number
  /** The percentile with tolerances scaled so, dB. */
  readonly totalDb: number
  readonly direct: DirectPercentile | null
}

const WIDEST_FACTOR = 3
const GROWTH = 1.6
/** Relative; samples resolve no more. */
const FACTOR_TOLERANCE = 0.004
const LOSS_TOLERANCE_DB = 0.005
const MOST_STEPS = 12
/** So many times the assemblies beyond the percentile are looked at, and some more. */
const TAIL = 4
const TAIL_EXTRA = 100
/** Standard errors of its rank by which the percentile stays below the limit, so that a full run confirms the result. */
const CAUTION = 2
/** Passes over samples that a search usually makes, for its progress. */
const USUAL_PASSES = 10

/** Standard error of a percentile, dB: half of what lies between the ranks a standard error below and above its own. */
function percentileErrorDb(lossesDb: Float64Array, share: number): number {
  const error = Math.sqrt((share * (1 - share)) / lossesDb.length)
  return (lossAtShare(lossesDb, Math.min(1, share + error)) - lossAtShare(lossesDb, share - error)) / 2
}

/** The widest factor, up to 3, with which the percentile meets the limit; 0 where none does. */
export function* sampledScale(
  scaled: (factor: number) => SizedCandidate,
  everyChannel: boolean,
  share: number,
  limitDb: number,
): Steps<SampledScale> {
  const cautious = Math.min(1, share + CAUTION * Math.sqrt((share * (1 - share)) / SIZING_SAMPLES))
  const above = samplesAbove(cautious)
  let looked: readonly number[] = ALL_SAMPLES
  let passes = 0
  const lossesAt = (factor: number, numbers: readonly number[], ranks: readonly number[]) => {
    const done = (pass: number) => pass / (pass + USUAL_PASSES)
    passes += 1
    return within(done(passes - 1), done(passes), sampledSteps(scaled(factor), everyChannel, ranks, numbers))
  }
  /** By how much the samples that are looked at exceed the limit. */
  function* overDb(factor: number): Steps<number> {
    const losses = (yield* lossesAt(factor, looked, [above])).lossesDb.sort()
    return (losses[losses.length - 1 - above] ?? 0) - limitDb
  }
  /** The same for all samples; from now on those that lose most are looked at. */
  function* overOfAll(factor: number) {
    const { lossesDb: losses, summed } = yield* lossesAt(factor, ALL_SAMPLES, [above, samplesAbove(share)])
    const order = [...ALL_SAMPLES].sort((a, b) => (losses[b] as number) - (losses[a] as number))
    looked = order.slice(0, TAIL * (above + 1) + TAIL_EXTRA)
    return { losses, summed, overDb: (losses[order[above] as number] ?? 0) - limitDb }
  }

  let [low, lowDb] = [0, Number.NEGATIVE_INFINITY]
  let [high, highDb] = [1, (yield* overOfAll(1)).overDb]
  while (highDb <= 0 && high < WIDEST_FACTOR) {
    ;[low, lowDb] = [high, highDb]
    high = Math.min(WIDEST_FACTOR, high * GROWTH)
    highDb = yield* overDb(high)
  }
  for (;;) {
    if (highDb <= 0) low = high
    else {
      if (low === 0) lowDb = yield* overDb(0)
      low = yield* lastWithin(overDb, low, lowDb, high, highDb)
    }
    const all = yield* overOfAll(low)
    if (all.overDb <= 0 || low === 0) {
      const direct =
        all.summed === 0
          ? null
          : { summed: all.summed, standardErrorDb: percentileErrorDb(all.losses, share) }
      return { factor: low, totalDb: lossAtShare(all.losses, share), direct }
    }
    // Other assemblies lose most at this width: the search looks at those, in the end at all of them.
    high = low
    highDb = all.overDb
    low = 0
    if (passes > 2 * USUAL_PASSES) looked = ALL_SAMPLES
  }
}

/** The highest factor found at or below zero, by false position with halved weights; `low` itself where it is above. */
function* lastWithin(
  overDb: (factor: number) => Steps<number>,
  lowFactor: number,
  lowestDb: number,
  highFactor: number,
  highestDb: number,
): Steps<number> {
  let [low, lowDb, high, highDb] = [lowFactor, lowestDb, highFactor, highestDb]
  let atLow = lowDb
  let side = 0
  for (let i = 0; i < MOST_STEPS; i++) {
    if (high - low < FACTOR_TOLERANCE * high || atLow > -LOSS_TOLERANCE_DB) break
    const middle = (low * highDb - high * lowDb) / (highDb - lowDb)
    const middleDb = yield* overDb(middle)
    if (middleDb <= 0) {
      ;[low, lowDb, atLow] = [middle, middleDb, middleDb]
      if (side === -1) highDb /= 2
      side = -1
    } else {
      ;[high, highDb] = [middle, middleDb]
      if (side === 1) lowDb /= 2
      side = 1
    }
  }
  return low
}
