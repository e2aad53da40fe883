// One to-scale section through a joint: the side view (y over z) or the top view (x over z). The page of a candidate and the
// sheet draw the same shapes.

import type { JointView } from '../../analysis/results/evaluation'
import { element, type Markup } from '../render/markup'
import { px } from '../render/svgShapes'
import { envelopeOutline, type OutlinePoint, receiverOutline } from './envelope'
import { guideOutline } from './guideOutline'
import { type Scale, transversePx, zPx } from './scale'
import type { SectionParts } from './sectionParts'
import type { SectionPlane } from './sectionPlane'
import { tipOutline } from './tipOutline'

export interface SectionOptions {
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

export function sectionShapes(options: SectionOptions): readonly Markup[] {
  const { axis, view, plane, parts, scale, widthPx } = options
  const { joint } = view
  const inX = axis === 'x'
  const { farFaceSlope: farSlope, nearAxisRad } = plane
  const z = (um: number) => zPx(scale, um)
  const t = (um: number) => transversePx(scale, um)
  const outline = (tag: 'polygon' | 'polyline', className: string, points: readonly OutlinePoint[]) =>
    element(tag, {
      class: className,
      points: points.map((point) => `${px(z(point.zUm))},${px(t(point.vUm))}`).join(' '),
    })
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
  return [
    element(
      'g',
      { class: 'drawn-fibre', 'data-drag': 'fibre' },
      outline('polygon', 'drawn-body', fibre),
      [-nearHalfUm, nearHalfUm, 0].map((vUm) =>
        outline(
          'polyline',
          vUm === 0 ? 'drawn-axis' : 'drawn-mode',
          [
            { zUm: leftUm, vUm },
            { zUm: vUm * nearSlope, vUm },
          ].map(turned),
        ),
      ),
    ),
    element(
      'g',
      { class: 'drawn-chip' },
      outline('polygon', 'drawn-body', chip),
      [-farHalfUm, farHalfUm].map((vUm) =>
        outline('polyline', 'drawn-mode', [
          { zUm: vUm * farSlope, vUm },
          { zUm: rightUm, vUm },
        ]),
      ),
      outline('polygon', 'drawn-guide', guideOutline(parts, axis, rightUm, GUIDE_LEAST_PX / scale.pxPerUm)),
    ),
    outline('polygon', 'drawn-beam', envelopeOutline(joint, axis, plane)),
    outline('polygon', 'drawn-receiver', receiverOutline(joint, axis, plane)),
    element('line', { class: 'drawn-axis', x1: 0, x2: widthPx, y1: t(0), y2: t(0) }),
    element('text', { class: 'drawn-label drawn-title', x: 10, y: 17 }, viewTitle(axis)),
  ]
}

/** What a view shows. */
export function viewTitle(axis: 'x' | 'y'): string {
  return axis === 'x' ? 'Top view, x over z' : 'Side view, y over z'
}
