// Active alignment: the aligned degrees of freedom move to the optimum of this assembly, the placed ones stay.
// For offsets and tilts the loss is an exact quadratic form (optics/joint/misalignmentForm.ts), so the best place is the
// solution of a small linear system; the best gap is searched over it. The principal axes are taken to coincide at
// the best roll. Offsets are aligned last, as stations do: they compensate the residuals of gap and tilt.

import type { PoseAxis } from '../../../model/words/candidate'
import { eliminateFour, solutionOfFour } from '../../../numerics/linear/fourUnknowns'
import { minimiseBrent } from '../../../numerics/minimise'
import { type FormJoint, fillCurvatureDb, jointEfficiencyAt, lossDb } from '../../../optics/index'
import type { Mutable } from '../faces/faceNumbers'

/** The pose of a gap, to be overwritten. */
export interface FreePose {
  offsetXUm: number
  offsetYUm: number
  gapUm: number
  tiltXRad: number
  tiltYRad: number
  rollRad: number
}

/** The pose and the modes of a gap. */
interface AlignableGap extends FreePose {
  readonly mediumIndex: number
  readonly emitterMfdXUm: number
  readonly emitterMfdYUm: number
  readonly receiverMfdXUm: number
  readonly receiverMfdYUm: number
  readonly waistXUm: number
  readonly waistYUm: number
}

/** Axes of the quadratic form, in the order of FORM_AXES (optics/joint/misalignmentForm.ts). */
const FORM_POSE: readonly PoseAxis[] = ['offsetX', 'offsetY', 'tiltX', 'tiltY']
const OFFSETS = [true, true, false, false] as const

/** The optimum gap is searched up to this many Rayleigh ranges. */
const GAP_REACH = 4
const GAP_TOLERANCE = 1e-7

type AlignPose = (gap: AlignableGap, leftoverXRad: number, leftoverYRad: number) => void

/**
 * The alignment of the given degrees. It replaces them by their best place plus what they held on entry (the residual).
 * The tilts on entry contain `leftoverXRad` and `leftoverYRad`, the pointing that sampled faces add; alignment takes these
 * out. No allocation unless the gap is searched.
 */
export function poseAligner(aligned: ReadonlySet<PoseAxis>, wavelengthUm: number): AlignPose {
  const free = FORM_POSE.map((axis) => aligned.has(axis))
  const freeOffsets = free.map((each, i) => each && (OFFSETS[i] ?? false))
  const turns = aligned.has('tiltX') || aligned.has('tiltY')
  const joint: Mutable<FormJoint> = {
    wavelengthUm,
    index: 1.5,
    emitterMfdXUm: 1.5,
    emitterMfdYUm: 1.5,
    receiverMfdXUm: 1.5,
    receiverMfdYUm: 1.5,
    gapUm: 0.5,
    rollRad: 0.5,
    waistXUm: 0,
    waistYUm: 0,
  }
  const curvature = new Float64Array(16)
  const system = new Float64Array(20)
  const placed = new Float64Array(4)
  const residual = new Float64Array(4)
  const at = new Float64Array(4)

  /** Moves the free entries of `at` to the least of the form at a gap. */
  const settle = (which: readonly boolean[], gapUm: number) => {
    joint.gapUm = gapUm
    fillCurvatureDb(joint, curvature)
    settleFree(curvature, which, at, system)
  }
  const lossAtGap = (gapUm: number) => {
    at.set(placed)
    settle(free, gapUm)
    return alignedLossDb(joint) + excessDb(curvature, at)
  }
  return (gap, leftoverXRad, leftoverYRad) => {
    joint.index = gap.mediumIndex
    joint.emitterMfdXUm = gap.emitterMfdXUm
    joint.emitterMfdYUm = gap.emitterMfdYUm
    joint.receiverMfdXUm = gap.receiverMfdXUm
    joint.receiverMfdYUm = gap.receiverMfdYUm
    joint.waistXUm = gap.waistXUm
    joint.waistYUm = gap.waistYUm
    joint.rollRad = aligned.has('roll') ? 0 : gap.rollRad
    placed[0] = residual[0] = gap.offsetXUm
    placed[1] = residual[1] = gap.offsetYUm
    placed[2] = gap.tiltXRad
    placed[3] = gap.tiltYRad
    residual[2] = gap.tiltXRad - leftoverXRad
    residual[3] = gap.tiltYRad - leftoverYRad
    if (aligned.has('gap')) gap.gapUm += bestGap(lossAtGap, joint)
    const gapUm = Math.max(0, gap.gapUm)
    at.set(placed)
    if (turns) {
      settle(free, gapUm)
      for (let i = 2; i < 4; i++) if (free[i]) at[i] = (at[i] as number) + (residual[i] as number)
    }
    settle(freeOffsets, gapUm)
    for (let i = 0; i < 2; i++) if (free[i]) at[i] = (at[i] as number) + (residual[i] as number)
    gap.offsetXUm = at[0] as number
    gap.offsetYUm = at[1] as number
    gap.tiltXRad = at[2] as number
    gap.tiltYRad = at[3] as number
  }
}

