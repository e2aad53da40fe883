// Loss of a joint in dB, finite however small the efficiency: where the power ratio runs out of the number format,
// the exact quadratic form of the exponent continues.
// Source: joint.ts and misalignmentForm.ts, which are the same integral.

import type { GaussianJoint } from './gaussianJoint'
import { jointEfficiency } from './joint'
import { formLossDb, misalignmentForm } from './misalignmentForm'

/** Below this the double-precision ratio loses digits (subnormal numbers begin at 2e-308). */
const LEAST_RATIO = 1e-290

/**
 * Loss of the joint, 0 or more, never Infinity. It continues beyond NO_LIGHT_DB, because a search needs its slope there.
 * Throws InputError as `jointEfficiency` does.
 */
export function jointLossDb(joint: GaussianJoint): number {
  const efficiency = jointEfficiency(joint)
  return efficiency > LEAST_RATIO
    ? 0 - 10 * Math.log10(efficiency)
    : formLossDb(misalignmentForm(joint), joint)
}
