// Where the numbers of a gap stop being trustworthy.

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
        message: `The ${side} mode of ${mfdUm.toFixed(2)} µm spreads at ${half.toFixed(2)} rad half angle; the paraxial model is trusted to about ${PARAXIAL_LIMIT_RAD.toFixed(2)} rad, so expect an error of a few per cent.`,
      })
    }
    if (mfdUm < joint.wavelengthUm / joint.index) {
      notes.push({
        elementId,
        message: `The ${side} mode of ${mfdUm.toFixed(2)} µm is smaller than the wavelength in the gap, ${(joint.wavelengthUm / joint.index).toFixed(2)} µm; a Gaussian is only a rough approximation of it.`,
      })
    }
  }
  return notes
}
