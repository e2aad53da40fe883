// Dimension lines of one view: the gap along z and the offset across it.

import type { JointPlane } from '../../figures/drawing/jointPlane'
import { type Scale, transversePx, zPx } from '../../figures/drawing/scale'

const TICK_PX = 5
const GAP_LINE_PX = 34
const OFFSET_LINE_PX = 34
const SHORTEST_OFFSET_PX = 2
const NUMBER_HALF_PX = 34
const NUMBER_ROOM_PX = 30

interface DimensionsProps {
  readonly gapUm: number
  readonly plane: JointPlane
  readonly scale: Scale
}

export function DimensionFields({ gapUm, plane, scale }: DimensionsProps) {
  const facePx = zPx(scale, -gapUm)
  const chipPx = zPx(scale, 0)
  const axisPx = transversePx(scale, plane.originVUm)
  const fibrePx = transversePx(scale, plane.centreVUm)
  const offsetLinePx = facePx - OFFSET_LINE_PX
  return (
    <g className="drawn-dimension">
      <path
        d={`M${facePx} ${GAP_LINE_PX}H${chipPx}M${facePx} ${GAP_LINE_PX - TICK_PX}v${2 * TICK_PX}M${chipPx} ${GAP_LINE_PX - TICK_PX}v${2 * TICK_PX}`}
      />
      {Math.abs(fibrePx - axisPx) > SHORTEST_OFFSET_PX && (
        <path
          d={`M${offsetLinePx} ${axisPx}V${fibrePx}M${offsetLinePx - TICK_PX} ${axisPx}h${2 * TICK_PX}M${offsetLinePx - TICK_PX} ${fibrePx}H${facePx}`}
        />
      )}
    </g>
  )
}

export interface PicturePoint {
  readonly xPx: number
  readonly yPx: number
}

/** The middle of each number; it stays in the picture when its line has left it. */
export function dimensionPositions(
  { gapUm, plane, scale }: DimensionsProps,
  widthPx: number,
  heightPx: number,
): { readonly gap: PicturePoint; readonly offset: PicturePoint } {
  const within = (px: number, roomPx: number, mostPx: number) =>
    Math.min(mostPx - roomPx, Math.max(roomPx, px))
  const middleVUm = (plane.originVUm + plane.centreVUm) / 2
  const middleZUm = -gapUm / 2
  return {
    gap: { xPx: within(zPx(scale, middleZUm), NUMBER_HALF_PX, widthPx), yPx: GAP_LINE_PX - 17 },
    offset: {
      xPx: within(zPx(scale, -gapUm) - OFFSET_LINE_PX - NUMBER_HALF_PX, 2 * NUMBER_HALF_PX, widthPx),
      yPx: within(transversePx(scale, middleVUm), NUMBER_ROOM_PX, heightPx),
    },
  }
}
