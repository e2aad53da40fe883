// The profile of a lensed fibre end: a cap of the tip's radius on a cone that widens to the cladding.

import { tipRings } from '../../analysis/clearance/outlines'
import type { OutlinePoint } from './envelope'

/**
 * Points of the end from the upper edge of the cladding over the tip to the lower edge; the tip is at `tipZUm`.
 * A radius that reaches the cladding leaves no cone.
 */
export function tipOutline(
  tipZUm: number,
  centreVUm: number,
  radiusUm: number,
  claddingHalfUm: number,
): readonly OutlinePoint[] {
  const rings = tipRings(radiusUm, claddingHalfUm)
  const edge = (side: 1 | -1) =>
    rings.map((ring) => ({ zUm: tipZUm + ring.zUm, vUm: centreVUm + side * ring.radiusUm }))
  return [...edge(1).toReversed(), ...edge(-1).slice(1)]
}
