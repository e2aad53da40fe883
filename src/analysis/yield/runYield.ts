// The yield of a candidate: samples in blocks, judged at fixed milestones, so that neither the number of workers nor
// their speed can change the result.

import { askedShares, leadingLoss } from '../../model/project/lossCriteria'
import { ProjectError } from '../../model/project/projectError'
import type { Project } from '../../model/schema/project'
import { InputError } from '../../numerics/inputError'
import { countText, fixedText } from '../../numerics/numberText'
import { POINT_KINDS, type PointKind } from '../../numerics/random/unitPoints'
import { fitsMiss } from '../tolerance/exactCorner'
import { type Assembly, assemblyOf, withDirectSums } from './assembly'
import { assumptionsOf } from './assumptions'
import { firstOrderDb } from './firstOrder'
import { poseContact } from './poseContact'
import {
  directRankingPoints,
  type Ranking,
  type RankingPoints,
  rankingPointsOf,
  rankTolerances,
} from './ranking'
import { blocksOf, runBlocks, type SamplingOptions } from './runBlocks'
import { addTallies, emptyTally, type Tally } from './tally'
import {
  CONFIDENCE,
  histogramOf,
  momentsOf,
  PERCENTILES,
  percentileOf,
  type YieldResult,
  yieldOf,
} from './yieldResult'

export const YIELD_DEFAULTS = { samples: 100_000, method: 'sobol' as PointKind } as const
export const MOST_SAMPLES = 10_000_000

export interface YieldOptions {
  readonly samples?: number
  /** 0 to 2^32 - 1; the project's own where absent. */
  readonly seed?: number
  readonly method?: PointKind
  /** Ends the run once the interval of the required percentile is at most this wide to either side, dB. */
  readonly stopAtDb?: number
}

/** A run may rank its tolerances on fewer points, or with null leave out the ranking, which takes longer than the rest. */
interface WholeRunOptions extends YieldOptions {
  readonly rankingPoints?: RankingPoints | null
}

export interface YieldPlan extends SamplingOptions {
  readonly candidateId: string
  /** Share that may end the run early, and all shares that the requirements ask for. */
  readonly percentile: number
  readonly shares: readonly number[]
  readonly stopAtDb: number | null
}

/** The options with their defaults, checked. Throws InputError for a sample count or a seed out of range. */
export function yieldPlan(project: Project, candidateId: string, options: YieldOptions = {}): YieldPlan {
  const samples = options.samples ?? YIELD_DEFAULTS.samples
  const seed = options.seed ?? project.seed
  const stopAtDb = options.stopAtDb ?? null
  if (!Number.isInteger(samples) || samples < 1 || samples > MOST_SAMPLES) {
    throw new InputError('samples', samples, `a whole number, 1 to ${MOST_SAMPLES}`)
  }
  if (!Number.isInteger(seed) || seed < 0 || seed > 4_294_967_295) {
    throw new InputError('seed', seed, 'a whole number, 0 to 4294967295')
  }
  const method = options.method ?? YIELD_DEFAULTS.method
  if (!POINT_KINDS.includes(method)) throw new InputError('method', method, POINT_KINDS.join(' or '))
  if (stopAtDb !== null && !(stopAtDb > 0)) throw new InputError('stopAtDb', stopAtDb, 'above 0')
  return {
    candidateId,
    samples,
    seed,
    method,
    percentile: leadingLoss(project.requirements).percentile / 100,
    shares: askedShares(project.requirements),
    stopAtDb,
  }
}

/** Ends of the rounds, in blocks: powers of two, so that a run may stop only where every run may. */
export function milestones(samples: number): readonly number[] {
  const blocks = blocksOf(samples)
  const ends: number[] = []
  for (let end = 4; end < blocks; end *= 2) ends.push(end)
  return [...ends, blocks]
}

/** Whether the percentile is known well enough to stop. */
export function knownWellEnough(tally: Tally, { percentile, stopAtDb }: YieldPlan): boolean {
  if (stopAtDb === null || tally.samples === 0) return false
  const { lossDb, lowDb, highDb } = percentileOf(tally, percentile)
  return highDb - lossDb <= stopAtDb && lossDb - lowDb <= stopAtDb
}

/** The points of the ranking of a run: fewer where the fields of every assembly are summed. */
export function pointsOfRanking({ compiled }: Assembly, { samples }: YieldPlan): RankingPoints {
  const points = rankingPointsOf(samples)
  return fitsMiss(compiled) ? directRankingPoints(points) : points
}

/** How a ranking was found whose fit misses its target. */
function rankingNote({ compiled }: Assembly, { from }: Ranking): readonly string[] {
  if (from === null || !fitsMiss(compiled)) return []
  const error = fixedText(100 * from.effectError, 1)
  return [
    `The fit to the fields of a joint is less accurate than its target, so the tolerance ranking is computed directly from the fields of ${countText(from.points)} assemblies; standard error of a total effect at most ${error} % of the variance.`,
  ]
}

/** The finished run from its tally and its ranking. */
export function finishYield(
  assembly: Assembly,
  plan: YieldPlan,
  tally: Tally,
  ranking: Ranking,
): YieldResult {
  const shares = [...new Set([...PERCENTILES, plan.percentile, ...plan.shares])].sort((a, b) => a - b)
  const percentiles = shares.map((share) => percentileOf(tally, share))
  const at = (share: number) => percentiles.find((each) => each.share === share)?.lossDb ?? 0
  return {
    candidateId: plan.candidateId,
    samples: tally.samples,
    seed: plan.seed,
    method: plan.method,
    stoppedEarly: tally.samples < plan.samples,
    limitDb: assembly.limitDb,
    nominalDb: assembly.compiled.lossDb(assembly.compiled.nominal),
    temperaturesC: assembly.temperaturesC,
    p50Db: at(0.5),
    p95Db: at(0.95),
    p99Db: at(0.99),
    percentiles,
    ...momentsOf(tally),
    firstOrderDb: firstOrderDb(assembly),
    leastDb: tally.leastDb,
    greatestDb: tally.greatestDb,
    ...yieldOf(tally),
    touching: poseContact(assembly.compiled, assembly.percentile, plan.seed)?.share ?? null,
    confidence: CONFIDENCE,
    histogram: histogramOf(tally),
    worst: tally.worst,
    ranking: ranking.ranking,
    rankingYield: ranking.rankingYield,
    assumptions: [...assumptionsOf(assembly), ...rankingNote(assembly, ranking)],
  }
}

/**
 * Loss percentiles and yield of one channel of a candidate. The same project, options and seed give the same result, here
 * and on any number of workers.
 * @throws ProjectError that lists every reason why the candidate cannot be computed
 * @throws InputError for options out of range
 */
export function runYield(project: Project, candidateId: string, options: WholeRunOptions = {}): YieldResult {
  const plan = yieldPlan(project, candidateId, options)
  const result = assemblyOf(project, candidateId)
  if (!result.ok) throw new ProjectError(result.issues)
  const assembly = withDirectSums(result.value, project)
  let tally = emptyTally()
  let first = 0
  for (const end of milestones(plan.samples)) {
    tally = addTallies(tally, runBlocks(assembly, plan, first, end))
    first = end
    if (knownWellEnough(tally, plan)) break
  }
  const { rankingPoints = pointsOfRanking(assembly, plan) } = options
  const ranking =
    rankingPoints === null
      ? { ranking: [], rankingYield: yieldOf(tally).yield, from: null }
      : rankTolerances(assembly, plan.seed, rankingPoints)
  return finishYield(assembly, plan, tally, ranking)
}
