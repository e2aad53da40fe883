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

/** Distance to the first place on one side where the loss has grown by `excessDb`, or null. */
function distanceTo(
  joint: GaussianJoint,
  axis: MisalignmentAxis,
  side: 1 | -1,
  excessDb: number,
  lossOf: LossOf,
): number | null {
  const { first, furthest } = REACH[axis]
  const at = joint[axis]
  const target = lossAt(joint, axis, at, lossOf) + excessDb
  const room = side === 1 ? furthest : Math.min(furthest, at - least(axis))
  const over = (distance: number) => lossAt(joint, axis, at + side * distance, lossOf) - target
  let inner = 0
  for (let outer = Math.min(first, room); outer > inner; outer = Math.min(room, outer * 1.4)) {
    if (over(outer) >= 0) {
      const root = brentRoot(over, inner, outer, { tolerance: 1e-10 })
      return root.end === 'converged' ? root.x : null
    }
    inner = outer
  }
  return null
}

function slope(joint: GaussianJoint, axis: MisalignmentAxis, lossOf: LossOf): number {
  const step = REACH[axis].first * 1e-3
  const at = joint[axis]
  const lower = Math.max(least(axis), at - step)
  return (lossAt(joint, axis, at + step, lossOf) - lossAt(joint, axis, lower, lossOf)) / (at + step - lower)
}

/** Distances to either side at which the excess loss on one axis is `excessDb`. Throws InputError for a bad joint. */
export function windowMark(
  joint: GaussianJoint,
  axis: MisalignmentAxis,
  excessDb: number,
  lossOf: LossOf = jointLossDb,
): WindowMark {
  return {
    excessDb,
    below: distanceTo(joint, axis, -1, excessDb, lossOf),
    above: distanceTo(joint, axis, 1, excessDb, lossOf),
  }
}

/** Windows and slope of one axis about the joint's own position. Throws InputError for a bad joint. */
export function axisWindow(
  joint: GaussianJoint,
  axis: MisalignmentAxis,
  lossOf: LossOf = jointLossDb,
): AxisWindow {
  return {
    axis,
    at: joint[axis],
    marks: WINDOW_STEPS_DB.map((excessDb) => windowMark(joint, axis, excessDb, lossOf)),
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
