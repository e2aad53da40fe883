// By which figure tolerances are sized: RSS, worst case, or a percentile of simulated assemblies, of one channel or of all. Where the fit
// of a joint by fields misses its target, what decides the figure is summed exactly, but for the percentile of all channels.

import { InputError } from '../../numerics/inputError'
import { mix32 } from '../../numerics/random/randomWords'
import { unitPoints } from '../../numerics/random/unitPoints'
import type { Steps } from '../../numerics/steps'
import type { Evaluation } from '../results/evaluation'
import { lossAtShare } from '../results/lossAtShare'
import { drawsOf } from '../tolerance/draws'
import { cornerBeyondDb, exactCorner, fitsMiss } from '../tolerance/exactCorner'
import { exactSquares } from '../tolerance/exactSquares'
import { rootSumSquare, worstCorner, worstCornerNear } from '../tolerance/tolerances'
import type { SizedCandidate } from './wholeRow'

export const SIZING_CRITERIA = ['RSS', 'worst case', 'percentile', 'all channels'] as const
export type SizingCriterion = (typeof SIZING_CRITERIA)[number]

/** A criterion, and the share of assemblies of its percentile, 0 to 1. */
export interface SizingBasis {
  readonly criterion: SizingCriterion
  readonly share: number
}

export const isSampled = (criterion: SizingCriterion): boolean =>
  criterion === 'percentile' || criterion === 'all channels'

/** Assemblies that a percentile is read from. A full run is more precise; these are the same for every width that is tried. */
export const SIZING_SAMPLES = 512
const SEED = 0x51f15eed
/** Samples between two pauses. */
const PAUSE_AFTER = 32

/** A loss that the model refuses is that of an assembly without light. */
const orDark = (lossDb: () => number) => () => {
  try {
    return lossDb()
  } catch (error) {
    if (error instanceof InputError) return Number.NaN
    throw error
  }
}

/** Samples about a percentile that are summed exactly: what they add on average moves it. */
const LOOKED_AT = 7

/** What exact sums add to a percentile, dB: the mean over the samples nearest to it. */
function missedAtShare(
  losses: Float64Array,
  share: number,
  vectorOf: (n: number) => Float64Array,
  missedDb: (vs: readonly Float64Array[]) => readonly number[],
): number {
  const order = [...losses.keys()].filter((n) => Number.isFinite(losses[n]))
  order.sort((a, b) => (losses[a] ?? 0) - (losses[b] ?? 0))
  const rank = Math.ceil(share * losses.length) - 1
  const near = order.slice(Math.max(0, rank - (LOOKED_AT - 1) / 2), rank + (LOOKED_AT + 1) / 2)
  if (near.length === 0) return 0
  return missedDb(near.map(vectorOf)).reduce((sum, db) => sum + db, 0) / near.length
}

/** The percentile of samples, dB; NaN and refusals of the model count as no light. */
function* sampledSteps(sized: SizedCandidate, everyChannel: boolean, share: number): Steps<number> {
  const { variables, nominal, channels, ownPlaces } = sized
  const at = (variable: (typeof variables)[number]) => variables.indexOf(variable)
  const common = drawsOf(variables, (variable) => !(everyChannel && ownPlaces.has(at(variable))))
  const own = drawsOf(variables, (variable) => everyChannel && ownPlaces.has(at(variable)))
  const count = everyChannel ? channels : 1
  const dimensions = common.places.length + count * own.places.length
  const points = unitPoints('sobol', Math.max(1, dimensions), mix32(SEED))
  const point = new Float64Array(points.dimensions)
  const v = Float64Array.from(nominal)
  const losses = sized.sampled()
  const worstDb = orDark(() => losses.worstDb(v))
  const channelDb = (channel: number) => orDark(() => losses.channelDb(v, channel))()
  const sampleDb = (n: number): number => {
    points.point(n, point)
    common.apply(point, v)
    if (!everyChannel) return worstDb()
    let worst = Number.NEGATIVE_INFINITY
    for (let channel = 0; channel < channels; channel++) {
      const from = common.places.length + channel * own.places.length
      own.apply(point.subarray(from, from + own.places.length), v)
      worst = Math.max(worst, channelDb(channel))
    }
    return worst
  }
  const vectorOf = (n: number) => {
    points.point(n, point)
    common.apply(point, v)
    if (everyChannel) own.apply(point.subarray(common.places.length), v)
    return Float64Array.from(v)
  }
  const found = new Float64Array(SIZING_SAMPLES)
  for (let n = 0; n < SIZING_SAMPLES; n++) {
    if (n % PAUSE_AFTER === PAUSE_AFTER - 1) yield n / SIZING_SAMPLES
    found[n] = sampleDb(n)
  }
  const { missedDb } = losses
  const beyondDb =
    missedDb === undefined || (everyChannel && channels > 1)
      ? 0
      : missedAtShare(found, share, vectorOf, missedDb)
  return lossAtShare(found, share) + beyondDb
}

const worstOf = (sized: SizedCandidate): Evaluation['worstCorner'] =>
  fitsMiss(sized) ? exactCorner(sized, worstCorner(sized)) : worstCorner(sized)

/** The figure of a design with its tolerances as they are, dB, in steps; `share` is read for percentiles only. */
export function* criterionSteps(
  sized: SizedCandidate,
  { criterion, share }: SizingBasis,
  nominalDb: number,
): Steps<number> {
  switch (criterion) {
    case 'RSS':
      return exactSquares(sized, rootSumSquare(sized, nominalDb), nominalDb).squares.lossDb
    case 'worst case':
      return worstOf(sized).lossDb
    default:
      return yield* sampledSteps(sized, criterion === 'all channels', share)
  }
}

/**
 * The same for one design whose tolerances are scaled again and again: the worst case is searched for once and then followed,
 * climbing from the combination that was found.
 */
export function criterionFollower(
  basis: SizingBasis,
  nominalDb: number,
): (sized: SizedCandidate) => Steps<number> {
  if (basis.criterion !== 'worst case') return (sized) => criterionSteps(sized, basis, nominalDb)
  let corner: Evaluation['worstCorner'] | null = null
  // biome-ignore lint/correctness/useYield: the search itself is one step
  return function* (sized) {
    if (corner !== null)
      return worstCornerNear(sized, corner) + (fitsMiss(sized) ? cornerBeyondDb(sized, corner) : 0)
    corner = worstOf(sized)
    return corner.lossDb
  }
}
