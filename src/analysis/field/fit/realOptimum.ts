// Where active alignment of a joint by fields settles: the offsets and tilts of lowest loss, which for skewed modes differ from those of
// their Gaussians. Newton's steps from differences of direct sums.

import { InputError } from '../../../numerics/inputError'
import { solveSmall } from '../../../numerics/linear/smallSystem'
import type { Steps } from '../../../numerics/steps'
import { fieldJointOn, fieldPairOf, firstGrid, type GaussianJoint, lossDb } from '../../../optics/index'
import type { AlignmentSearch } from './knownFits'

/** Differences are applied this share of the narrower mode, and of its divergence. */
const STEP = 0.06
/** Maximum step, as a multiple of them. */
const MOST_STEPS = 12
const ITERATIONS = 5
/** The search ends when a step gains less, dB. */
const DONE_DB = 2e-4
const AXES = ['offsetXUm', 'offsetYUm', 'tiltXRad', 'tiltYRad'] as const

/** A Newton step in units of the differences; null where the loss does not curve upwards. */
function newtonStep(
  lossAt: (move: readonly number[]) => number,
  hereDb: number,
  count: number,
): readonly number[] | null {
  const unit = (...stepped: readonly number[]) =>
    Array.from({ length: count }, (_, i) => stepped.reduce((sum, axisAt) => sum + (axisAt === i ? 1 : 0), 0))
  const ends = Array.from({ length: count }, (_, i) => {
    const minus = lossAt(unit(i).map((each) => -each))
    return { minus, plus: lossAt(unit(i)) }
  })
  const slope = ends.map(({ minus, plus }) => (plus - minus) / 2)
  const mixed = (i: number, j: number): number => {
    const [one, other] = [ends[Math.max(i, j)], ends[Math.min(i, j)]]
    if (one === undefined || other === undefined) return 0
    if (i === j) return one.plus + one.minus - 2 * hereDb
    return lossAt(unit(i, j)) - one.plus - other.plus + hereDb
  }
  const curve = ends.map((_, i) => ends.map((__, j) => (j <= i ? mixed(i, j) : 0)))
  const step = solveSmall(
    curve.map((row, i) => [
      ...row.map((_, j) => curve[Math.max(i, j)]?.[Math.min(i, j)] ?? 0),
      -(slope[i] ?? 0),
    ]),
  )
  if (step === null) return null
  const longest = Math.max(...step.map(Math.abs))
  const by = Math.min(1, MOST_STEPS / longest)
  return step.map((each) => each * by)
}

/** Steps of the search: how far the optimum lies from the joint as given, in AXES, um and rad; 0 where an axis is not free. */
export function* realOptimum({ spec, nominal, free }: AlignmentSearch): Steps<readonly number[]> {
  const axes = AXES.flatMap((axis, i) => (free[i] ? [axis] : []))
  const { emitterMfdXUm, emitterMfdYUm, receiverMfdXUm, receiverMfdYUm, wavelengthUm, index } = nominal
  const narrowUm = Math.min(emitterMfdXUm, emitterMfdYUm, receiverMfdXUm, receiverMfdYUm)
  const sizeOf = (axis: (typeof AXES)[number]) =>
    STEP * (axis.startsWith('offset') ? narrowUm : wavelengthUm / (index * narrowUm))
  const moved = (from: GaussianJoint, move: readonly number[]): GaussianJoint => {
    const changes = axes.map((axis, i) => [axis, from[axis] + sizeOf(axis) * (move[i] ?? 0)] as const)
    return { ...from, ...Object.fromEntries(changes) }
  }
  let at = nominal
  try {
    const pair = fieldPairOf(spec)
    const reach = axes.map(() => MOST_STEPS)
    const grid = firstGrid(pair, [nominal, moved(nominal, reach)])
    const { efficiency } = fieldJointOn(pair, grid)
    const lossOf = (joint: GaussianJoint) => lossDb(Math.max(efficiency(joint), Number.MIN_VALUE))
    let hereDb = lossOf(at)
    for (let i = 0; i < ITERATIONS; i++) {
      yield i / ITERATIONS
      const step = newtonStep((move) => lossOf(moved(at, move)), hereDb, axes.length)
      if (step === null) break
      let gainDb = 0
      for (let share = 1; share > 0.1 && gainDb <= 0; share /= 2) {
        const next = moved(
          at,
          step.map((each) => each * share),
        )
        gainDb = hereDb - lossOf(next)
        if (gainDb > 0) at = next
      }
      hereDb -= Math.max(0, gainDb)
      if (gainDb < DONE_DB) break
    }
  } catch (error) {
    if (!(error instanceof InputError)) throw error
  }
  return AXES.map((axis) => at[axis] - nominal[axis])
}
