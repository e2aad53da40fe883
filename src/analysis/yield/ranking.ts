// Which tolerance makes the losses spread, and which one would bring yield: effect indices of the loss, and the yield
// with each tolerance changed, counted on the same points so that only the tolerance makes the difference.

import { RULES } from '../../model/quantityRules'
import { unitFactor, unitLabel } from '../../model/units'
import { effectIndices } from '../../numerics/effectIndices'
import { mix32 } from '../../numerics/randomWords'
import { unitPoints } from '../../numerics/unitPoints'
import type { Assembly } from './assembly'
import { CEILING_DB } from './tally'
import type { RankedTolerance } from './yieldResult'

export const RANKING_DEFAULTS = {
  effectPoints: 2048,
  yieldPoints: 4096,
  /** For a quantity that makes hardly any of the spread. */
  fewPoints: 512,
  hardlyAny: 0.005,
} as const

/** Relative change of a half width, either way, from which the slope of the yield is taken. */
const SLOPE_STEP = 0.15
const HALF = 0.5

export interface Ranking {
  readonly ranking: readonly RankedTolerance[]
  readonly rankingYield: number
}

/** Share of passes when each tolerance is scaled by its factor; every call takes the same first points. */
export function passShare(assembly: Assembly, seed: number, points: number) {
  const { draws, compiled, lossDb, limitDb } = assembly
  const source = unitPoints('sobol', Math.max(1, draws.places.length), mix32(seed ^ 0x2c1b3c6d))
  const drawn = Array.from({ length: points }, (_, i) => {
    const point = new Float64Array(source.dimensions)
    source.point(i, point)
    return point
  })
  const values = Float64Array.from(compiled.nominal)
  return (factors: Float64Array, first = points): number => {
    let passed = 0
    for (let i = 0; i < first; i++) {
      draws.apply(drawn[i] ?? values, values, factors)
      if (lossDb(values) <= limitDb) passed++
    }
    return passed / first
  }
}

/**
 * All toleranced quantities, the one with the greatest total effect first. A generator that pauses after each of them, so
 * that a page without workers can breathe; it yields the share of the work done.
 */
export function* rankingSteps(assembly: Assembly, seed: number): Generator<number, Ranking, void> {
  const { draws, compiled, lossDb } = assembly
  const count = draws.places.length
  if (count === 0) {
    return { ranking: [], rankingYield: lossDb(compiled.nominal) <= assembly.limitDb ? 1 : 0 }
  }
  const values = Float64Array.from(compiled.nominal)
  const effects = effectIndices(
    (point) => {
      draws.apply(point, values)
      return Math.min(CEILING_DB, lossDb(values))
    },
    count,
    RANKING_DEFAULTS.effectPoints,
    mix32(seed ^ 0x297a2d39),
  )
  yield 1 / (count + 1)
  const share = passShare(assembly, seed, RANKING_DEFAULTS.yieldPoints)
  const factors = new Float64Array(count).fill(1)
  const changed = (i: number, factor: number, points: number) => {
    factors[i] = factor
    const result = share(factors, points)
    factors[i] = 1
    return result
  }
  const { yieldPoints, fewPoints, hardlyAny } = RANKING_DEFAULTS
  const rankingYield = share(factors)
  const yieldOfFew = share(factors, fewPoints)
  const ranking: RankedTolerance[] = []
  for (const [i, place] of draws.places.entries()) {
    const variable = compiled.variables[place]
    if (variable === undefined) continue
    const { path, label, unit, rule, spread } = variable
    const plusMinus = spread.halfWidth / (unitFactor(RULES[rule].dimension, unit) ?? 1)
    const matters = (effects.total[i] ?? 0) >= hardlyAny
    const points = matters ? yieldPoints : fewPoints
    const rise = changed(i, 1 + SLOPE_STEP, points) - changed(i, 1 - SLOPE_STEP, points)
    ranking.push({
      path,
      label,
      plusMinus,
      unit: unitLabel(unit),
      firstOrder: effects.firstOrder[i] ?? 0,
      total: effects.total[i] ?? 0,
      yieldPerUnit: rise / (2 * SLOPE_STEP * plusMinus),
      yieldGainHalved: changed(i, HALF, points) - (matters ? rankingYield : yieldOfFew),
    })
    yield (i + 2) / (count + 1)
  }
  return { ranking: ranking.sort((a, b) => b.total - a.total), rankingYield }
}

/** Runs the steps to their end at once. */
export function rankTolerances(assembly: Assembly, seed: number): Ranking {
  const steps = rankingSteps(assembly, seed)
  for (;;) {
    const step = steps.next()
    if (step.done) return step.value
  }
}
