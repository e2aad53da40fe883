// Limits beyond which the numbers of a gap are unreliable.

import { fixedText } from '../../../numerics/numberText'
import { divergenceHalfAngleRad, type GaussianJoint, PARAXIAL_LIMIT_RAD } from '../../../optics/index'
import type { ValidityNote } from '../../results/evaluation'

/** Where the paraxial Gaussian model is stretched. */
export function gapNotes(joint: GaussianJoint, elementId: string): readonly ValidityNote[] {
  const notes: ValidityNote[] = []
  const modes: readonly (readonly [string, number])[] = [
    ['emitting', Math.min(joint.emitterMfdXUm, joint.emitterMfdYUm)],
    ['receiving', Math.min(joint.receiverMfdXUm, joint.receiverMfdYUm)],
  ]
  for (const [side, mfdUm] of modes) {
    const half = divergenceHalfAngleRad({
      waistRadiusUm: mfdUm / 2,
      wavelengthUm: joint.wavelengthUm,
      index: joint.index,
    })
    if (half > PARAXIAL_LIMIT_RAD) {
      notes.push({
        elementId,
        message: `The ${side} mode of ${fixedText(mfdUm, 2)} µm diverges with a half-angle of ${fixedText(half, 2)} rad; the paraxial model is reliable up to about ${fixedText(PARAXIAL_LIMIT_RAD, 2)} rad, so expect an error of a few per cent.`,
      })
    }
    if (mfdUm < joint.wavelengthUm / joint.index) {
      notes.push({
        elementId,
        message: `The ${side} mode of ${fixedText(mfdUm, 2)} µm is smaller than the wavelength in the gap, ${fixedText(joint.wavelengthUm / joint.index, 2)} µm; a Gaussian is only a rough approximation of it.`,
      })
    }
  }
  return notes
}
