// The closed form of joint.ts for many joints at once: a column for each number, one pass over them.

import type { GaussianJoint } from './gaussianJoint'
import { sinCosOf, sinSquareOf, turnedEfficiency } from './joint'

/** Entry i of every column belongs to joint i. */
export type JointColumns = { readonly [Field in keyof GaussianJoint]: Float64Array }

/**
 * Coupled power of the first `count` joints, written to `out`: what `jointEfficiency` gives, without its checks. The caller has
 * checked the ranges (requireJoint); outside them results may be NaN.
 */
export function fillEfficiencies(columns: JointColumns, count: number, out: Float64Array): void {
  const { wavelengthUm, index, emitterMfdXUm, emitterMfdYUm, receiverMfdXUm, receiverMfdYUm } = columns
  const { offsetXUm, offsetYUm, gapUm, tiltXRad, tiltYRad, rollRad, waistXUm, waistYUm } = columns
  for (let i = 0; i < count; i++) {
    const roll = rollRad[i] as number
    out[i] = turnedEfficiency(
      wavelengthUm[i] as number,
      index[i] as number,
      emitterMfdXUm[i] as number,
      emitterMfdYUm[i] as number,
      receiverMfdXUm[i] as number,
      receiverMfdYUm[i] as number,
      offsetXUm[i] as number,
      offsetYUm[i] as number,
      gapUm[i] as number,
      tiltXRad[i] as number,
      tiltYRad[i] as number,
      sinSquareOf(roll),
      sinCosOf(roll),
      waistXUm[i] as number,
      waistYUm[i] as number,
    )
  }
}
