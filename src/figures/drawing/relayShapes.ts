// One to-scale view of a relay: lenses, device, the beam's 1/e² edges, rays through the real lenses and the chief ray.

import type { LensView, RelayView } from '../../analysis/results/evaluation'
import { element, type Markup } from '../render/markup'
import { px } from '../render/svgShapes'
import { viewTitle } from './jointShapes'

const BODY_LEAST_PX = 6
const ARC_STEPS = 16
const DRAWN_FIBRE_UM = 125

/** One view: places along z and across, in pixels. */
export interface RelayPlane {
  readonly axis: 'x' | 'y'
  readonly z: (um: number) => number
  readonly v: (um: number) => number
  readonly pxPerUm: number
  readonly widthPx: number
  readonly heightPx: number
  /** Numbers over the view end here, px: what runs out of the picture upwards is not drawn through them. */
  readonly numbersPx?: number
}

/** Depth of a face below its pole at half the aperture, um; 0 for a flat face. */
function sag(radiusUm: number, halfUm: number): number {
  if (!Number.isFinite(radiusUm)) return 0
  const reach = Math.min(halfUm, radiusUm)
  return radiusUm - Math.sqrt(radiusUm * radiusUm - reach * reach)
}

function lensPoints(lens: LensView, { axis, z, v }: RelayPlane): string {
  const half = lens.apertureDiameterUm / 2
  const middle = axis === 'x' ? lens.offsetXUm : lens.offsetYUm
  const face = (radiusUm: number, poleUm: number, bulge: 1 | -1) =>
    Array.from({ length: ARC_STEPS + 1 }, (_, i) => {
      const height = half * ((2 * i) / ARC_STEPS - 1)
      const at = poleUm + bulge * sag(radiusUm, Math.abs(height))
      return `${px(z(at))},${px(v(middle + height))}`
    })
  const front = face(lens.frontRadiusUm, lens.frontZUm, 1)
  const back = face(lens.backRadiusUm, lens.frontZUm + lens.thicknessUm, -1)
  return [...front, ...back.toReversed()].join(' ')
}

const NAME_PX = 13
const DESCENT_PX = 4
/** Baseline of a name whose middle is on an edge. */
const ON_EDGE_PX = 4
const NAME_INSET_PX = 10

/** Baseline of a name below an edge where it is whole there; else on the edge, as a word in a frame; low in the picture where the edge is out of it. */
function nameAtPx(edgePx: number, heightPx: number): number {
  if (edgePx + NAME_PX + DESCENT_PX <= heightPx) return edgePx + NAME_PX
  if (edgePx + ON_EDGE_PX + DESCENT_PX <= heightPx) return edgePx + ON_EDGE_PX
  return heightPx - NAME_INSET_PX
}

function deviceShapes({ device }: RelayView, plane: RelayPlane): readonly Markup[] {
  if (device === null) return []
  const { z, v, numbersPx = 0 } = plane
  const [left, right] = [px(z(device.startZUm)), px(z(device.startZUm + device.lengthUm))]
  const topPx = v(device.apertureDiameterUm / 2)
  const shownPx = px(Math.max(topPx, numbersPx))
  const lowest = px(v(-device.apertureDiameterUm / 2))
  return [
    element('path', {
      class: 'drawn-device',
      d: `M${left} ${shownPx}V${lowest}H${right}V${shownPx}${topPx < numbersPx ? '' : 'Z'}`,
    }),
  ]
}

/** Above everything else, so that the beam does not run over its letters. */
function deviceName({ device }: RelayView, { z, v, heightPx }: RelayPlane): readonly Markup[] {
  if (device === null) return []
  return [
    element(
      'text',
      {
        class: 'drawn-device-name',
        x: z(device.startZUm + device.lengthUm / 2),
        y: nameAtPx(v(-device.apertureDiameterUm / 2), heightPx),
        'text-anchor': 'middle',
      },
      device.name,
    ),
  ]
}

export function relayShapes(view: RelayView, plane: RelayPlane): readonly Markup[] {
  const { axis, z, v, pxPerUm, widthPx } = plane
  const inX = axis === 'x'
  const radius = (at: RelayView['path'][number]) => (inX ? at.radiusXUm : at.radiusYUm)
  const chief = (at: RelayView['path'][number]) => (inX ? at.chiefXUm : at.chiefYUm)
  const edge = (side: 1 | -1) =>
    view.path.map((at) => `${px(z(at.zUm))},${px(v(chief(at) + side * radius(at)))}`)
  const start = view.path[0]
  const fibrePx = Math.max(BODY_LEAST_PX, DRAWN_FIBRE_UM * pxPerUm)
  const body = (x: number, y: number, width: number, height: number) =>
    element('rect', { class: 'drawn-body', x, y, width, height })
  return [
    body(0, v(start === undefined ? 0 : chief(start)) - fibrePx / 2, z(0), fibrePx),
    body(z(view.lengthUm), v(0) - fibrePx, widthPx - z(view.lengthUm), 3 * fibrePx),
    ...view.lenses.map((lens) =>
      element('polygon', { class: 'drawn-lens', points: lensPoints(lens, plane) }),
    ),
    ...deviceShapes(view, plane),
    element('polygon', { class: 'drawn-beam', points: [...edge(1), ...edge(-1).toReversed()].join(' ') }),
    ...view.rays[axis].map(({ zUm, heightUm }) =>
      element('polyline', {
        class: 'drawn-ray',
        fill: 'none',
        points: zUm.map((each, i) => `${px(z(each))},${px(v(heightUm[i] ?? 0))}`).join(' '),
      }),
    ),
    element('polyline', {
      class: 'drawn-axis',
      fill: 'none',
      points: view.path.map((at) => `${px(z(at.zUm))},${px(v(chief(at)))}`).join(' '),
    }),
    element('line', { class: 'drawn-axis', x1: 0, x2: widthPx, y1: v(0), y2: v(0) }),
    element('text', { class: 'drawn-label drawn-title', x: 10, y: plane.heightPx - 20 }, viewTitle(axis)),
    ...deviceName(view, plane),
  ]
}

/** What a view of a relay has for the drawing, pixels: its size, the margin at either end, and what stays free of the beam. */
interface RelayPicture {
  readonly widthPx: number
  readonly heightPx: number
  readonly marginPx: number
  /** Left free above for dimensions. */
  readonly topPx: number
  readonly edgePx: number
}

/** Scale and places of a view into which the whole relay fits. */
export function relayPlane(view: RelayView, axis: 'x' | 'y', picture: RelayPicture): RelayPlane {
  const { widthPx, heightPx, marginPx, topPx, edgePx } = picture
  const tallUm = 1.1 * Math.max(...view.lenses.map((lens) => lens.apertureDiameterUm), DRAWN_FIBRE_UM * 3)
  const pxPerUm = Math.min((widthPx - 2 * marginPx) / view.lengthUm, (heightPx - topPx - 2 * edgePx) / tallUm)
  const leftPx = (widthPx - view.lengthUm * pxPerUm) / 2
  return {
    axis,
    z: (um) => leftPx + um * pxPerUm,
    v: (um) => (heightPx + topPx - edgePx) / 2 - um * pxPerUm,
    pxPerUm,
    widthPx,
    heightPx,
  }
}
