// The 1/e² envelopes of the two modes across the gap, as closed outlines in micrometres.

import type { GaussianJoint } from '../../optics/index'
import { beamRadiusUm } from '../../optics/index'

export interface OutlinePoint {
  readonly zUm: number
  readonly vUm: number
}

const STEPS = 24

/** dz/dv of the two end faces in the plane of the view; 0 for an upright face. */
export interface FaceSlopes {
  readonly near: number
  readonly far: number
}

/** z is 0 where the axis meets the receiving face; the emitting face stands at -gap about the offset. */
function outline(
  gapUm: number,
  offsetUm: number,
  faces: FaceSlopes,
  edgeUm: (zUm: number, side: 1 | -1) => number,
) {
  const point = (i: number, side: 1 | -1): OutlinePoint => {
    // The edges bend little within the lean of a face, so each is cut where it would meet an upright one.
    const fromUm = -gapUm + (edgeUm(-gapUm, side) - offsetUm) * faces.near
    const toUm = edgeUm(0, side) * faces.far
    const zUm = fromUm + ((toUm - fromUm) * i) / STEPS
    return { zUm, vUm: edgeUm(zUm, side) }
  }
  const steps = Array.from({ length: STEPS + 1 }, (_, i) => i)
  return [...steps.map((i) => point(i, 1)), ...steps.toReversed().map((i) => point(i, -1))]
}

/** The emitted beam in the plane of `axis`, from face to face. */
export function envelopeOutline(
  joint: GaussianJoint,
  axis: 'x' | 'y',
  faces: FaceSlopes,
): readonly OutlinePoint[] {
  const inX = axis === 'x'
  const { wavelengthUm, index, gapUm } = joint
  const waistRadiusUm = (inX ? joint.emitterMfdXUm : joint.emitterMfdYUm) / 2
  const offsetUm = inX ? joint.offsetXUm : joint.offsetYUm
  const tiltRad = inX ? joint.tiltXRad : joint.tiltYRad
  const waistUm = inX ? joint.waistXUm : joint.waistYUm
  return outline(gapUm, offsetUm, faces, (zUm, side) => {
    const travelledUm = zUm + gapUm
    const radiusUm = beamRadiusUm({ waistRadiusUm, wavelengthUm, index }, travelledUm - waistUm)
    return offsetUm + Math.tan(tiltRad) * travelledUm + side * radiusUm
  })
}

/** What the receiver would send back, in the plane of `axis`: the mode that the beam should match. */
export function receiverOutline(
  joint: GaussianJoint,
  axis: 'x' | 'y',
  faces: FaceSlopes,
): readonly OutlinePoint[] {
  const { wavelengthUm, index, gapUm } = joint
  const waistRadiusUm = (axis === 'x' ? joint.receiverMfdXUm : joint.receiverMfdYUm) / 2
  const offsetUm = axis === 'x' ? joint.offsetXUm : joint.offsetYUm
  return outline(
    gapUm,
    offsetUm,
    faces,
    (zUm, side) => side * beamRadiusUm({ waistRadiusUm, wavelengthUm, index }, zUm),
  )
}
