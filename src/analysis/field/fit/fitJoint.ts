// The difference between the real and the Gaussian joint as a smooth function of FIT_AXES: Chebyshev products fitted to exact
// evaluations inside the region of the tolerances, refined until held-out poses agree.

import { normalQuantile } from '../../../numerics/normal'
import { chebyshevSeries } from '../../../numerics/polynomial/chebyshev'
import {
  fitSparse,
  type Orders,
  pruned,
  type SparseSeries,
  simplexOrders,
  sparseValue,
} from '../../../numerics/polynomial/sparseChebyshev'
import { unitPoints } from '../../../numerics/random/unitPoints'
import type { Steps } from '../../../numerics/steps'
import type { FieldJointSpec, GaussianJoint } from '../../../optics/index'
import { type ExactDifference, exactDifference } from './exactDifference'
import { FIT_AXES, type FitAxis, type JointRegion } from './jointAxes'

export interface JointFit {
  readonly region: JointRegion
  /** Real less Gaussian loss over the region, dB. */
  readonly series: SparseSeries
  /** Largest difference from exact sums at held-out poses within the tolerances, dB. */
  readonly errorDb: number
  readonly evaluations: number
}

/** A fit that misses held-out poses by less is done. */
export const FIT_ERROR_DB = 0.02

const SEED = 20_251_126
/** Poses that share one tilt, and so one transform. */
const POSES_A_STATE = 10
/** Points for every term of the series. */
const POINTS_A_TERM = 1.7
const MOST_TERMS = 420
const MOST_STATES = 110
const HELD_STATES = 16
/** Chebyshev points along one axis, to see what order it needs, and what its last orders may add, dB. */
const SCAN_POINTS = 14
const SCAN_DB = 0.004
/** Growth of the orders from one attempt to the next. */
const LEVELS = [1, 1.3, 1.7, 2.2]
/** A pose that loses so much more than the best counts half. */
const HALF_WEIGHT_DB = 6
/** Terms that together make less are left out, dB. */
const PRUNED_DB = 0.002
/** The region reaches to so many standard deviations of normal draws. */
const REACH = 3.09

interface Sampled {
  readonly points: Float64Array[]
  readonly valuesDb: number[]
  readonly weights: number[]
}

/** Axes that cost a transform of the emitter, and sizes, which cost those of both modes and so are shared by several tilts. */
const TILT_AXES: ReadonlySet<FitAxis> = new Set(['tiltXRad', 'tiltYRad', 'rollRad', 'wavelength'])
const SIZE_AXES: ReadonlySet<FitAxis> = new Set(['emitterX', 'emitterY', 'receiverX', 'receiverY'])
const TILTS_A_SIZE = 4

/** A number between 0 and 1 to a place between -1 and 1: towards the ends for fits, as draws fall for checks. */
const towardsEnds = (u: number) => Math.sin(Math.PI * (u - 0.5))
const asDrawn = (u: number) => Math.max(-1, Math.min(1, normalQuantile(u) / REACH))

function* sampleStates(
  of: ExactDifference,
  { from, to }: JointRegion,
  into: Sampled,
  states: readonly [first: number, end: number],
  options: {
    readonly seed: number
    readonly place: (u: number) => number
    readonly leastDb: number
  },
): Generator<void, void, void> {
  const width = FIT_AXES.length
  const state = unitPoints('sobol', width, options.seed)
  const pose = unitPoints('sobol', 3, options.seed + 1)
  const tilt = new Float64Array(width)
  const size = new Float64Array(width)
  const p = new Float64Array(3)
  for (let s = states[0]; s < states[1]; s++) {
    state.point(s, tilt)
    state.point(Math.floor(s / TILTS_A_SIZE), size)
    for (let k = 0; k < POSES_A_STATE; k++) {
      pose.point(s * POSES_A_STATE + k, p)
      const at = Float64Array.from(FIT_AXES, (axis, i) => {
        const [low, high] = [from[i] ?? 0, to[i] ?? 0]
        const drawn = SIZE_AXES.has(axis) ? size : TILT_AXES.has(axis) ? tilt : p
        const unit = drawn[i] ?? 0.5
        return low === high ? low : (low + high + (high - low) * options.place(unit)) / 2
      })
      const { differenceDb, fieldDb } = of(at)
      into.points.push(at)
      into.valuesDb.push(differenceDb)
      into.weights.push(1 / (1 + Math.max(0, fieldDb - options.leastDb) / HALF_WEIGHT_DB))
    }
    yield
  }
}

