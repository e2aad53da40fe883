// The lenses of a relay with the light on them, at one state, as its pictures are made from them.

import type { LensShape } from '../../../optics/index'
import type { LensesInLight } from '../../results/lensPictures'
import { sidesOf } from './realRelay'
import type { RelayGeometry, RelayLens } from './relayGeometry'
import type { RelayState } from './relayOptics'
import { reversed } from './relayRays'

/** A lens as the guide on its side sees it; light from the far side runs against the axis, and slopes turn round. */
const lensPose = (lens: RelayLens, direction: 1 | -1) => ({
  offsetXUm: lens.offsetXUm,
  offsetYUm: lens.offsetYUm,
  tiltXRad: direction * lens.tiltXRad,
  tiltYRad: direction * lens.tiltYRad,
})

export function lensesInLight(
  elementId: string,
  g: RelayGeometry,
  { frontGapUm, stretchUm, backGapUm }: RelayState,
  shapes: readonly [LensShape | null, LensShape | null],
  names: readonly [string, string],
): LensesInLight {
  const [near, far] = sidesOf({ ...g, stretchUm }, shapes, frontGapUm, backGapUm)
  const second = { ...far, shape: far.lens, ...lensPose(g.lens2, -1) }
  return {
    elementId,
    names,
    near,
    far,
    chief: {
      x: { heightUm: g.offsetXUm + frontGapUm * g.tiltXRad, slopeRad: g.tiltXRad },
      y: { heightUm: g.offsetYUm + frontGapUm * g.tiltYRad, slopeRad: g.tiltYRad },
    },
    first: { ...near, shape: near.lens, ...lensPose(g.lens1, 1) },
    second,
    onward: {
      ...second,
      ...lensPose(g.lens2, 1),
      shape: far.lens === null ? null : reversed(far.lens),
      matrix: g.lens2.matrix,
    },
    stretchUm,
    backGapUm,
    receiverRadiusXUm: g.receiverMfdXUm / 2,
    receiverRadiusYUm: g.receiverMfdYUm / 2,
  }
}
