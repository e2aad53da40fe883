// Where light is detected: the range of one axis, the lateral optimum of a pose, and the ellipse about it within which light is detected.

import { type GaussianJoint, jointLossDb, type MisalignmentAxis } from '../../optics/index'
import { type LossOf, windowMark } from '../tolerance/toleranceCurve'

export interface CaptureRange {
  readonly axis: MisalignmentAxis
  /** Displacement from the optimum to either side, core units; null where light is never lost. */
  readonly below: number | null
  readonly above: number | null
}

/** Half axes of the ellipse about a search point within which it sees light, um. */
export interface CaptureArea {
  readonly captureXUm: number
  readonly captureYUm: number
}

/** Displacement along one axis from the joint's position at which `reserveDb` is lost. */
export function captureRange(
  joint: GaussianJoint,
  axis: MisalignmentAxis,
  reserveDb: number,
  lossOf: LossOf = jointLossDb,
): CaptureRange {
  const { below, above } = windowMark(joint, axis, reserveDb, lossOf)
  return { axis, below, above }
}

/** Losses are compared over this share of the narrower mode. */
const STEP = 0.12
/** A step goes no further than so many of them, and the search ends below this share of one. */
const MOST_STEPS = 8
const DONE = 1e-3
const TURNS = 20

/**
 * The joint moved to its lowest loss over x and y. The loss of a Gaussian overlap in dB is a parabola of the offsets, so three losses
 * per axis give its lowest point; that of fields is one near its optimum.
 */
export function lateralOptimum(joint: GaussianJoint, lossOf: LossOf): GaussianJoint {
  const { emitterMfdXUm, emitterMfdYUm, receiverMfdXUm, receiverMfdYUm } = joint
  const stepUm = STEP * Math.min(emitterMfdXUm, emitterMfdYUm, receiverMfdXUm, receiverMfdYUm)
  let at = joint
  for (let turn = 0; turn < TURNS; turn++) {
    let moved = 0
    for (const axis of ['offsetXUm', 'offsetYUm'] as const) {
      const lossAt = (steps: number) => lossOf({ ...at, [axis]: at[axis] + steps * stepUm })
      const [below, here, above] = [lossAt(-1), lossAt(0), lossAt(1)]
      const curvature = below - 2 * here + above
      const downhill = below > above ? 1 : -1
      const wanted = curvature > 0 ? (below - above) / (2 * curvature) : downhill * MOST_STEPS
      const steps = Math.max(-MOST_STEPS, Math.min(MOST_STEPS, wanted))
      at = { ...at, [axis]: at[axis] + steps * stepUm }
      moved = Math.max(moved, Math.abs(steps))
    }
    if (moved < DONE) break
  }
  return at
}

/** Directions in which the ellipse is compared with the loss. */
const DIRECTIONS = 16
/** Two Gaussians lose the same all along the ellipse; neither rounding nor the change of grids shrinks it. */
const ROUNDING_DB = 0.02
const SHRINK = 0.02
const LEAST_SHARE = 0.1

/**
 * The ellipse about a pose at its lateral optimum. Its half axes are the shorter ranges along x and y; where the loss of real modes
 * reaches the limit within it, it shrinks until it sees light in every direction.
 */
export function captureArea(optimum: GaussianJoint, reserveDb: number, lossOf: LossOf): CaptureArea {
  const half = (axis: 'offsetXUm' | 'offsetYUm') => {
    const { below, above } = captureRange(optimum, axis, reserveDb, lossOf)
    return Math.min(below ?? Number.POSITIVE_INFINITY, above ?? Number.POSITIVE_INFINITY)
  }
  const [halfX, halfY] = [half('offsetXUm'), half('offsetYUm')]
  const limitDb = lossOf(optimum) + reserveDb + ROUNDING_DB
  const isSeen = (share: number) =>
    Array.from({ length: DIRECTIONS }, (_, i) => (2 * Math.PI * (i + 0.5)) / DIRECTIONS).every((angle) => {
      const offsetXUm = optimum.offsetXUm + share * halfX * Math.cos(angle)
      const offsetYUm = optimum.offsetYUm + share * halfY * Math.sin(angle)
      return lossOf({ ...optimum, offsetXUm, offsetYUm }) <= limitDb
    })
  let share = 1
  while (share > LEAST_SHARE && !isSeen(share)) share -= SHRINK
  return { captureXUm: share * halfX, captureYUm: share * halfY }
}
