// Alignment tolerances of a joint by its fields or through its real lenses, for whoever shows a joint without waiting for them.

import type { FieldJointSpec, GaussianJoint } from '../../optics/index'
import type { AxisWindow } from '../tolerance/toleranceCurve'
import { relayWindowsOf, type TiltCentre, windowsOf } from './fit/knownFits'
import type { RelayFields } from './fit/relayAxes'
import { windowsFrom } from './fit/windowNumbers'
import type { FieldLoss } from './jointField'

/** A joint with what is known of it beyond Gaussians. */
export interface RealJoint {
  readonly joint: GaussianJoint
  /** Absent for a joint of Gaussians. */
  readonly field?: { readonly spec: FieldJointSpec; readonly loss: FieldLoss | { readonly refusal: string } }
  /** Absent for a joint without real lenses. */
  readonly lenses?: RelayFields
}

/**
 * Windows of all six axes, in the order of MISALIGNMENT_AXES; null for a joint of Gaussians or where no grid holds the fields, 'pending'
 * where they are being computed elsewhere. Across a gap, tilts turn about the emitter's end face unless `turn` says otherwise; those of a
 * relay are of its image, about the facet.
 */
export function fieldWindows(
  { field, joint, lenses }: RealJoint,
  turn: TiltCentre = 'emitter',
): readonly AxisWindow[] | null | 'pending' {
  const numbers =
    lenses !== undefined
      ? relayWindowsOf({ kind: 'relay windows', lenses, nominal: joint })
      : field === undefined || 'refusal' in field.loss
        ? null
        : windowsOf({ kind: 'windows', spec: field.spec, nominal: joint, turn })
  return numbers === null || numbers === 'pending' ? numbers : windowsFrom(numbers)
}
