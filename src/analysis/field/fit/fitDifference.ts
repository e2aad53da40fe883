// The difference between the real and the Gaussian loss of a joint as a smooth function of its coordinates: Chebyshev products
// fitted to exact evaluations inside the region of the tolerances, refined until held-out poses agree.

import { normalQuantile } from '../../../numerics/normal'
import { chebyshevSeries } from '../../../numerics/polynomial/chebyshev'
import {
  type Exchange,
  exchanged,
  fitSparse,
  isFirstOfBoth,
  type Orders,
  pruned,
  simplexOrders,
} from '../../../numerics/polynomial/sparseChebyshev'
import { sparseValue } from '../../../numerics/polynomial/sparseValue'
import { unitPoints } from '../../../numerics/random/unitPoints'
import type { Steps } from '../../../numerics/steps'
import type { Difference, ExactDifference } from './exactDifference'
import type { JointRegion } from './jointAxes'
import { FIT_ERROR_DB, type JointFit } from './jointFit'

/** What a new value along an axis requires: nothing, the field of one guide, or the fields of both. */
export type AxisCost = 'pose' | 'field' | 'both fields'

interface FitProblem {
  readonly region: JointRegion
  readonly of: ExactDifference
  readonly costs: readonly AxisCost[]
  /** Axes that change sign together where a mirror turns the joint over; empty where none can. */
  readonly mirrors: readonly (readonly number[])[]
  /** Axes that change places where x and y do; absent where the joint is not round. */
  readonly exchange?: Exchange
  readonly mostTerms: number
  /** Half widths over which axes are sampled as normal quantities whose region reaches beyond; null for one that is sampled over its region. */
  readonly reaches?: readonly (number | null)[]
}

const SEED = 20_251_126
/** Poses that share one tilt, and so one transform. */
const POSES_A_STATE = 10
/** Points for every term of the series. */
const POINTS_A_TERM = 1.7
const LEAST_STATES = 12
const MOST_STATES = 110
const HELD_STATES = 16
/** Chebyshev points along one axis, to see what order it needs, more where these are too few, and what its last orders may add, dB. */
const SCANS = [8, 14] as const
const SCAN_DB = 0.004
/** Growth of the orders from one attempt to the next. */
const LEVELS = [1, 1.3, 1.7, 2.2]
/** A pose that loses so much more than the best has half the weight. */
const HALF_WEIGHT_DB = 6
const weightOf = (fieldDb: number, leastDb: number) =>
  1 / (1 + Math.max(0, fieldDb - leastDb) / HALF_WEIGHT_DB)
/** A pose along one axis has so many times the weight of one where all axes are off. */
const AXIS_WEIGHT = 3
/** Held-out poses of a smaller weight are ignored: no accepted joint loses 10 dB more than its optimum. */
const COUNTED_WEIGHT = 1 / (1 + 10 / HALF_WEIGHT_DB)
/** Terms whose sum is below this are omitted, dB. */
const PRUNED_DB = 0.002
/** The region extends to this many standard deviations of normal samples. */
const REACH = 3.09

interface Sampled {
  readonly points: Float64Array[]
  readonly valuesDb: number[]
  readonly weights: number[]
}

/** Changes of one field that share what costs both. */
const FIELDS_A_PAIR = 4
/** Of terms with one coefficient for themselves and their exchanged ones so many are fitted: more than half, whose sums take no longer. */
const EXCHANGED_TERMS = 0.7
/** Orders are cut by this until the series is short enough. */
const SHRINK = 0.85

/** A number between 0 and 1 to a place between -1 and 1: towards the ends for fits, distributed as samples for checks. */
const towardsEnds = (u: number) => Math.sin(Math.PI * (u - 0.5))
const asSampled = (u: number) => Math.max(-1, Math.min(1, normalQuantile(u) / REACH))
/** Poses for fits lie so much further out than samples, along axes that are sampled as normal quantities. */
const WIDER = 2

