// What one displacement at the chip adds to the loss of several candidates, sampled over one common reach.

import { type GaussianJoint, jointLossDb } from '../../optics/index'
import { windowMark } from '../tolerance/toleranceCurve'
import { type ChipAxis, chipJoint } from './chipWindows'

export const CURVES_TO_DB = 3
const POINTS = 81
/** Where no candidate ever gets to the shown excess: um or rad. */
const FALLBACK_REACH: Readonly<Record<ChipAxis, number>> = {
  offsetXUm: 5,
  offsetYUm: 5,
  gapUm: 50,
  tiltXRad: 0.1,
  tiltYRad: 0.1,
}

export interface ChipCurve {
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
