// Loss of a joint in dB, finite however small the efficiency: where the power ratio runs out of the number format,
// the exact quadratic form of the exponent goes on.
// Source: joint.ts and misalignmentForm.ts, which are the same integral.

import { lossDb } from '../beam/decibel'
import type { GaussianJoint } from './gaussianJoint'
import { jointEfficiency } from './joint'
import { formLossDb, misalignmentForm } from './misalignmentForm'

/** Below this the double-precision ratio loses digits (subnormal numbers begin at 2e-308). */
const LEAST_RATIO = 1e-290

/** Loss of the joint, 0 or more, never Infinity. Throws InputError as `jointEfficiency` does. */
export function jointLossDb(joint: GaussianJoint): number {
  const efficiency = jointEfficiency(joint)
  return efficiency > LEAST_RATIO ? lossDb(efficiency) : formLossDb(misalignmentForm(joint), joint)
}
