// Which tolerance causes the spread of the losses, and which one would raise the yield: effect indices of the loss,
// and the yield with each tolerance changed, counted on the same points so that only the tolerance makes the difference.

import { RULES } from '../../model/quantity/quantityRules'
import { unitFactor, unitLabel } from '../../model/quantity/units'
import { pairedQuantile } from '../../numerics/pairedQuantile'
import { effectIndexSteps } from '../../numerics/random/effectIndices'
import { mix32 } from '../../numerics/random/randomWords'
import { unitPoints } from '../../numerics/random/unitPoints'
import { finish, type Steps } from '../../numerics/steps'
import { atMostNoLight } from '../../optics/index'
import { cappedLossDb, LOSS_CEILING_DB } from '../results/lossAtShare'
import type { Assembly } from './assembly'
import type { RankedTolerance } from './yieldResult'

export interface RankingPoints {
  readonly effectPoints: number
  readonly yieldPoints: number
  /** For a quantity that makes hardly any of the spread; at most \`yieldPoints\`. */
  readonly fewPoints: number
}

/** Greatest and least numbers of points on which yields are counted, and the assemblies of a run for each of its points. */
const MOST_POINTS = 4096
const LEAST_POINTS = 512
const SAMPLES_A_POINT = 16
const LEAST_DIRECT_POINTS = 64

/** The points of the ranking of a run of so many assemblies: powers of two, as low-discrepancy points require. */
export function rankingPointsOf(samples: number): RankingPoints {
  const wanted = 2 ** Math.floor(Math.log2(samples / SAMPLES_A_POINT))
  const yieldPoints = Math.min(MOST_POINTS, Math.max(LEAST_POINTS, wanted))
  return { effectPoints: yieldPoints / 2, yieldPoints, fewPoints: yieldPoints / 8 }
}

/** Direct sums take longer than a fit: so many times fewer points, which makes the ranking a tenth of its run. */
const FEWER_BY_DIRECT_SUMS = 8

/** The same for a ranking by direct sums. */
export function directRankingPoints({ effectPoints, yieldPoints, fewPoints }: RankingPoints): RankingPoints {
  const fewer = (points: number) => Math.max(LEAST_DIRECT_POINTS, points / FEWER_BY_DIRECT_SUMS)
  return {
    effectPoints: fewer(effectPoints),
    yieldPoints: fewer(yieldPoints),
    fewPoints: Math.min(fewer(fewPoints), fewer(yieldPoints)),
  }
}

/** Share of the total effect below which a quantity makes hardly any of the spread. */
export const HARDLY_ANY = 0.005

/** Relative change of a half width, either way, from which the slope of the yield is taken. */
const SLOPE_STEP = 0.15
const HALF = 0.5
/** A single assembly that passes in one case only may be chance. */
const LEAST_ASSEMBLIES = 1.5

/** A difference of two shares of the same points, or 0 where a single assembly makes it. */
const significant = (difference: number, points: number) =>
  Math.abs(difference) * points < LEAST_ASSEMBLIES ? 0 : difference

export interface Ranking {
  readonly ranking: readonly RankedTolerance[]
  readonly rankingYield: number
  /** Points of the yields, and the greatest standard error of a total effect, as a share of the variance; null where nothing is ranked. */
  readonly from: { readonly points: number; readonly effectError: number } | null
}

/** Samples between two pauses. */
const PAUSE_AFTER = 256

/** Share of passes when each tolerance is scaled by its factor, in steps; every call takes the same first points. */
export function passShare(assembly: Assembly, seed: number, points: number) {
  const { draws, compiled, lossDb, limitDb } = assembly
  const source = unitPoints('sobol', Math.max(1, draws.slots.length), mix32(seed ^ 0x2c1b3c6d))
  const deviations = new Float64Array(source.dimensions * points)
  source.fill(0, points, deviations)
  draws.deviate(deviations, points)
  const values = Float64Array.from(compiled.nominal)
  return function* (factors: Float64Array, first = points, losses?: Float64Array): Steps<number> {
    let passed = 0
    for (let i = 0; i < first; i++) {
      draws.set(deviations, i * source.dimensions, values, factors)
      const loss = lossDb(values)
      if (loss <= limitDb) passed++
      if (losses !== undefined) losses[i] = cappedLossDb(loss)
      if (i % PAUSE_AFTER === PAUSE_AFTER - 1) yield i / first
    }
    return passed / first
  }
}

/** All toleranced quantities, the one with the greatest total effect first, in steps. */
export function* rankingSteps(
  assembly: Assembly,
  seed: number,
  { effectPoints, yieldPoints, fewPoints }: RankingPoints,
): Steps<Ranking> {
  const { draws, compiled, lossDb } = assembly
  const count = draws.slots.length
  if (count === 0) {
    return { ranking: [], rankingYield: lossDb(compiled.nominal) <= assembly.limitDb ? 1 : 0, from: null }
  }
  const values = Float64Array.from(compiled.nominal)
  const effects = yield* effectIndexSteps(
    (point) => {
      draws.apply(point, values)
      return Math.min(LOSS_CEILING_DB, atMostNoLight(lossDb(values)))
    },
    count,
    effectPoints,
    mix32(seed ^ 0x297a2d39),
  )
  const share = passShare(assembly, seed, yieldPoints)
  const factors = new Float64Array(count).fill(1)
  function* changed(i: number, factor: number, points: number, losses?: Float64Array): Steps<number> {
    factors[i] = factor
    const result = yield* share(factors, points, losses)
    factors[i] = 1
    return result
  }
  const present = new Float64Array(yieldPoints)
  const rankingYield = yield* share(factors, yieldPoints, present)
  const yieldOfFew = yield* share(factors, fewPoints)
  const fallOfAll = pairedQuantile(present, assembly.percentile)
  const fallOfFew = pairedQuantile(present.subarray(0, fewPoints), assembly.percentile)
  const ranking: RankedTolerance[] = []
  for (const [i, slot] of draws.slots.entries()) {
    const variable = compiled.variables[slot]
    if (variable === undefined) continue
    const { path, label, unit, rule, spread } = variable
    const plusMinus = spread.halfWidth / (unitFactor(RULES[rule].dimension, unit) ?? 1)
    const matters = (effects.total[i] as number) >= HARDLY_ANY
    const points = matters ? yieldPoints : fewPoints
    const wider = yield* changed(i, 1 + SLOPE_STEP, points)
    const narrower = yield* changed(i, 1 - SLOPE_STEP, points)
    const after = new Float64Array(points)
    const halved = yield* changed(i, HALF, points, after)
    const { fall, standardError } = (matters ? fallOfAll : fallOfFew)(after)
    ranking.push({
      path,
      label,
      plusMinus,
      unit: unitLabel(unit),
      firstOrder: effects.firstOrder[i] as number,
      total: effects.total[i] as number,
      yieldPerUnit: significant(wider - narrower, points) / (2 * SLOPE_STEP * plusMinus),
      percentile: assembly.percentile,
      percentileGainHalvedDb: fall,
      percentileGainErrorDb: standardError,
      yieldGainHalved: significant(halved - (matters ? rankingYield : yieldOfFew), points),
    })
  }
  return {
    ranking: ranking.sort((a, b) => b.total - a.total),
    rankingYield,
    from: { points: yieldPoints, effectError: Math.max(...effects.totalErrors) },
  }
}

export function rankTolerances(assembly: Assembly, seed: number, points: RankingPoints): Ranking {
  return finish(rankingSteps(assembly, seed, points))
}
