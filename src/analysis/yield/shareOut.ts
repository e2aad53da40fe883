// The loosest tolerances that still reach a target yield: each half width gets a factor, cheap ones are narrowed first.
//   least sum of weight_i / factor_i  with  yield(factors) >= wanted
// At the optimum weight_i / factor_i^2 is the same multiple of each slope of the yield. The slopes are counted on the same
// points for every tolerance; a step towards that balance is followed by one common factor that meets the yield.
// Source of the cost: reciprocal cost of a tolerance, e.g. K. W. Chase and W. H. Greenwood, Manuf. Rev. 1 (1988) 49 (from
// memory); of the balance: Lagrange's multiplier.

import type { Path } from '../../model/issue'
import { requireInRange } from '../../numerics/inputError'
import { finish, type Steps } from '../../numerics/steps'
import { fitsMiss } from '../tolerance/exactCorner'
import type { Assembly } from './assembly'
import { passShare } from './ranking'

/** Assemblies on which yields are counted, by a fit and by direct sums, and rounds of balancing. */
export const SHARE_OUT_DEFAULTS = { points: 2048, directPoints: 512, rounds: 5 } as const

/** No tolerance becomes narrower or wider than its present value by more than this factor. */
const FACTOR_RANGE = [0.05, 3] as const

/** The widening that an assembly to be shared out needs (assembly.ts). */
export const SHARE_OUT_WIDENING = FACTOR_RANGE[1] * (1 + 0.2)
const SLOPE_STEP = 0.2
/** Share of the way to the balance that one round goes, in the logarithm: the slopes are counted, not computed. */
const DAMPING = 0.5
/** Halvings of the common factor's range, in the logarithm: to a fifth of a per cent. */
const BISECTIONS = 12

/** Cost of holding a tolerance at its present width, in any one currency, by the quantity's path. */
export type CostWeights = Readonly<Record<string, number>>

interface SharedTolerance {
  readonly path: Path
  readonly label: string
  /** New half width over the present one. */
  readonly factor: number
}

export interface ShareOut {
  readonly tolerances: readonly SharedTolerance[]
  readonly yieldBefore: number
  readonly yieldAfter: number
  /** Sum of weight over factor; the sum of the weights where nothing changes. */
  readonly cost: number
  /** Cost of narrowing all tolerances by one common factor to the same yield. */
  readonly costInCommon: number
  readonly reached: boolean
  /** Assemblies on which the yields were counted. */
  readonly samples: number
}

const within = (factor: number) => Math.min(FACTOR_RANGE[1], Math.max(FACTOR_RANGE[0], factor))

/**
 * The factors for a `wanted` (target) yield, 0.01 to 0.9999; weights above 0 by the quantity's path (its steps joined by
 * a slash), 1 where absent. `reached` is false where even the narrowest tolerances miss the yield.
 */
export function shareOut(
  assembly: Assembly,
  seed: number,
  wanted: number,
  weights: CostWeights = {},
): ShareOut {
  return finish(shareOutSteps(assembly, seed, wanted, weights))
}

/**
 * The same in steps. Where a fit moves a joint, `exact` is the assembly by direct sums (`withSumsBeyond`): the fit then only balances the
 * factors, and the common one that meets the yield is found by it, on fewer assemblies where the fit misses its target.
 */
