// One to-scale section through the joint: the side view (y over z) or the top view (x over z).

import type { JointView } from '../../analysis/evaluation'
import { envelopeOutline, type OutlinePoint, receiverOutline } from './envelope'
import { guideOutline } from './guideOutline'
import { type Scale, transversePx, zPx } from './scale'
import type { LeaningFaces, SectionPlane } from './sectionPlane'
import { tipOutline } from './tipOutline'

export interface SectionParts extends LeaningFaces {
  readonly claddingDiameterUm: number
  readonly guideWidthUm: number
  readonly guideHeightUm: number
  readonly depthUm: number
  /** An inverse taper widens the guide to its routing width over its length, along the chip; null without one. */
  readonly taper: {
    readonly lengthUm: number
    readonly tipWidthUm: number
    readonly routingWidthUm: number
  } | null
}

export interface SectionViewProps {
  readonly axis: 'x' | 'y'
  readonly view: JointView
  readonly plane: SectionPlane
  readonly parts: SectionParts
  readonly scale: Scale
  readonly widthPx: number
}

/** The chip reaches this far below and beside its waveguide in the drawing. */
const CHIP_HALF_UM = 400
const GUIDE_LEAST_PX = 1.5
/** A tip known by its spot only is drawn with this radius. */
const DRAWN_TIP_RADIUS_UM = 10

export function SectionView({ axis, view, plane, parts, scale, widthPx }: SectionViewProps) {
  const { joint } = view
  const inX = axis === 'x'
  const { farFaceSlope: farSlope, nearAxisRad } = plane
  const z = (um: number) => zPx(scale, um)
  const t = (um: number) => transversePx(scale, um)
  const corners = (points: readonly OutlinePoint[]) =>
    points.map((point) => `${z(point.zUm).toFixed(2)},${t(point.vUm).toFixed(2)}`).join(' ')
  const nearSlope = parts.facePlane === axis ? Math.tan(parts.nearFaceAngleRad) : 0
  // The fibre is described along its own axis, with the middle of its face at the origin, and then turned.
  const turned = ({ zUm, vUm }: OutlinePoint): OutlinePoint => ({
    zUm: -joint.gapUm + zUm * Math.cos(nearAxisRad) - vUm * Math.sin(nearAxisRad),
    vUm: plane.centreVUm + zUm * Math.sin(nearAxisRad) + vUm * Math.cos(nearAxisRad),
  })
  // Bodies run out of the picture: to its edge, or a little further where their face has left it.
  const leftUm = Math.min(
    scale.centreZUm - widthPx / scale.pxPerUm + joint.gapUm,
    -2 * parts.claddingDiameterUm,
  )
  const rightUm = Math.max(scale.centreZUm + widthPx / scale.pxPerUm, CHIP_HALF_UM)
  const claddingHalfUm = parts.claddingDiameterUm / 2
  const { tip } = view.near
  const nearMode = tip === undefined ? view.near : { mfdXUm: tip.modeMfdXUm, mfdYUm: tip.modeMfdYUm }
  const nearHalfUm = (inX ? nearMode.mfdXUm : nearMode.mfdYUm) / 2
  const farHalfUm = (inX ? view.far.mfdXUm : view.far.mfdYUm) / 2
  const chipTopUm = inX ? CHIP_HALF_UM : parts.depthUm
  const fibre = [
    { zUm: leftUm, vUm: claddingHalfUm },
    ...(tip === undefined
      ? [
          { zUm: claddingHalfUm * nearSlope, vUm: claddingHalfUm },
          { zUm: -claddingHalfUm * nearSlope, vUm: -claddingHalfUm },
        ]
      : tipOutline(0, 0, tip.radiusUm ?? DRAWN_TIP_RADIUS_UM, claddingHalfUm)),
    { zUm: leftUm, vUm: -claddingHalfUm },
  ].map(turned)
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
        {[-nearHalfUm, nearHalfUm, 0].map((vUm) => (
          <polyline
            key={vUm}
            className={vUm === 0 ? 'drawn-axis' : 'drawn-mode'}
            points={corners(
              [
                { zUm: leftUm, vUm },
                { zUm: vUm * nearSlope, vUm },
              ].map(turned),
            )}
          />
        ))}
      </g>
      <g className="drawn-chip">
        <polygon className="drawn-body" points={corners(chip)} />
        {[-farHalfUm, farHalfUm].map((vUm) => (
          <polyline
            key={vUm}
            className="drawn-mode"
            points={corners([
              { zUm: vUm * farSlope, vUm },
              { zUm: rightUm, vUm },
            ])}
          />
        ))}
        <polygon
          className="drawn-guide"
          points={corners(guideOutline(parts, axis, rightUm, GUIDE_LEAST_PX / scale.pxPerUm))}
        />
      </g>
      <polygon className="drawn-beam" points={corners(envelopeOutline(joint, axis, plane))} />
      <polygon className="drawn-receiver" points={corners(receiverOutline(joint, axis, plane))} />
      <line className="drawn-axis" x1={0} x2={widthPx} y1={t(0)} y2={t(0)} />
      <text className="drawn-label" x={10} y={5}>
        {inX ? 'Top view, x over z' : 'Side view, y over z'}
      </text>
    </>
  )
}