/** The order that each axis alone needs; 0 for an axis that nothing moves. */
function scanned(of: ExactDifference, { from, to }: JointRegion): readonly number[] {
  const middle = from.map((low, i) => (low + (to[i] ?? low)) / 2)
  return from.map((low, i) => {
    const high = to[i] ?? low
    if (high === low) return 0
    const series = chebyshevSeries((x) => of(middle.with(i, x)).differenceDb, low, high, SCAN_POINTS)
    let order = SCAN_POINTS - 1
    let left = 0
    for (; order > 2; order--) {
      left += Math.abs(series.coefficients[order] ?? 0)
      if (left > SCAN_DB) break
    }
    return order
  })
}

/** Tells which mirror images change nothing: x with tilt x, y with tilt y, about the middle of the region. */
function mirrors(of: ExactDifference, { from, to }: JointRegion): readonly (readonly [number, number])[] {
  const at = (sign: readonly [number, number], by: number) =>
    from.map((low, i) => {
      const high = to[i] ?? low
      const turn = i === 0 || i === 3 ? sign[0] : i === 1 || i === 4 ? sign[1] : 1
      return (low + high) / 2 + (turn * by * (high - low)) / 2
    })
  const rolls = (from[5] ?? 0) !== (to[5] ?? 0)
  if (rolls) return []
  const pairs: (readonly [number, number])[] = []
  for (const [sign, pair] of [
    [
      [-1, 1],
      [0, 3],
    ],
    [
      [1, -1],
      [1, 4],
    ],
  ] as const) {
    const even = [0.35, 0.6].every(
      (by) => Math.abs(of(at([1, 1], by)).differenceDb - of(at(sign, by)).differenceDb) < 1e-3,
    )
    if (even) pairs.push(pair)
  }
  return pairs
}

/** Steps of the fit; throws InputError where no grid holds the joint. */
export function* fitJointSteps(
  spec: FieldJointSpec,
  nominal: GaussianJoint,
  region: JointRegion,
): Steps<JointFit> {
  let evaluations = 0
  const exact = exactDifference(spec, nominal, region)
  const of: ExactDifference = (at) => {
    evaluations++
    return exact.of(at)
  }
  const middle = region.from.map((low, i) => (low + (region.to[i] ?? low)) / 2)
  const leastDb = of(middle).fieldDb
  yield 0.02
  const needed = scanned(of, region)
  const even = mirrors(of, region)
  yield 0.1
  const isEven = (orders: Orders) => even.every(([a, b]) => ((orders[a] ?? 0) + (orders[b] ?? 0)) % 2 === 0)
  const held: Sampled = { points: [], valuesDb: [], weights: [] }
  for (const _ of sampleStates(of, region, held, [0, HELD_STATES], {
    seed: SEED + 7,
    place: asDrawn,
    leastDb,
  }))
    yield 0.2
  const taken: Sampled = { points: [], valuesDb: [], weights: [] }
  let states = 0
  let best: JointFit | null = null
  for (const level of LEVELS) {
    const wanted = simplexOrders(
      needed.map((order) => (order === 0 ? 0 : Math.max(2, Math.round(order * level)))),
      isEven,
    )
    if (wanted.length > MOST_TERMS && best !== null) break
    const wantedStates = Math.min(
      MOST_STATES,
      Math.max(12, Math.ceil((POINTS_A_TERM * wanted.length) / POSES_A_STATE)),
    )
    const options = { seed: SEED, place: towardsEnds, leastDb }
    for (const _ of sampleStates(of, region, taken, [states, wantedStates], options)) {
      yield 0.2 + (0.75 * taken.points.length) / (MOST_STATES * POSES_A_STATE)
    }
    states = Math.max(states, wantedStates)
    const whole = fitSparse(region, wanted, taken.points, taken.valuesDb, taken.weights)
    const series = pruned(whole, PRUNED_DB)
    const value = sparseValue(series)
    let errorDb = 0
    for (const [i, point] of held.points.entries()) {
      errorDb = Math.max(errorDb, Math.abs(value(point) - (held.valuesDb[i] ?? 0)))
    }
    if (best === null || errorDb < best.errorDb) best = { region, series, errorDb, evaluations }
    if (errorDb < FIT_ERROR_DB) break
  }
  if (best === null) throw new Error('no fit was tried')
  return best
}
