// The profile of a lensed fibre end: a cap of the tip's radius on a cone that widens to the cladding.

import type { OutlinePoint } from './envelope'

const CAP_HALF_ANGLE = (55 * Math.PI) / 180
const CONE_SLOPE = 1.4
const STEPS = 12

/**
 * Points of the end from the upper edge of the cladding over the tip to the lower edge; the tip stands at `tipZUm`.
 * A radius that reaches the cladding leaves no cone.
 */
export function tipOutline(
  tipZUm: number,
  centreVUm: number,
  radiusUm: number,
  claddingHalfUm: number,
): readonly OutlinePoint[] {
  const reach = Math.min(CAP_HALF_ANGLE, Math.asin(Math.min(1, claddingHalfUm / radiusUm)))
  const cap = Array.from({ length: STEPS + 1 }, (_, i) => {
    const angle = reach * (1 - (2 * i) / STEPS)
    return {
      zUm: tipZUm - radiusUm * (1 - Math.cos(angle)),
      vUm: centreVUm + radiusUm * Math.sin(angle),
    }
  })
  const shoulderUm = Math.max(0, claddingHalfUm - radiusUm * Math.sin(reach)) * CONE_SLOPE
  const backZUm = tipZUm - radiusUm * (1 - Math.cos(reach)) - shoulderUm
  return [
    { zUm: backZUm, vUm: centreVUm + claddingHalfUm },
    ...cap,
    { zUm: backZUm, vUm: centreVUm - claddingHalfUm },
  ]
}
