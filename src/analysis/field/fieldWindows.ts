// Alignment tolerances of a joint by its fields, for whoever shows a joint without waiting for them.

import type { FieldJointSpec, GaussianJoint } from '../../optics/index'
import type { AxisWindow } from '../tolerance/toleranceCurve'
import { type TiltCentre, windowsOf } from './fit/knownFits'
import { windowsFrom } from './fit/windowNumbers'
import type { FieldLoss } from './jointField'

interface JointWithFields {
  readonly joint: GaussianJoint
  /** Absent for a joint of Gaussians. */
  readonly field?: { readonly spec: FieldJointSpec; readonly loss: FieldLoss | { readonly refusal: string } }
}

/**
 * Windows of all six axes, in the order of MISALIGNMENT_AXES; null for a joint of Gaussians or where no grid holds the fields, 'pending'
 * where they are being computed elsewhere. Tilts turn about the emitter's end face unless `turn` says otherwise.
 */
export function fieldWindows(
  { field, joint }: JointWithFields,
  turn: TiltCentre = 'emitter',
): readonly AxisWindow[] | null | 'pending' {
  if (field === undefined || 'refusal' in field.loss) return null
  const numbers = windowsOf({ kind: 'windows', spec: field.spec, nominal: joint, turn })
  return numbers === null || numbers === 'pending' ? numbers : windowsFrom(numbers)
}
