// One to-scale view of a joint: the side view (y over z) or the top view (x over z). The page of a candidate and the
// sheet draw the same shapes.

import { plainText, roundedTo } from '../../numerics/numberText'
import { element, type Markup } from '../render/markup'
import { px } from '../render/svgShapes'
import { textWidthPx } from '../render/textWidth'
import { CHIP_HALF_UM, chipShapes, keepOut } from './chipOutline'
import { envelopeOutline, type OutlinePoint, receiverOutline } from './envelope'
import { guideOutline } from './guideOutline'
import type { JointShapeOptions } from './jointShapeOptions'
import { nearFaceSlopeOf, nearSide } from './nearSide'
import { type Scale, transversePx, zPx } from './scale'

const GUIDE_LEAST_PX = 1.5
const NAME_GAP_PX = 8
const ABOVE_BAR_PX = 50
const LINE_PX = 15
const TITLE_X_PX = 10
/** Base line of its first line: the name is whole below the upper edge, in files too. */
const TITLE_Y_PX = 17

export function jointShapes(options: JointShapeOptions): readonly Markup[] {
  const { axis, view, plane, parts, scale, widthPx } = options
  const { joint } = view
  const inX = axis === 'x'
  const { farFaceSlope: farSlope } = plane
  const z = (um: number) => zPx(scale, um)
  const t = (um: number) => transversePx(scale, um)
  const outline = (tag: 'polygon' | 'polyline', className: string, points: readonly OutlinePoint[]) =>
    element(tag, {
      class: className,
      points: points.map((point) => `${px(z(point.zUm))},${px(t(point.vUm))}`).join(' '),
    })
  const nearSlope = nearFaceSlopeOf(parts, axis)
  const { leftUm, turned, bodies } = nearSide(options)
  const rightUm = Math.max(scale.centreZUm + widthPx / scale.pxPerUm, CHIP_HALF_UM)
  const { tip } = view.near
  const nearMode = tip === undefined ? view.near : { mfdXUm: tip.modeMfdXUm, mfdYUm: tip.modeMfdYUm }
  const nearHalfUm = (inX ? nearMode.mfdXUm : nearMode.mfdYUm) / 2
  const farHalfUm = (inX ? view.far.mfdXUm : view.far.mfdYUm) / 2
  const contactUm = view.contact?.gapUm ?? 0
  const heights = bodies.flatMap((each) => each.map(({ vUm }) => vUm))
  return [
    element(
      'g',
      { class: 'drawn-fibre', 'data-drag': 'fibre' },
      bodies.map((each) => outline('polygon', 'drawn-body', each)),
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
      chipShapes(axis, parts.edge, parts.depthUm, farSlope, rightUm).map(({ className, points }) =>
        outline('polygon', className, points),
      ),
      [-farHalfUm, farHalfUm].map((vUm) =>
        outline('polyline', 'drawn-mode', [
          { zUm: vUm * farSlope, vUm },
          { zUm: rightUm, vUm },
        ]),
      ),
      outline('polygon', 'drawn-guide', guideOutline(parts, axis, rightUm, GUIDE_LEAST_PX / scale.pxPerUm)),
    ),
    ...(contactUm > 0
      ? [
          outline(
            'polygon',
            'drawn-keep-out',
            keepOut(contactUm, Math.min(...heights), Math.max(...heights)),
          ),
          keepOutName(
            [
              `keep-out to ${plainText(roundedTo(contactUm, 1))} µm`,
              ...(joint.gapUm > contactUm ? [] : ['drawn at contact']),
            ],
            z(0),
            scale,
            widthPx,
          ),
        ]
      : []),
    outline('polygon', 'drawn-beam', envelopeOutline(joint, axis, plane)),
    outline('polygon', 'drawn-receiver', receiverOutline(joint, axis, plane)),
    element('line', { class: 'drawn-axis', x1: 0, x2: widthPx, y1: t(0), y2: t(0) }),
    titleLines(axis),
  ]
}

/** Right of the facet and above the scale bar, where no edge of a body runs through it: one line where that has space, else two. */
function keepOutName(words: readonly string[], facetPx: number, scale: Scale, widthPx: number): Markup {
  const oneLine = words.join(', ')
  const fits = facetPx + 2 * NAME_GAP_PX + textWidthPx(oneLine) <= widthPx
  const lines = fits ? [oneLine] : words.map((each, i) => (i + 1 < words.length ? `${each},` : each))
  const rightmostPx = widthPx - NAME_GAP_PX - Math.max(...lines.map((line) => textWidthPx(line)))
  const x = px(Math.max(NAME_GAP_PX, Math.min(facetPx + NAME_GAP_PX, rightmostPx)))
  const y = scale.middleYPx * 2 - ABOVE_BAR_PX - (lines.length - 1) * LINE_PX
  return element(
    'text',
    { class: 'drawn-label drawn-low', x, y },
    lines.map((line, i) => element('tspan', { x, ...(i > 0 && { dy: LINE_PX }) }, line)),
  )
}

/** What a view shows, in two short lines, which the end of a fibre rarely reaches. */
function titleLines(axis: 'x' | 'y'): Markup {
  const [name = '', axes = ''] = viewTitle(axis).split(', ')
  return element('text', { class: 'drawn-label drawn-title drawn-based', x: TITLE_X_PX, y: TITLE_Y_PX }, [
    element('tspan', {}, `${name}, `),
    element('tspan', { x: TITLE_X_PX, dy: '1.2em' }, axes),
  ])
}

/** What a view shows. */
export function viewTitle(axis: 'x' | 'y'): string {
  return axis === 'x' ? 'Top view, x–z plane' : 'Side view, y–z plane'
}
