// What a gap reflects back, and where its numbers stop being trustworthy.

import type { GapElement } from '../../model/candidate'
import {
  divergenceHalfAngleRad,
  faceReturnLoss,
  farFaceReturnLoss,
  type GaussianJoint,
  lossDb,
  PARAXIAL_LIMIT_RAD,
  tipReturnOverlap,
} from '../../optics/index'
import type { TipFace, ValidityNote } from '../evaluation'
import type { GapState } from './gapJoin'

/** Return loss of both faces seen from the near guide, powers added; null where no index step reflects. */
export function gapReturnLossDb(state: GapState, plane: GapElement['facePlane']): number | null {
  const { near, far, mediumIndex, joint } = state
  const mode = { wavelengthUm: joint.wavelengthUm, mfdXUm: near.mfdXUm, mfdYUm: near.mfdYUm }
  const indices = { guideIndex: near.index, mediumIndex }
  const along = (angle: number) => ({ x: plane === 'x' ? angle : 0, y: plane === 'y' ? angle : 0 })
  const nearAngle = along(state.nearFaceAngleRad)
  const farAngle = along(state.farIncidenceRad)
  const faces: number[] = []
  if (near.index !== mediumIndex) {
    const tip =
      near.tip?.radiusUm == null ? 0 : tipReturnGainDb(near.tip, near.tip.radiusUm, near.index, joint)
    const own = { ...mode, ...(near.tip && { mfdXUm: near.tip.modeMfdXUm, mfdYUm: near.tip.modeMfdYUm }) }
    faces.push(tip + faceReturnLoss({ ...own, ...indices, angleXRad: nearAngle.x, angleYRad: nearAngle.y }))
  }
  if (far.index !== mediumIndex) {
    faces.push(
      farFaceReturnLoss({
        ...mode,
        ...indices,
        farIndex: far.index,
        gapUm: joint.gapUm,
        // At no tilt the beam meets the far face as the receiver's own beam would leave it.
        incidenceXRad: farAngle.x + joint.tiltXRad,
        incidenceYRad: farAngle.y + joint.tiltYRad,
        waistXUm: near.waistXUm,
        waistYUm: near.waistYUm,
      }),
    )
  }
  const power = faces.reduce((sum, loss) => sum + 10 ** (-loss / 10), 0)
  return power > 0 ? -10 * Math.log10(power) : null
}

/** What the curvature of a lensed tip takes from its own reflection, dB. */
function tipReturnGainDb(
  tip: TipFace,
  tipRadiusUm: number,
  fibreIndex: number,
  joint: GaussianJoint,
): number {
  const along = (modeMfdUm: number) =>
    lossDb(
      tipReturnOverlap({
        modeRadiusUm: modeMfdUm / 2,
        tipRadiusUm,
        fibreIndex,
        wavelengthUm: joint.wavelengthUm,
      }),
    ) / 2
  return along(tip.modeMfdXUm) + along(tip.modeMfdYUm)
}

/** Where the paraxial Gaussian model is stretched. */
export function gapNotes(state: GapState, elementId: string): readonly ValidityNote[] {
  const { joint } = state
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
        message: `The ${side} mode of ${mfdUm.toFixed(2)} µm is smaller than the wavelength in the gap, ${(joint.wavelengthUm / joint.index).toFixed(2)} µm; a Gaussian is a rough picture of it.`,
      })
    }
  }
  return notes
}
