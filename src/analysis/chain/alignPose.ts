// Active alignment: the aligned degrees of freedom go to where this very assembly couples most, the placed ones stay.
// For offsets and tilts the loss is an exact quadratic form (optics/misalignmentForm.ts), so the best place is the
// solution of a small linear system; the best gap is searched over it. The principal axes are taken to coincide at
// the best roll. Offsets are aligned last, as stations do: they make up for what the search left in gap and tilt.

import type { PoseAxis } from '../../model/candidate'
import { minimiseBrent } from '../../numerics/minimise'
import {
  FORM_AXES,
  type GaussianJoint,
  type MisalignmentForm,
  misalignmentForm,
  rayleighRangeUm,
} from '../../optics/index'

/** The pose and the modes of a gap; the pose is overwritten. */
export interface AlignableGap {
  readonly mediumIndex: number
  readonly emitterMfdXUm: number
  readonly emitterMfdYUm: number
  readonly receiverMfdXUm: number
  readonly receiverMfdYUm: number
  readonly waistXUm: number
  readonly waistYUm: number
  offsetXUm: number
  offsetYUm: number
  gapUm: number
  tiltXRad: number
  tiltYRad: number
  rollRad: number
}

/** Axes of the quadratic form, in the order of FORM_AXES. */
const FORM_POSE: readonly PoseAxis[] = ['offsetX', 'offsetY', 'tiltX', 'tiltY']
const FIRST_TILT = 2

/** The best gap is looked for this many Rayleigh ranges out. */
const GAP_REACH = 4
const GAP_TOLERANCE = 1e-7

/** Solves the n x n system in place by elimination; the form is positive definite, so no pivot is needed. */
function solve(matrix: number[][], right: number[]): void {
  const n = right.length
  for (let k = 0; k < n; k++) {
    const pivotRow = matrix[k] ?? []
    for (let i = 0; i < n; i++) {
      const row = matrix[i] ?? []
      if (i === k) continue
      const factor = (row[k] ?? 0) / (pivotRow[k] ?? 1)
      for (let j = k; j < n; j++) row[j] = (row[j] ?? 0) - factor * (pivotRow[j] ?? 0)
      right[i] = (right[i] ?? 0) - factor * (right[k] ?? 0)
    }
  }
  for (let k = 0; k < n; k++) right[k] = (right[k] ?? 0) / (matrix[k]?.[k] ?? 1)
}

/** Moves the aligned entries of `at` to the least of the form; returns the excess loss there, dB. */
function settle(form: MisalignmentForm, free: readonly number[], at: number[]): number {
  const h = (i: number, j: number) => form.curvatureDb[4 * i + j] ?? 0
  const matrix = free.map((i) => free.map((j) => h(i, j)))
  const right = free.map((i) => {
    let pull = 0
    for (let j = 0; j < 4; j++) if (!free.includes(j)) pull -= h(i, j) * (at[j] ?? 0)
    return pull
  })
  solve(matrix, right)
  for (const [k, i] of free.entries()) at[i] = right[k] ?? 0
  let excess = 0
  for (let i = 0; i < 4; i++) for (let j = 0; j < 4; j++) excess += (at[i] ?? 0) * h(i, j) * (at[j] ?? 0)
  return excess
}

/**
 * Replaces the aligned degrees of `gap` by their best place plus what they held on entry (the residual). The tilts on
 * entry contain `leftoverXRad` and `leftoverYRad`, the pointing that drawn faces add; alignment takes these out.
 */
export function alignPose(
  gap: AlignableGap,
  aligned: ReadonlySet<PoseAxis>,
  wavelengthUm: number,
  leftoverXRad: number,
  leftoverYRad: number,
): void {
  const residual = [gap.offsetXUm, gap.offsetYUm, gap.tiltXRad - leftoverXRad, gap.tiltYRad - leftoverYRad]
  const placed = [gap.offsetXUm, gap.offsetYUm, gap.tiltXRad, gap.tiltYRad]
  const free = FORM_POSE.flatMap((axis, i) => (aligned.has(axis) ? [i] : []))
  const joint: GaussianJoint = {
    wavelengthUm,
    index: gap.mediumIndex,
    emitterMfdXUm: gap.emitterMfdXUm,
    emitterMfdYUm: gap.emitterMfdYUm,
    receiverMfdXUm: gap.receiverMfdXUm,
    receiverMfdYUm: gap.receiverMfdYUm,
    offsetXUm: 0,
    offsetYUm: 0,
    gapUm: Math.max(0, gap.gapUm),
    tiltXRad: 0,
    tiltYRad: 0,
    rollRad: aligned.has('roll') ? 0 : gap.rollRad,
    waistXUm: gap.waistXUm,
    waistYUm: gap.waistYUm,
  }
  const at = [...placed]
  const lossAt = (gapUm: number) => {
    for (let i = 0; i < 4; i++) at[i] = placed[i] ?? 0
    const form = misalignmentForm({ ...joint, gapUm })
    return form.alignedLossDb + settle(form, free, at)
  }
  if (aligned.has('gap')) gap.gapUm += bestGap(lossAt, joint)
  const gapUm = Math.max(0, gap.gapUm)
  lossAt(gapUm)
  for (const i of free) if (i >= FIRST_TILT) at[i] = (at[i] ?? 0) + (residual[i] ?? 0)
  const offsets = free.filter((i) => i < FIRST_TILT)
  settle(misalignmentForm({ ...joint, gapUm }), offsets, at)
  for (const i of offsets) at[i] = (at[i] ?? 0) + (residual[i] ?? 0)
  for (const [i, axis] of FORM_AXES.entries()) gap[axis] = at[i] ?? 0
}

/** Least loss between contact and a few Rayleigh ranges; contact itself where nothing beats it. */
function bestGap(lossAt: (gapUm: number) => number, joint: GaussianJoint): number {
  const widest = Math.max(
    joint.emitterMfdXUm,
    joint.emitterMfdYUm,
    joint.receiverMfdXUm,
    joint.receiverMfdYUm,
  )
  const reachUm =
    Math.max(joint.waistXUm, joint.waistYUm) +
    GAP_REACH *
      rayleighRangeUm({ waistRadiusUm: widest / 2, wavelengthUm: joint.wavelengthUm, index: joint.index })
  const found = minimiseBrent(lossAt, 0, reachUm, { tolerance: GAP_TOLERANCE })
  return found.value < lossAt(0) ? found.x : 0
}
