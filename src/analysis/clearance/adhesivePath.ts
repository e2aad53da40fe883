// Where adhesive fits between an end and the chip: the layer between the faces, and the fillet above the chip's surface.

import { coreValue } from '../../model/quantity/quantity'
import type { ClearanceSetup } from './jointClearance'
import { ledgeTopUm } from './obstacles'

interface AdhesivePath {
  /** Chip face that the end covers, um^2. */
  readonly bondAreaUm2: number
  /** Of the layer between both faces at the gap, um^3; 1000 um^3 are 1 pL. */
  readonly layerUm3: number
  /** How far the end rises above the chip's surface, um: the way in from above, and the longest leg of a fillet. */
  readonly aboveSurfaceUm: number
  /** Leg of the fillet that fits between the end and a lid, um; 0 where there is none. */
  readonly filletLegUm: number
  /** Of a fillet of 45 degrees with that leg along the width of the end at the surface, um^3. Common practice, no source. */
  readonly filletUm3: number
}

/** Area of a circle between two heights about its middle. */
function circleBandArea(radiusUm: number, fromUm: number, toUm: number): number {
  const below = (h: number) => {
    const at = Math.min(radiusUm, Math.max(-radiusUm, h))
    return radiusUm ** 2 * (Math.PI / 2 + Math.asin(at / radiusUm)) + at * Math.sqrt(radiusUm ** 2 - at ** 2)
  }
  return Math.max(0, below(toUm) - below(fromUm))
}

/** Null where the chip's edge is not stated or the end is a lens. Offsets and tilts are omitted. */
export function adhesivePath({ edge, end }: ClearanceSetup, gapUm: number): AdhesivePath | null {
  if (edge === null || end === null || end.tipRadiusUm !== undefined) return null
  const { outline } = end
  const { topUm, bottomUm, recessUm, lid } = edge
  // A ledge that extends beyond the end face covers the chip face below it.
  const fromUm = recessUm > gapUm ? Math.max(bottomUm, ledgeTopUm(edge)) : bottomUm
  const block = outline?.kind === 'block' ? outline : null
  const radiusUm =
    (outline?.kind === 'tapered' ? coreValue(outline.endDiameter, 'bodySize') : end.acrossUm) / 2
  // A bare chip is a square block, as in `endSolids`.
  const isRound = block === null && end.isFibre
  const size = (which: 'above' | 'below' | 'width') => {
    if (block !== null) return coreValue(block[which], 'bodySize')
    return which === 'width' ? 2 * radiusUm : radiusUm
  }
  const aboveUm = size('above')
  const bondAreaUm2 = isRound
    ? circleBandArea(radiusUm, fromUm, topUm)
    : size('width') * Math.max(0, Math.min(topUm, aboveUm) - Math.max(fromUm, -size('below')))
  const widthUm = isRound ? 2 * Math.sqrt(Math.max(0, radiusUm ** 2 - topUm ** 2)) : size('width')
  const aboveSurfaceUm = Math.max(0, aboveUm - topUm)
  const roomUm = lid === null ? aboveSurfaceUm : Math.max(0, lid.distanceUm)
  const filletLegUm = Math.min(aboveSurfaceUm, roomUm)
  return {
    bondAreaUm2,
    layerUm3: bondAreaUm2 * gapUm,
    aboveSurfaceUm,
    filletLegUm,
    filletUm3: (filletLegUm ** 2 / 2) * widthUm,
  }
}