/**
 * Solves H at = 0 for the free entries, the others held, by elimination in rows of five. The form is positive definite,
 * so no pivot is looked for.
 */
function settleFree(
  curvature: Float64Array,
  free: readonly boolean[],
  at: Float64Array,
  system: Float64Array,
): void {
  if (free[0] && free[1] && !free[2] && !free[3]) {
    settleOffsets(curvature, at)
    return
  }
  for (let i = 0; i < 4; i++) {
    for (let j = 0; j < 4; j++) {
      system[5 * i + j] = free[i] ? (curvature[4 * i + j] as number) : i === j ? 1 : 0
    }
    system[5 * i + 4] = free[i] ? 0 : (at[i] as number)
  }
  eliminateFour(system)
  for (let k = 0; k < 4; k++) if (free[k]) at[k] = solutionOfFour(system, k)
}

/** The same for both offsets only, the usual case at a station. */
function settleOffsets(curvature: Float64Array, at: Float64Array): void {
  const tiltX = at[2] as number
  const tiltY = at[3] as number
  const h11 = curvature[0] as number
  const h12 = curvature[1] as number
  const h22 = curvature[5] as number
  const rx = -((curvature[2] as number) * tiltX + (curvature[3] as number) * tiltY)
  const ry = -((curvature[6] as number) * tiltX + (curvature[7] as number) * tiltY)
  const det = h11 * h22 - h12 * h12
  at[0] = (h22 * rx - h12 * ry) / det
  at[1] = (h11 * ry - h12 * rx) / det
}

function excessDb(curvature: Float64Array, at: Float64Array): number {
  let excess = 0
  for (let i = 0; i < 4; i++) {
    for (let j = 0; j < 4; j++)
      excess += (at[i] as number) * (curvature[4 * i + j] as number) * (at[j] as number)
  }
  return excess
}

/** Loss of a joint with its modes on one axis, dB. */
export function alignedLossDb(joint: FormJoint): number {
  return lossDb(
    jointEfficiencyAt(
      joint.wavelengthUm,
      joint.index,
      joint.emitterMfdXUm,
      joint.emitterMfdYUm,
      joint.receiverMfdXUm,
      joint.receiverMfdYUm,
      0,
      0,
      joint.gapUm,
      0,
      0,
      joint.rollRad,
      joint.waistXUm,
      joint.waistYUm,
    ),
  )
}

/** Lowest loss between contact and a few Rayleigh ranges; contact itself where nothing beats it. */
function bestGap(lossAt: (gapUm: number) => number, joint: FormJoint): number {
  const widest = Math.max(
    joint.emitterMfdXUm,
    joint.emitterMfdYUm,
    joint.receiverMfdXUm,
    joint.receiverMfdYUm,
  )
  const farthestWaistUm = Math.max(0, joint.waistXUm, joint.waistYUm)
  const reachUm =
    farthestWaistUm + (GAP_REACH * Math.PI * joint.index * widest * widest) / (4 * joint.wavelengthUm)
  const found = minimiseBrent(lossAt, 0, reachUm, { tolerance: GAP_TOLERANCE })
  return found.value < lossAt(0) ? found.x : 0
}
