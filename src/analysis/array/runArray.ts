// The yield of an array: whole arrays are sampled, so that what their channels share is the same for all.

import { askedShares } from '../../model/project/lossCriteria'
import { ProjectError } from '../../model/project/projectError'
import type { Project } from '../../model/schema/project'
import { ARRAY_AIMS, type ArrayAim } from '../../model/words/fibreArray'
import { InputError } from '../../numerics/inputError'
import { type Interval, quantileShares, wilsonInterval } from '../../numerics/proportion'
import { unitPoints } from '../../numerics/random/unitPoints'
import { finish, type Steps } from '../../numerics/steps'
import { lossDb, NO_LIGHT_DB } from '../../optics/index'
import { requiredTemperaturesC } from '../temperature/rises'
import { fitsMiss } from '../tolerance/exactCorner'
import { CONFIDENCE, PERCENTILES, type Percentile } from '../yield/yieldResult'
import { arrayAssumptions } from './arrayAssumptions'
import { ARRAY_DEFAULTS } from './arrayDefaults'
import { type ArrayRanking, arrayRankingSteps } from './arrayRanking'
import { type ArrayBlock, blockByDirectSums, blockDimensions, blockOf, isPlaced } from './block'
import type { BlockPosition } from './blockChannel'
import { blockLosses, paperBlock, sampleBlock, stationOf } from './blockSample'

const MOST_SAMPLES = 200_000
/** Blocks between two pauses: a few milliseconds of work. */
const PAUSE_AFTER = 4
/** Direct sums take longer than a fit: the ranking then takes so many times fewer arrays. */
const FEWER_BY_DIRECT_SUMS = 8
/** Share of the work that is not the ranking. */
const RUN_SHARE = 0.6

interface ArrayOptions {
  readonly samples?: number
  readonly seed?: number
}

interface ChannelResult {
  /** Number from 1. */
  readonly channel: number
  /** Loss of the nominal array, without errors. */
  readonly nominalDb: number
  readonly p5Db: number
  readonly p50Db: number
  readonly p95Db: number
  readonly yield: number
}

/** Results of one alignment strategy. */
export interface AimResult {
  readonly aim: ArrayAim
  /** Of the nominal array, one place per join. */
  readonly nominalPositions: readonly BlockPosition[]
  readonly channels: readonly ChannelResult[]
  /** Mean over arrays of the power of all channels together, as a loss; and of the worst channel's loss. */
  readonly meanPowerLossDb: number
  readonly meanWorstDb: number
  /** Loss of the worst channel of each assembly, at 50, 95 and 99 % and at the required percentile. */
  readonly worstChannelPercentiles: readonly Percentile[]
  /** Share of arrays whose channels all meet the limit; the smallest share of one channel. */
  readonly allChannelsYield: number
  readonly allChannelsInterval: Interval
  readonly worstChannelYield: number
}

export interface ArrayResult {
  readonly candidateId: string
  readonly samples: number
  readonly seed: number
  readonly limitDb: number
  readonly aim: ArrayAim
  /** A single entry where nothing is aligned or there is only one channel, because the strategy then makes no difference. */
  readonly aims: readonly AimResult[]
  /** Tolerance ranking for this alignment strategy. */
  readonly ranking: ArrayRanking
  /** Temperatures at which every array is evaluated, degC; empty where no mount is described. */
  readonly temperaturesC: readonly number[]
  readonly assumptions: readonly string[]
}

function sortedQuantile(sorted: Float64Array, p: number): number {
  const at = (sorted.length - 1) * p
  const low = sorted[Math.floor(at)] ?? 0
  const high = sorted[Math.ceil(at)] ?? 0
  return low === high ? low : low + (high - low) * (at - Math.floor(at))
}

/** Losses of one strategy: row `channel` of `channelDb` holds its loss in every array. */
interface AimLosses {
  readonly aim: ArrayAim
  readonly channelDb: readonly Float64Array[]
}

/** A percentile of sorted losses, with its interval from order statistics. */
function percentileOf(sorted: Float64Array, share: number): Percentile {
  const { low, high } = quantileShares(share, sorted.length, CONFIDENCE)
  return {
    share,
    lossDb: sortedQuantile(sorted, share),
    lowDb: low > 0 ? sortedQuantile(sorted, low) : 0,
    highDb: high > 1 ? NO_LIGHT_DB : sortedQuantile(sorted, high),
  }
}

