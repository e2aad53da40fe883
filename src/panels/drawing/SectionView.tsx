// One to-scale section through the joint: the side view (y over z) or the top view (x over z).

import type { JointView } from '../../analysis/evaluation'
import { envelopeOutline, type OutlinePoint, receiverOutline } from './envelope'
import { guideOutline } from './guideOutline'
import { type Scale, transversePx, zPx } from './scale'
import { tipOutline } from './tipOutline'

export interface SectionParts {
  readonly claddingDiameterUm: number
  readonly guideWidthUm: number
  readonly guideHeightUm: number
  readonly depthUm: number
  /** Both positive when the faces are parallel; a positive face leans downstream on the positive side. */
  readonly nearFaceAngleRad: number
  readonly farFaceAngleRad: number
  /** An inverse taper widens the guide to its routing width over its length, along the chip; null without one. */
  readonly taper: {
    readonly lengthUm: number
    readonly tipWidthUm: number
    readonly routingWidthUm: number
  } | null
  /** The plane in which the faces lean. */
  readonly facePlane: 'x' | 'y'
}

export interface SectionViewProps {
  readonly axis: 'x' | 'y'
  readonly view: JointView
  readonly parts: SectionParts
  readonly scale: Scale
  readonly widthPx: number
}

/** The chip reaches this far below and beside its waveguide in the drawing. */
const CHIP_HALF_UM = 400
const GUIDE_LEAST_PX = 1.5
/** A tip known by its spot only is drawn with this radius. */
const DRAWN_TIP_RADIUS_UM = 10

export function SectionView({ axis, view, parts, scale, widthPx }: SectionViewProps) {
  const { joint } = view
  const inX = axis === 'x'
  const offsetUm = inX ? joint.offsetXUm : joint.offsetYUm
  const z = (um: number) => zPx(scale, um)
  const t = (um: number) => transversePx(scale, um)
  const corners = (points: readonly OutlinePoint[]) =>
    points.map((point) => `${z(point.zUm).toFixed(2)},${t(point.vUm).toFixed(2)}`).join(' ')
  const leans = parts.facePlane === axis
  const nearSlope = leans ? Math.tan(parts.nearFaceAngleRad) : 0
  const farSlope = leans ? Math.tan(parts.farFaceAngleRad) : 0
  const faces = { near: nearSlope, far: farSlope }
  // Bodies run out of the picture: to its edge, or a little further where their face has left it.
  const leftUm = Math.min(scale.centreZUm - widthPx / scale.pxPerUm, -joint.gapUm - parts.claddingDiameterUm)
  const rightUm = Math.max(scale.centreZUm + widthPx / scale.pxPerUm, CHIP_HALF_UM)
  const claddingHalfUm = parts.claddingDiameterUm / 2
  const { tip } = view.near
  const nearMode = tip === undefined ? view.near : { mfdXUm: tip.modeMfdXUm, mfdYUm: tip.modeMfdYUm }
  const nearHalfUm = (inX ? nearMode.mfdXUm : nearMode.mfdYUm) / 2
  const farHalfUm = (inX ? view.far.mfdXUm : view.far.mfdYUm) / 2
  const chipTopUm = inX ? CHIP_HALF_UM : parts.depthUm
  const fibre = [
    { zUm: leftUm, vUm: offsetUm + claddingHalfUm },
    ...(tip === undefined
      ? [
          { zUm: -joint.gapUm + claddingHalfUm * nearSlope, vUm: offsetUm + claddingHalfUm },
          { zUm: -joint.gapUm - claddingHalfUm * nearSlope, vUm: offsetUm - claddingHalfUm },
        ]
      : tipOutline(-joint.gapUm, offsetUm, tip.radiusUm ?? DRAWN_TIP_RADIUS_UM, claddingHalfUm)),
    { zUm: leftUm, vUm: offsetUm - claddingHalfUm },
  ]
  const chip = [
    { zUm: rightUm, vUm: chipTopUm },
    { zUm: chipTopUm * farSlope, vUm: chipTopUm },
    { zUm: -CHIP_HALF_UM * farSlope, vUm: -CHIP_HALF_UM },
    { zUm: rightUm, vUm: -CHIP_HALF_UM },
  ]
  return (
    <>
      <g className="drawn-fibre" data-drag="fibre">
        <polygon className="drawn-body" points={corners(fibre)} />
        {[-nearHalfUm, nearHalfUm].map((vUm) => (
          <line
            key={vUm}
            x1={z(leftUm)}
            x2={z(-joint.gapUm + vUm * nearSlope)}
            y1={t(offsetUm + vUm)}
            y2={t(offsetUm + vUm)}
          />
        ))}
        <line className="drawn-axis" x1={z(leftUm)} x2={z(-joint.gapUm)} y1={t(offsetUm)} y2={t(offsetUm)} />
      </g>
      <g className="drawn-chip">
        <polygon className="drawn-body" points={corners(chip)} />
        {[-farHalfUm, farHalfUm].map((vUm) => (
          <line key={vUm} x1={z(vUm * farSlope)} x2={z(rightUm)} y1={t(vUm)} y2={t(vUm)} />
        ))}
        <polygon
          className="drawn-guide"
          points={corners(guideOutline(parts, axis, rightUm, GUIDE_LEAST_PX / scale.pxPerUm))}
        />
      </g>
      <polygon className="drawn-beam" points={corners(envelopeOutline(joint, axis, faces))} />
      <polygon className="drawn-receiver" points={corners(receiverOutline(joint, axis, faces))} />
      <line className="drawn-axis" x1={0} x2={widthPx} y1={t(0)} y2={t(0)} />
      <text className="drawn-label" x={10} y={18}>
        {inX ? 'Top view, x over z' : 'Side view, y over z'}
      </text>
    </>
  )
}
