// Excess loss of several candidates against the same displacement at the chip, sampled over a common range.

import { type GaussianJoint, jointLossDb } from '../../optics/index'
import { displacedLosses } from '../field/displacedLosses'
import type { RealJoint } from '../field/fieldWindows'
import { windowMark } from '../tolerance/toleranceCurve'
import { chipJoint } from '../tolerance/viewWindows'
import { type ChipAxis, viewChipMark } from './chipWindows'

const CURVES_TO_DB = 3
const POINTS = 81
/** Range where no candidate reaches the displayed excess loss: um or rad. */
const FALLBACK_REACH: Readonly<Record<ChipAxis, number>> = {
  offsetXUm: 5,
  offsetYUm: 5,
  gapUm: 50,
  tiltXRad: 0.1,
  tiltYRad: 0.1,
}

interface ChipCurve {
  /** From the working point, core units. */
  readonly displacements: Float64Array
  readonly excessDb: Float64Array
}

/** The curves of the joints on one axis; a gap ends at contact. */
export function chipCurves(joints: readonly GaussianJoint[], axis: ChipAxis): readonly ChipCurve[] {
  const seen = joints.map((joint) => chipJoint(joint, axis))
  const reaches = seen.flatMap((joint) => {
    const { below, above } = windowMark(joint, axis, CURVES_TO_DB)
    return [below, above].filter((side) => side !== null)
  })
  const reach = reaches.length === 0 ? FALLBACK_REACH[axis] : Math.max(...reaches)
  return seen.map((joint) => {
    const here = jointLossDb(joint)
    const from = axis === 'gapUm' ? Math.max(-reach, -joint.gapUm) : -reach
    const displacements = Float64Array.from(
      { length: POINTS },
      (_, i) => from + ((reach - from) * i) / (POINTS - 1),
    )
    return {
      displacements,
      excessDb: displacements.map((at) => jointLossDb({ ...joint, [axis]: joint[axis] + at }) - here),
    }
  })
}

/** Excess loss at the chip over a lateral offset on both axes, for a small picture. */
export interface OffsetExcess {
  readonly x: Float64Array
  readonly y: Float64Array
  /** Whether the paraxial image holds the place of real lenses, which are traced elsewhere. */
  readonly isProvisional: boolean
}

const PICTURE_POINTS = 49

/** How far small pictures of all these joints reach to either side, um: so that 1 dB lies well within the widest. */
export function pictureReachUm(views: readonly RealJoint[]): number {
  const sides = views.flatMap((view) =>
    (['offsetXUm', 'offsetYUm'] as const).flatMap((axis) => {
      const { below, above } = viewChipMark(view, axis)
      return [below, above].filter((side) => side !== null)
    }),
  )
  return Math.max(1, Math.ceil(1.2 * Math.max(0, ...sides)))
}

/** Excess loss from -reach to reach; the working point lies in the middle. Of a relay through its real lenses. */
export function offsetExcess({ joint, lenses }: RealJoint, reachUm: number): OffsetExcess {
  const seen = chipJoint(joint, 'offsetXUm')
  const along = (axis: 'offsetXUm' | 'offsetYUm') =>
    [{ axis, from: seen[axis] - reachUm, to: seen[axis] + reachUm, count: PICTURE_POINTS }] as const
  const { lossesDb, hereDb, isProvisional } = displacedLosses(seen, lenses, [
    along('offsetXUm'),
    along('offsetYUm'),
  ])
  const [x, y] = lossesDb.map((losses) => losses.map((lossDb) => lossDb - hereDb))
  return { x: x ?? new Float64Array(0), y: y ?? new Float64Array(0), isProvisional }
}