function summary(
  block: ArrayBlock,
  { aim, channelDb }: AimLosses,
  samples: number,
  shares: readonly number[],
): AimResult {
  const { limitDb, channels } = block
  const paper = paperBlock(block)
  const station = stationOf(block, paper, aim)
  const nominal = new Float64Array(channels)
  blockLosses(block, paper, station, nominal)
  let passed = 0
  let power = 0
  let worstSum = 0
  const worstDb = new Float64Array(samples)
  for (let n = 0; n < samples; n++) {
    let worst = 0
    for (const losses of channelDb) {
      const loss = losses[n] ?? 0
      worst = Math.max(worst, loss)
      power += 10 ** (-loss / 10)
    }
    worstSum += worst
    worstDb[n] = worst
    if (worst <= limitDb) passed++
  }
  worstDb.sort()
  const results = channelDb.map((losses, i): ChannelResult => {
    const sorted = Float64Array.from(losses).sort()
    return {
      channel: i + 1,
      nominalDb: nominal[i] ?? 0,
      p5Db: sortedQuantile(sorted, 0.05),
      p50Db: sortedQuantile(sorted, 0.5),
      p95Db: sortedQuantile(sorted, 0.95),
      yield: losses.filter((loss) => loss <= limitDb).length / samples,
    }
  })
  return {
    aim,
    nominalPositions: station.positions,
    channels: results,
    meanPowerLossDb: lossDb(Math.min(1, power / (samples * channels))),
    meanWorstDb: worstSum / samples,
    worstChannelPercentiles: shares.map((share) => percentileOf(worstDb, share)),
    allChannelsYield: passed / samples,
    allChannelsInterval: wilsonInterval(passed, samples, CONFIDENCE),
    worstChannelYield: Math.min(...results.map((each) => each.yield)),
  }
}

/**
 * The run in steps that pause often; each step yields the fraction of the work done.
 * Throws ProjectError where the candidate cannot be computed, InputError for options out of range.
 */
export function* arraySteps(
  project: Project,
  candidateId: string,
  options: ArrayOptions = {},
): Steps<ArrayResult> {
  const samples = options.samples ?? ARRAY_DEFAULTS.samples
  const seed = options.seed ?? project.seed
  if (!Number.isInteger(samples) || samples < 1 || samples > MOST_SAMPLES) {
    throw new InputError('samples', samples, `a whole number, 1 to ${MOST_SAMPLES}`)
  }
  const result = blockOf(project, candidateId)
  if (!result.ok) throw new ProjectError(result.issues)
  const block = blockByDirectSums(result.value, project)
  const points = unitPoints('sobol', blockDimensions(block), seed)
  const point = new Float64Array(points.dimensions)
  const aims = (isPlaced(block) && block.channels > 1 ? ARRAY_AIMS : [block.aim]).map(
    (aim): AimLosses => ({
      aim,
      channelDb: Array.from({ length: block.channels }, () => new Float64Array(samples)),
    }),
  )
  const losses = new Float64Array(block.channels)
  for (let n = 0; n < samples; n++) {
    points.point(n, point)
    const sampled = sampleBlock(block, point)
    for (const { aim, channelDb } of aims) {
      blockLosses(block, sampled, stationOf(block, sampled, aim), losses)
      for (let i = 0; i < losses.length; i++) {
        const row = channelDb[i]
        if (row !== undefined) row[n] = losses[i] ?? 0
      }
    }
    if (n % PAUSE_AFTER === PAUSE_AFTER - 1) yield (RUN_SHARE * (n + 1)) / samples
  }
  const ranking = arrayRankingSteps(
    block,
    seed,
    fitsMiss(block.compiled) ? Math.ceil(samples / FEWER_BY_DIRECT_SUMS) : samples,
  )
  let step = ranking.next()
  while (!step.done) {
    yield RUN_SHARE + (1 - RUN_SHARE) * step.value
    step = ranking.next()
  }
  const temperaturesC = requiredTemperaturesC(project, block.compiled)
  const shares = [...new Set([...PERCENTILES, ...askedShares(project.requirements)])].sort((a, b) => a - b)
  return {
    candidateId,
    samples,
    seed,
    limitDb: block.limitDb,
    aim: block.aim,
    aims: aims.map((each) => summary(block, each, samples, shares)),
    ranking: step.value,
    temperaturesC,
    assumptions: arrayAssumptions(block, temperaturesC),
  }
}

/** Runs the steps to their end at once. */
export function runArray(project: Project, candidateId: string, options: ArrayOptions = {}): ArrayResult {
  return finish(arraySteps(project, candidateId, options))
}
