import { type CaptureRange, captureRange } from '../../src/analysis/firstLight/capture'
import { FIRST_LIGHT_AXES } from '../../src/analysis/firstLight/search'
import { type GaussianJoint, jointLossDb } from '../../src/optics/index'

/** How far each axis may be from the joint's position before Gaussian modes have lost `reserveDb`. */
export const captureRanges = (joint: GaussianJoint, reserveDb: number): readonly CaptureRange[] =>
  FIRST_LIGHT_AXES.map((axis) => captureRange(joint, axis, reserveDb, jointLossDb))
