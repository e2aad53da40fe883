// What to tighten for all channels together: the share of arrays whose channels all pass, and the loss of the worst channel
// at the percentile, with each tolerance halved, evaluated on the same arrays so that only the tolerance makes the difference.
// The percentile ranks also where no array passes, or every one.

import type { Path } from '../../model/issue'
import { RULES } from '../../model/quantity/quantityRules'
import { unitFactor, unitLabel } from '../../model/quantity/units'
import { pairedQuantile } from '../../numerics/pairedQuantile'
import { mix32 } from '../../numerics/random/randomWords'
import { unitPoints } from '../../numerics/random/unitPoints'
import type { Steps } from '../../numerics/steps'
import { cappedLossDb } from '../results/lossAtShare'
import { gainIsTold, type PercentileGain, rankedGainDb } from '../results/percentileGain'
import { type ArrayBlock, blockDimensions, blockQuantities } from './block'
import { blockLosses, sampleBlock, stationOf } from './blockSample'

/** Maximum number of arrays used to find the tolerances that matter, and to rank them. */
const MOST = { screened: 128, blocks: 1024 } as const
/** Blocks of a run for each of them. */
const SAMPLES_A_BLOCK = { screened: 16, blocks: 4 } as const
const LEAST_SCREENED = 32

const HALF = 0.5
/** A tolerance is ranked if halving it changes the worst channel's loss by this share of its standard deviation. */
const WORTH_COUNTING = 0.05
/** Below this a change is rounding, dB. */
const LEAST_CHANGE_DB = 1e-6

/** `percentileGainHalvedDb` is that of the worst channel's loss. */
export interface ArrayTolerance extends PercentileGain {
  readonly path: Path
  readonly label: string
  /** Present half width, and its unit. */
  readonly plusMinus: number
  readonly unit: string
  /** Change of the share of arrays whose channels all pass, when the tolerance is halved. */
  readonly yieldGainHalved: number
}

/** Changes below these are not worth a line: half a percentage point of yield, a hundredth of a dB. */
const WORTH_YIELD = 0.005
const WORTH_DB = 0.01

/** Whether halving the tolerance changes either figure enough to be listed. */
export const worthNarrowing = (each: ArrayTolerance): boolean =>
  each.yieldGainHalved >= WORTH_YIELD || (each.percentileGainHalvedDb >= WORTH_DB && gainIsTold(each))

export interface ArrayRanking {
  readonly tolerances: readonly ArrayTolerance[]
  /** Tolerances that hardly affect the worst channel, and are not ranked. */
  readonly others: number
  readonly rankingBlocks: number
}

/** The ranking, greatest gain first, in steps that pause often; each step yields the fraction of the work done. */
export function* arrayRankingSteps(block: ArrayBlock, seed: number, samples: number): Steps<ArrayRanking> {
  const { compiled, limitDb, percentile } = block
  const share = (of: keyof typeof MOST) => Math.min(MOST[of], Math.ceil(samples / SAMPLES_A_BLOCK[of]))
  const screened = Math.min(samples, Math.max(LEAST_SCREENED, share('screened')))
  const blocks = Math.max(screened, share('blocks'))
  const quantities = blockQuantities(block)
  const points = unitPoints('sobol', blockDimensions(block), mix32(seed ^ 0x5f356495))
  const point = new Float64Array(points.dimensions)
  const losses = new Float64Array(block.channels)
  const factors = new Float64Array(quantities.length).fill(1)
  const worst = (n: number): number => {
    points.point(n, point)
    const sampled = sampleBlock(block, point, factors)
    blockLosses(block, sampled, stationOf(block, sampled, block.aim), losses)
    return Math.max(...losses)
  }
  const worstOf = (count: number) => Float64Array.from({ length: count }, (_, n) => worst(n))
  const halved = (i: number, count: number) => {
    factors[i] = HALF
    const result = worstOf(count)
    factors[i] = 1
    return result
  }

  const before = worstOf(screened)
  const spread = standardDeviation(before)
  const counted: number[] = []
  for (let i = 0; i < quantities.length; i++) {
    const after = halved(i, screened)
    const change = Math.sqrt(
      after.reduce((sum, loss, n) => sum + (loss - (before[n] as number)) ** 2, 0) / screened,
    )
    if (!(change <= Math.max(LEAST_CHANGE_DB, WORTH_COUNTING * spread))) counted.push(i) // also where it is NaN
    yield (0.4 * (i + 1)) / quantities.length
  }
  const passes = (worstLosses: Float64Array) =>
    worstLosses.filter((loss) => loss <= limitDb).length / worstLosses.length
  const presentDb = worstOf(blocks)
  const present = passes(presentDb)
  const fallOf = pairedQuantile(presentDb.map(cappedLossDb), percentile)
  const tolerances: ArrayTolerance[] = []
  for (const [done, i] of counted.entries()) {
    const variable = compiled.variables[quantities[i] ?? -1]
    if (variable === undefined) continue
    const { path, label, unit, rule, spread: own } = variable
    const narrowedDb = halved(i, blocks)
    const { fall, standardError } = fallOf(narrowedDb.map(cappedLossDb))
    tolerances.push({
      path,
      label,
      plusMinus: own.halfWidth / (unitFactor(RULES[rule].dimension, unit) ?? 1),
      unit: unitLabel(unit),
      yieldGainHalved: passes(narrowedDb) - present,
      percentile,
      percentileGainHalvedDb: fall,
      percentileGainErrorDb: standardError,
    })
    yield 0.4 + (0.6 * (done + 1)) / counted.length
  }
  return {
    tolerances: tolerances.sort(
      (a, b) => b.yieldGainHalved - a.yieldGainHalved || rankedGainDb(b) - rankedGainDb(a),
    ),
    others: quantities.length - counted.length,
    rankingBlocks: blocks,
  }
}

function standardDeviation(values: Float64Array): number {
  const mean = values.reduce((sum, each) => sum + each, 0) / values.length
  return Math.sqrt(values.reduce((sum, each) => sum + (each - mean) ** 2, 0) / values.length)
}
