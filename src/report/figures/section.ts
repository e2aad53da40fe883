// One to-scale section through a joint: the side view (y over z) or the top view (x over z). The page of a candidate and the
// sheet draw the same shapes.

import type { JointView } from '../../analysis/evaluation'
import { element, type Markup } from '../document/markup'
import { envelopeOutline, type OutlinePoint, receiverOutline } from './envelope'
import { type Scale, transversePx, zPx } from './scale'
import type { SectionParts } from './sectionParts'
import { tipOutline } from './tipOutline'

export interface SectionOptions {
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

export function sectionShapes({ axis, view, parts, scale, widthPx }: SectionOptions): readonly Markup[] {
  const { joint } = view
  const inX = axis === 'x'
  const offsetUm = inX ? joint.offsetXUm : joint.offsetYUm
  const z = (um: number) => zPx(scale, um)
  const t = (um: number) => transversePx(scale, um)
  const polygon = (className: string, points: readonly OutlinePoint[]) =>
    element('polygon', {
      class: className,
      points: points.map((point) => `${z(point.zUm).toFixed(2)},${t(point.vUm).toFixed(2)}`).join(' '),
    })
  const line = (x1: number, x2: number, y: number, className?: string) =>
    element('line', { class: className, x1, x2, y1: y, y2: y })
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
  const guidePx = Math.max(GUIDE_LEAST_PX, (inX ? parts.guideWidthUm : parts.guideHeightUm) * scale.pxPerUm)
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
  return [
    element(
      'g',
      { class: 'drawn-fibre', 'data-drag': 'fibre' },
      polygon('drawn-body', fibre),
      [-nearHalfUm, nearHalfUm].map((vUm) =>
        line(z(leftUm), z(-joint.gapUm + vUm * nearSlope), t(offsetUm + vUm)),
      ),
      line(z(leftUm), z(-joint.gapUm), t(offsetUm), 'drawn-axis'),
    ),
    element(
      'g',
      { class: 'drawn-chip' },
      polygon('drawn-body', chip),
      [-farHalfUm, farHalfUm].map((vUm) => line(z(vUm * farSlope), z(rightUm), t(vUm))),
      element('rect', {
        class: 'drawn-guide',
        x: z(0),
        y: t(0) - guidePx / 2,
        width: z(rightUm) - z(0),
        height: guidePx,
      }),
    ),
    polygon('drawn-beam', envelopeOutline(joint, axis, faces)),
    polygon('drawn-receiver', receiverOutline(joint, axis, faces)),
    line(0, widthPx, t(0), 'drawn-axis'),
    element(
      'text',
      { class: 'drawn-label', x: 10, y: 18 },
      inX ? 'Top view, x over z' : 'Side view, y over z',
    ),
  ]
}
