// The 1/e² envelope of the emitted beam across the gap, as a closed outline in micrometres.

import type { GaussianJoint } from '../../optics/index'
import { beamRadiusUm } from '../../optics/index'

export interface OutlinePoint {
  readonly zUm: number
  readonly vUm: number
}

const STEPS = 24

/** Outline in the plane of `axis`; z is 0 at the receiving face and the emitting face stands at -gap. */
export function envelopeOutline(joint: GaussianJoint, axis: 'x' | 'y'): readonly OutlinePoint[] {
  const inX = axis === 'x'
  const beam = {
    waistRadiusUm: (inX ? joint.emitterMfdXUm : joint.emitterMfdYUm) / 2,
    wavelengthUm: joint.wavelengthUm,
    index: joint.index,
  }
  const offsetUm = inX ? joint.offsetXUm : joint.offsetYUm
  const tiltRad = inX ? joint.tiltXRad : joint.tiltYRad
  const waistUm = inX ? joint.waistXUm : joint.waistYUm
  const edge = (i: number, side: 1 | -1): OutlinePoint => {
    const travelledUm = (joint.gapUm * i) / STEPS
    const radiusUm = beamRadiusUm(beam, travelledUm - waistUm)
    return { zUm: travelledUm - joint.gapUm, vUm: offsetUm + tiltRad * travelledUm + side * radiusUm }
  }
  const steps = Array.from({ length: STEPS + 1 }, (_, i) => i)
  return [...steps.map((i) => edge(i, 1)), ...steps.toReversed().map((i) => edge(i, -1))]
}
