// The whole joint in little, with the part that the view shows framed.

import { fittedPxPerUm, type Scale, transversePx, zPx } from '../../figures/drawing/scale'

const WIDTH_PX = 132
const HEIGHT_PX = 62
const FRAME_LEAST_PX = 3

interface LocatorProps {
  readonly gapUm: number
  readonly centreVUm: number
  readonly claddingDiameterUm: number
  readonly chipTopUm: number
  readonly shown: Scale
  readonly viewWidthPx: number
  readonly viewHeightPx: number
  readonly leftPx: number
  readonly topPx: number
}

export function Locator(props: LocatorProps) {
  const { gapUm, centreVUm, claddingDiameterUm, shown } = props
  const sceneHeightUm = 1.2 * (claddingDiameterUm + 2 * Math.abs(centreVUm))
  const scale: Scale = {
    pxPerUm: fittedPxPerUm(gapUm + claddingDiameterUm, sceneHeightUm, WIDTH_PX, HEIGHT_PX),
    middleXPx: WIDTH_PX / 2,
    middleYPx: HEIGHT_PX / 2,
    centreZUm: -gapUm / 2,
  }
  const within = (px: number, mostPx: number) => Math.min(mostPx, Math.max(0, px))
  const halfZUm = props.viewWidthPx / shown.pxPerUm / 2
  const halfVUm = props.viewHeightPx / shown.pxPerUm / 2
  const left = within(zPx(scale, shown.centreZUm - halfZUm), WIDTH_PX - FRAME_LEAST_PX)
  const right = within(zPx(scale, shown.centreZUm + halfZUm), WIDTH_PX)
  const top = within(transversePx(scale, halfVUm), HEIGHT_PX)
  const bottom = within(transversePx(scale, -halfVUm), HEIGHT_PX)
  const facePx = within(zPx(scale, -gapUm), WIDTH_PX)
  const chipPx = within(zPx(scale, 0), WIDTH_PX)
  const chipTopPx = within(transversePx(scale, props.chipTopUm), HEIGHT_PX)
  const fibreTopPx = transversePx(scale, centreVUm + claddingDiameterUm / 2)
  return (
    <g className="drawn-locator" transform={`translate(${props.leftPx} ${props.topPx})`}>
      <rect className="drawn-locator-sheet" width={WIDTH_PX} height={HEIGHT_PX} />
      <rect y={fibreTopPx} width={facePx} height={claddingDiameterUm * scale.pxPerUm} />
      <rect x={chipPx} y={chipTopPx} width={WIDTH_PX - chipPx} height={HEIGHT_PX - chipTopPx} />
      <rect
        className="drawn-locator-frame"
        x={left}
        y={top}
        width={Math.max(FRAME_LEAST_PX, right - left)}
        height={Math.max(FRAME_LEAST_PX, bottom - top)}
      />
    </g>
  )
}
