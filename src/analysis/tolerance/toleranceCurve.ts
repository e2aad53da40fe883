// Loss against a single displacement: the loss curve of one axis, and its alignment tolerance for a stated excess loss.

import { brentRoot } from '../../numerics/roots'
import { type GaussianJoint, jointLossDb, MISALIGNMENT_AXES, type MisalignmentAxis } from '../../optics/index'

export const WINDOW_STEPS_DB = [0.5, 1, 3] as const

interface WindowMark {
  readonly excessDb: number
  /** Displacement from the working point to either side, core units; null where the axis never gets there. */
  readonly below: number | null
  readonly above: number | null
}

export interface AxisWindow {
  readonly axis: MisalignmentAxis
  /** Where the joint works on this axis. */
  readonly at: number
  readonly marks: readonly WindowMark[]
  /** Slope of the loss at the working point, dB per core unit. */
  readonly slopeDbPerUnit: number
}

export interface LossCurve {
  readonly axis: MisalignmentAxis
  readonly positions: Float64Array
  readonly lossesDb: Float64Array
}

/** Range examined on each axis about the working point, and a first step: um or rad. */
const REACH: Readonly<Record<MisalignmentAxis, { readonly first: number; readonly furthest: number }>> = {
  offsetXUm: { first: 0.05, furthest: 500 },
  offsetYUm: { first: 0.05, furthest: 500 },
  gapUm: { first: 0.5, furthest: 50_000 },
  tiltXRad: { first: 1e-3, furthest: 0.8 },
  tiltYRad: { first: 1e-3, furthest: 0.8 },
  rollRad: { first: 0.01, furthest: Math.PI / 2 },
}

const least = (axis: MisalignmentAxis): number => (axis === 'gapUm' ? 0 : Number.NEGATIVE_INFINITY)

/** Present loss of a joint: by Gaussians, or by the fields of its modes. */
export type LossOf = (joint: GaussianJoint) => number

function lossAt(joint: GaussianJoint, axis: MisalignmentAxis, position: number, lossOf: LossOf): number {
  return lossOf({ ...joint, [axis]: position })
}

/** Relative width of a window's end: as fine as closed forms allow. */
const EXACT = 1e-10
/** A step outwards is this much longer than the one before, at least and at most. */
const LEAST_GROWTH = 1.4
const MOST_GROWTH = 4

const signedRoot = (value: number): number => Math.sign(value) * Math.sqrt(Math.abs(value))

/** Distances to the first place on one side where the loss has grown by each of `excessesDb`, which ascend; null where it never does. */
function distancesTo(
  joint: GaussianJoint,
  axis: MisalignmentAxis,
  side: 1 | -1,
  excessesDb: readonly number[],
  lossOf: LossOf,
  tolerance: number,
): readonly (number | null)[] {
  const { first, furthest } = REACH[axis]
  const at = joint[axis]
  const hereDb = lossAt(joint, axis, at, lossOf)
  const room = side === 1 ? furthest : Math.min(furthest, at - least(axis))
  const excessAt = (distance: number) => lossAt(joint, axis, at + side * distance, lossOf) - hereDb
  let inner = 0
  let outer = Math.min(first, room)
  return excessesDb.map((excessDb) => {
    for (let reached = excessAt(outer); reached < excessDb; reached = excessAt(outer)) {
      if (outer >= room) return null
      inner = outer
      // About an optimum the excess grows as the square of the distance: the next place is where it would be enough.
      const growth = reached > 0 ? 1.05 * Math.sqrt(excessDb / reached) : LEAST_GROWTH
      outer = Math.min(room, outer * Math.min(MOST_GROWTH, Math.max(LEAST_GROWTH, growth)))
    }
    if (!(outer > 0)) return null
    const over = (distance: number) => signedRoot(excessAt(distance)) - Math.sqrt(excessDb)
    const root = brentRoot(over, inner, outer, { tolerance })
    return root.end === 'converged' ? root.x : null
  })
}

function slope(joint: GaussianJoint, axis: MisalignmentAxis, lossOf: LossOf): number {
  const step = REACH[axis].first * 1e-3
  const at = joint[axis]
  const lower = Math.max(least(axis), at - step)
  return (lossAt(joint, axis, at + step, lossOf) - lossAt(joint, axis, lower, lossOf)) / (at + step - lower)
}

function windowMarks(
  joint: GaussianJoint,
  axis: MisalignmentAxis,
  excessesDb: readonly number[],
  lossOf: LossOf,
  tolerance = EXACT,
): readonly WindowMark[] {
  const below = distancesTo(joint, axis, -1, excessesDb, lossOf, tolerance)
  const above = distancesTo(joint, axis, 1, excessesDb, lossOf, tolerance)
  return excessesDb.map((excessDb, i) => ({ excessDb, below: below[i] ?? null, above: above[i] ?? null }))
}

/** Distances to either side at which the excess loss on one axis is `excessDb`. Throws InputError for a bad joint. */
export function windowMark(
  joint: GaussianJoint,
  axis: MisalignmentAxis,
  excessDb: number,
  lossOf: LossOf = jointLossDb,
): WindowMark {
  const [mark] = windowMarks(joint, axis, [excessDb], lossOf)
  return mark ?? { excessDb, below: null, above: null }
}

/**
 * Windows and slope of one axis about the joint's own position, their ends to a relative `tolerance`. Throws InputError for
 * a bad joint.
 */
export function axisWindow(
  joint: GaussianJoint,
  axis: MisalignmentAxis,
  lossOf: LossOf = jointLossDb,
  tolerance: number = EXACT,
): AxisWindow {
  return {
    axis,
    at: joint[axis],
    marks: windowMarks(joint, axis, WINDOW_STEPS_DB, lossOf, tolerance),
    slopeDbPerUnit: slope(joint, axis, lossOf),
  }
}

/** The same of all six axes. */
export function toleranceWindows(joint: GaussianJoint): readonly AxisWindow[] {
  return MISALIGNMENT_AXES.map((axis) => axisWindow(joint, axis))
}

/** Loss along one axis from `from` to `to`, both included. */
export function lossCurve(
  joint: GaussianJoint,
  axis: MisalignmentAxis,
  from: number,
  to: number,
  count: number,
  lossOf: LossOf = jointLossDb,
): LossCurve {
  const positions = Float64Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1))
  return { axis, positions, lossesDb: positions.map((position) => lossAt(joint, axis, position, lossOf)) }
}