function* sampleStates(
  of: ExactDifference,
  { region: { from, to }, costs, reaches }: FitProblem,
  into: Sampled,
  states: readonly [first: number, end: number],
  options: {
    readonly seed: number
    readonly spread: (u: number) => number
    readonly wider: number
    readonly leastDb: number
  },
): Generator<void, void, void> {
  const width = costs.length
  const state = unitPoints('sobol', width, options.seed)
  const poses = costs.filter((cost) => cost === 'pose').length
  const pose = unitPoints('sobol', poses, options.seed + 1)
  const field = new Float64Array(width)
  const both = new Float64Array(width)
  const p = new Float64Array(poses)
  const poseIndexOf = costs.map((cost, i) =>
    cost === 'pose' ? costs.slice(0, i).filter((each) => each === 'pose').length : i,
  )
  for (let s = states[0]; s < states[1]; s++) {
    state.point(s, field)
    state.point(Math.floor(s / FIELDS_A_PAIR), both)
    for (let k = 0; k < POSES_A_STATE; k++) {
      pose.point(s * POSES_A_STATE + k, p)
      const at = Float64Array.from(costs, (cost, i) => {
        const low = from[i] as number
        const high = to[i] as number
        const unitPoint = cost === 'pose' ? p : cost === 'field' ? field : both
        const unit = unitPoint[poseIndexOf[i] ?? i] ?? 0.5
        if (low === high) return low
        const reach = reaches?.[i] ?? null
        if (reach === null) return (low + high + (high - low) * options.spread(unit)) / 2
        const deviation = (reach * options.wider * normalQuantile(unit)) / REACH
        return Math.max(low, Math.min(high, (low + high) / 2 + deviation))
      })
      const { differenceDb, fieldDb } = of(at)
      into.points.push(at)
      into.valuesDb.push(differenceDb)
      into.weights.push(weightOf(fieldDb, options.leastDb))
    }
    yield
  }
}

/**
 * The order that each axis alone needs; 0 for an axis that nothing moves. What was looked at goes into the fit, which is thereby
 * held along the axes, where a root sum of squares reads it.
 */
function scanned(
  of: ExactDifference,
  { from, to }: JointRegion,
  { even, exchange }: Symmetry,
  leastDb: number,
  into: Sampled,
): readonly number[] {
  const middle = from.map((low, i) => (low + (to[i] ?? low)) / 2)
  const orderOf = (i: number): number => {
    const low = from[i] as number
    const high = to[i] as number
    if (high === low) return 0
    const isEven = even.some((group) => group.includes(i))
    // Points come from the high end down; those of the other half are met in the opposite order.
    const mirrored: number[] = []
    const along = (x: number): number => {
      const known = isEven && x < (middle[i] as number) ? mirrored.pop() : undefined
      if (known !== undefined) return known
      const point = Float64Array.from(middle.with(i, x))
      const { differenceDb, fieldDb } = of(point)
      into.points.push(point)
      into.valuesDb.push(differenceDb)
      into.weights.push(AXIS_WEIGHT * weightOf(fieldDb, leastDb))
      mirrored.push(differenceDb)
      return differenceDb
    }
    let needed = 2
    for (const points of SCANS) {
      const { coefficients, error } = chebyshevSeries(along, low, high, points)
      needed = points - 1
      for (let left = 0; needed > 2; needed--) {
        left += Math.abs(coefficients[needed] as number)
        if (left > SCAN_DB) break
      }
      if (error < SCAN_DB / 4) break
    }
    return needed
  }
  const orders: number[] = []
  for (const i of from.keys()) {
    const twin = exchange?.[i] ?? i
    orders.push(twin < i ? (orders[twin] as number) : orderOf(i))
  }
  return orders
}

/** What changes nothing: axes that change sign together about the middle of the region, and axes that change places. */
interface Symmetry {
  readonly even: readonly (readonly number[])[]
  readonly exchange?: Exchange
}

/** Poses at which a joint is compared with itself mirrored or exchanged, in half widths: no two axes of a pair alike. */
const COMPARED = [0.12, 0.25].map((by) => [by, -0.6 * by, 0.35 * by])
const ALIKE_DB = 1e-3

function symmetryOf({ of, region: { from, to }, mirrors, exchange }: FitProblem): Symmetry {
  const isAlike = (changed: (units: readonly number[]) => readonly number[]) =>
    COMPARED.every((pose) => {
      const units = from.map((_, i) => pose[i % pose.length] as number)
      const [here, there] = [units, changed(units)].map((each) =>
        from.map((low, i) => {
          const high = to[i] as number
          return (low + high + (each[i] as number) * (high - low)) / 2
        }),
      )
      return (
        here !== undefined &&
        there !== undefined &&
        Math.abs(of(here).differenceDb - of(there).differenceDb) < ALIKE_DB
      )
    })
  const even = mirrors.filter((group) =>
    isAlike((units) => units.map((unit, i) => (group.includes(i) ? -unit : unit))),
  )
  const isSquare = exchange?.every((twin, i) => from[twin] === from[i] && to[twin] === to[i]) ?? false
  return exchange !== undefined && isSquare && isAlike((units) => exchanged(units, exchange))
    ? { even, exchange }
    : { even }
}