export function* shareOutSteps(
  assembly: Assembly,
  seed: number,
  wanted: number,
  weights: CostWeights = {},
  exact: Assembly = assembly,
): Generator<unknown, ShareOut, void> {
  requireInRange('wanted', wanted, 0.01, 0.9999)
  const { draws, compiled } = assembly
  const count = draws.slots.length
  const share = passShare(assembly, seed, SHARE_OUT_DEFAULTS.points)
  const isDirect = exact !== assembly
  const { points, directPoints } = SHARE_OUT_DEFAULTS
  const samples = isDirect && fitsMiss(exact.compiled) ? directPoints : points
  const exactShare = isDirect ? passShare(exact, seed, samples) : share
  const weight = Float64Array.from(draws.slots, (slot) => {
    const path = compiled.variables[slot]?.path ?? []
    return weights[path.join('/')] ?? 1
  })
  const cost = (factors: Float64Array) =>
    factors.reduce((sum, factor, i) => sum + (weight[i] ?? 1) / factor, 0)
  const scaled = (factors: Float64Array, by: number) => factors.map((factor) => within(factor * by))

  /** The widest common multiple of the factors that reaches the yield; null where none does. */
  function* meeting(
    factors: Float64Array,
    share: ReturnType<typeof passShare>,
  ): Generator<unknown, Float64Array | null, void> {
    let narrow = FACTOR_RANGE[0] / FACTOR_RANGE[1]
    let wide = FACTOR_RANGE[1] / FACTOR_RANGE[0]
    if ((yield* share(scaled(factors, narrow))) < wanted) return null
    if ((yield* share(scaled(factors, wide))) >= wanted) return scaled(factors, wide)
    for (let i = 0; i < BISECTIONS; i++) {
      const middle = Math.sqrt(narrow * wide)
      if ((yield* share(scaled(factors, middle))) >= wanted) narrow = middle
      else wide = middle
    }
    return scaled(factors, narrow)
  }

  const present = new Float64Array(count).fill(1)
  const common = yield* meeting(present, share)
  let best = common ?? scaled(present, FACTOR_RANGE[0])
  if (common !== null) {
    let factors = common
    for (let round = 0; round < SHARE_OUT_DEFAULTS.rounds; round++) {
      const next: Float64Array | null = yield* meeting(yield* towardsBalance(factors, weight, share), share)
      if (next === null) break
      factors = next
      if (cost(factors) < cost(best)) best = factors
    }
  }
  let reached = common !== null
  let inCommon = common ?? best
  if (isDirect) {
    const [bestExact, commonExact] = [yield* meeting(best, exactShare), yield* meeting(present, exactShare)]
    reached = bestExact !== null
    best = bestExact ?? scaled(present, FACTOR_RANGE[0])
    inCommon = commonExact ?? best
  }
  return {
    tolerances: draws.slots.flatMap((slot, i) => {
      const variable = compiled.variables[slot]
      return variable === undefined
        ? []
        : [{ path: variable.path, label: variable.label, factor: best[i] ?? 1 }]
    }),
    yieldBefore: yield* exactShare(present),
    yieldAfter: yield* exactShare(best),
    cost: cost(best),
    costInCommon: cost(inCommon),
    reached,
    samples,
  }
}

/** One damped step: a tolerance whose narrowing brings little yield for its cost is widened, and the other way round. */
function* towardsBalance(
  factors: Float64Array,
  weight: Float64Array,
  share: (factors: Float64Array) => Steps<number>,
): Generator<unknown, Float64Array, void> {
  const trial = Float64Array.from(factors)
  const gains = new Float64Array(factors.length)
  for (const [i, factor] of factors.entries()) {
    trial[i] = factor * (1 - SLOPE_STEP)
    const narrower = yield* share(trial)
    trial[i] = factor * (1 + SLOPE_STEP)
    const wider = yield* share(trial)
    trial[i] = factor
    // Yield for one e-fold of the factor; a floor below what the points can resolve keeps useless ones finite.
    gains[i] = Math.max((narrower - wider) / (2 * SLOPE_STEP), 1 / (8 * SHARE_OUT_DEFAULTS.points))
  }
  // Balanced where the cost of an e-fold, weight / factor, is the same multiple of its gain.
  const ratios = factors.map((factor, i) => (weight[i] ?? 1) / factor / (gains[i] ?? 1))
  const middle = Math.exp(
    ratios.reduce((sum, ratio) => sum + Math.log(ratio), 0) / Math.max(1, ratios.length),
  )
  return factors.map((factor, i) => within(factor * ((ratios[i] ?? 1) / middle) ** DAMPING))
}
