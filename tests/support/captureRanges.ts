import { type CaptureRange, captureRange } from '../../src/analysis/firstLight/capture'
import { type GaussianJoint, jointLossDb, MISALIGNMENT_AXES } from '../../src/optics/index'

/** How far each axis may be from the joint's position before Gaussian modes have lost `reserveDb`. */
export const captureRanges = (joint: GaussianJoint, reserveDb: number): readonly CaptureRange[] =>
  MISALIGNMENT_AXES.map((axis) => captureRange(joint, axis, reserveDb, jointLossDb))