/** The orders of a series short enough to be solved for. */
function boundedOrders(
  needed: readonly number[],
  level: number,
  isWanted: (orders: Orders) => boolean,
  mostTerms: number,
): readonly Orders[] {
  for (let by = level; ; by *= SHRINK) {
    const most = needed.map((order) => (order === 0 ? 0 : Math.max(2, Math.round(order * by))))
    const wanted = simplexOrders(most, isWanted)
    if (wanted.length <= mostTerms || most.every((order) => order <= 2)) return wanted
  }
}

/** Each axis alone at every order that it needs, however short the series is cut. */
function withAxisOrders(
  wanted: readonly Orders[],
  needed: readonly number[],
  isWanted: (orders: Orders) => boolean,
): readonly Orders[] {
  const known = new Set(wanted.map((orders) => orders.join()))
  const alone = needed.flatMap((most, axis) =>
    Array.from(
      { length: most },
      (_, order): Orders => needed.map((_each, i) => (i === axis ? order + 1 : 0)),
    ),
  )
  return [...wanted, ...alone.filter((orders) => isWanted(orders) && !known.has(orders.join()))]
}

/** Steps of the fit. */
export function* fitDifference(problem: FitProblem): Steps<JointFit> {
  const { region } = problem
  let evaluations = 0
  const of = (at: ArrayLike<number>): Difference => {
    evaluations++
    return problem.of(at)
  }
  const middle = region.from.map((low, i) => (low + (region.to[i] ?? low)) / 2)
  const leastDb = of(middle).fieldDb
  yield 0.02
  const taken: Sampled = { points: [], valuesDb: [], weights: [] }
  const symmetry = symmetryOf({ ...problem, of })
  const { even, exchange } = symmetry
  const needed = scanned(of, region, symmetry, leastDb, taken)
  yield 0.1
  const isWanted = (orders: Orders) =>
    even.every((group) => group.reduce((sum, i) => sum + (orders[i] ?? 0), 0) % 2 === 0) &&
    (exchange === undefined || isFirstOfBoth(orders, exchange))
  // Each pose stands for its exchanged one too.
  const share = exchange === undefined ? 1 : 1 / 2
  const mostTerms = problem.mostTerms * (exchange === undefined ? 1 : EXCHANGED_TERMS)
  const held: Sampled = { points: [], valuesDb: [], weights: [] }
  const asHeld = { seed: SEED + 7, spread: asSampled, wider: 1, leastDb }
  for (const _ of sampleStates(of, problem, held, [0, HELD_STATES * share], asHeld)) yield 0.2
  let states = 0
  let tried = 0
  let best: JointFit | null = null
  for (const level of LEVELS) {
    const wanted = withAxisOrders(boundedOrders(needed, level, isWanted, mostTerms), needed, isWanted)
    if (wanted.length <= tried) continue
    tried = wanted.length
    const wantedStates = Math.min(
      MOST_STATES,
      Math.max(LEAST_STATES * share, Math.ceil((POINTS_A_TERM * wanted.length) / POSES_A_STATE)),
    )
    const options = { seed: SEED, spread: towardsEnds, wider: WIDER, leastDb }
    for (const _ of sampleStates(of, problem, taken, [states, wantedStates], options)) {
      yield 0.2 + (0.75 * taken.points.length) / (MOST_STATES * POSES_A_STATE)
    }
    states = Math.max(states, wantedStates)
    const whole = fitSparse(region, wanted, taken.points, taken.valuesDb, taken.weights, exchange)
    const series = pruned(whole, PRUNED_DB)
    const value = sparseValue(series)
    let errorDb = 0
    for (const [i, point] of held.points.entries()) {
      if ((held.weights[i] as number) < COUNTED_WEIGHT) continue
      errorDb = Math.max(errorDb, Math.abs(value(point) - (held.valuesDb[i] as number)))
    }
    if (best === null || errorDb < best.errorDb) best = { region, series, errorDb, evaluations }
    if (errorDb < FIT_ERROR_DB) break
  }
  if (best === null) throw new Error('no fit was tried')
  return best
}
