// The 1/e² envelopes of the two modes across the gap, as closed outlines in micrometres.

import type { GaussianJoint } from '../../optics/index'
import { beamRadiusUm } from '../../optics/index'

export interface OutlinePoint {
  readonly zUm: number
  readonly vUm: number
}

const STEPS = 24

/** z is 0 at the receiving face and the emitting face stands at -gap. */
function outline(joint: GaussianJoint, centreUm: (zUm: number) => number, radiusUm: (zUm: number) => number) {
  const edge = (i: number, side: 1 | -1): OutlinePoint => {
    const zUm = joint.gapUm * (i / STEPS - 1)
    return { zUm, vUm: centreUm(zUm) + side * radiusUm(zUm) }
  }
  const steps = Array.from({ length: STEPS + 1 }, (_, i) => i)
  return [...steps.map((i) => edge(i, 1)), ...steps.toReversed().map((i) => edge(i, -1))]
}

/** The emitted beam in the plane of `axis`. */
export function envelopeOutline(joint: GaussianJoint, axis: 'x' | 'y'): readonly OutlinePoint[] {
  const inX = axis === 'x'
  const { wavelengthUm, index } = joint
  const waistRadiusUm = (inX ? joint.emitterMfdXUm : joint.emitterMfdYUm) / 2
  const offsetUm = inX ? joint.offsetXUm : joint.offsetYUm
  const tiltRad = inX ? joint.tiltXRad : joint.tiltYRad
  const waistUm = inX ? joint.waistXUm : joint.waistYUm
  return outline(
    joint,
    (zUm) => offsetUm + tiltRad * (zUm + joint.gapUm),
    (zUm) => beamRadiusUm({ waistRadiusUm, wavelengthUm, index }, zUm + joint.gapUm - waistUm),
  )
}

/** What the receiver would send back, in the plane of `axis`: the mode that the beam should match. */
export function receiverOutline(joint: GaussianJoint, axis: 'x' | 'y'): readonly OutlinePoint[] {
  const { wavelengthUm, index } = joint
  const waistRadiusUm = (axis === 'x' ? joint.receiverMfdXUm : joint.receiverMfdYUm) / 2
  return outline(
    joint,
    () => 0,
    (zUm) => beamRadiusUm({ waistRadiusUm, wavelengthUm, index }, zUm),
  )
}
