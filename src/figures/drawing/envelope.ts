// The 1/e² envelopes of the two modes across the gap, as closed outlines in micrometres.

import type { GaussianJoint } from '../../optics/index'
import { beamRadiusUm } from '../../optics/index'
import type { JointPlane } from './jointPlane'

export interface OutlinePoint {
  readonly zUm: number
  readonly vUm: number
}

const STEPS = 24

/** z is 0 where the axis meets the receiving face; the emitting face is at -gap about its middle. */
function outline(
  gapUm: number,
  plane: JointPlane,
  edgeUm: (zUm: number, side: 1 | -1) => number,
): readonly OutlinePoint[] {
  const point = (i: number, side: 1 | -1): OutlinePoint => {
    // The edges bend little over the depth of an angled face, so each is cut where it would meet an upright one.
    const fromUm = -gapUm + (edgeUm(-gapUm, side) - plane.centreVUm) * plane.nearFaceSlope
    const toUm = edgeUm(0, side) * plane.farFaceSlope
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
  plane: JointPlane,
): readonly OutlinePoint[] {
  const inX = axis === 'x'
  const { wavelengthUm, index, gapUm } = joint
  const waistRadiusUm = (inX ? joint.emitterMfdXUm : joint.emitterMfdYUm) / 2
  const waistUm = inX ? joint.waistXUm : joint.waistYUm
  const slope = Math.tan(plane.beamRad)
  return outline(gapUm, plane, (zUm, side) => {
    const travelledUm = zUm + gapUm
    const radiusUm = beamRadiusUm({ waistRadiusUm, wavelengthUm, index }, travelledUm - waistUm)
    return plane.centreVUm + slope * travelledUm + side * radiusUm
  })
}

/** What the receiver would send back, in the plane of `axis`: the mode that the beam should match. */
export function receiverOutline(
  joint: GaussianJoint,
  axis: 'x' | 'y',
  plane: JointPlane,
): readonly OutlinePoint[] {
  const { wavelengthUm, index, gapUm } = joint
  const waistRadiusUm = (axis === 'x' ? joint.receiverMfdXUm : joint.receiverMfdYUm) / 2
  const slope = Math.tan(plane.farBeamRad)
  return outline(
    gapUm,
    plane,
    (zUm, side) => slope * zUm + side * beamRadiusUm({ waistRadiusUm, wavelengthUm, index }, zUm),
  )
}
