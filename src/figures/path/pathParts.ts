// The bodies along the Path strip: fibres, chips and what fills the joints; angled faces, lenses, devices, channels.

import { type Child, element } from '../render/markup'
import type { Palette } from '../render/palette'
import { pathOf, px, rect, words } from '../render/svgShapes'
import { fittedText } from '../render/textWidth'
import type { StripLens, StripLensPose } from './pathStops'
import { isJoin, type PlacedStop } from './stripLayout'

export interface BodyLook {
  readonly palette: Palette
  readonly topPx: number
  readonly bodyPx: number
  readonly half: (radiusUm: number) => number
  readonly named: boolean
}

/** A face angle of 8° is to be seen without making the strip wild. */
const MOST_LEAN_PX = 14
const LENS_FILLS = 0.94
const LEAST_LENS_PX = 8
const MOST_LINES = 32
const LEAST_PITCH_PX = 3
/** How far the channels of an array are drawn from an end face. */
const CHANNEL_PX = 18

const leanPx = (slope: number, bodyPx: number) =>
  Math.max(-MOST_LEAN_PX, Math.min(MOST_LEAN_PX, (slope * bodyPx) / 2))

/** Chips have their top face drawn, fibres both sides of their cladding. */
function guide({ stop, leftPx, rightPx }: PlacedStop, { palette, topPx, bodyPx }: BodyLook): Child {
  const isChip = stop.kind === 'facet' || stop.kind === 'taper chip'
  const bottom = topPx + bodyPx
  return [
    rect(leftPx, topPx, rightPx, bottom, { fill: palette[isChip ? 'soft' : 'glass'] }),
    element('path', {
      stroke: palette.glassEdge,
      'stroke-width': 1,
      d: `M${px(leftPx)} ${topPx}H${px(rightPx)}M${px(leftPx)} ${px(bottom)}H${px(rightPx)}`,
    }),
  ]
}

/** What fills a joint, between its faces, at their angles; fine upright lines where glass ends. */
function joint({ stop, leftPx, rightPx }: PlacedStop, { palette, topPx, bodyPx }: BodyLook): Child {
  const bottom = topPx + bodyPx
  if (stop.kind === 'splice') {
    return [
      guide({ stop, leftPx, rightPx }, { palette, topPx, bodyPx, half: () => 0, named: false }),
      element('path', {
        stroke: palette.glassEdge,
        'stroke-width': 1,
        d: `M${px((leftPx + rightPx) / 2)} ${topPx}V${px(bottom)}`,
      }),
    ]
  }
  const [near, far] = stop.faces.map((slope) => leanPx(slope, bodyPx))
  const corners = [
    [leftPx + (near ?? 0), topPx],
    [rightPx + (far ?? 0), topPx],
    [rightPx - (far ?? 0), bottom],
    [leftPx - (near ?? 0), bottom],
  ] as const
  const face = (from: 0 | 1, to: 3 | 2) => pathOf([corners[from], corners[to]])
  return [
    element('path', {
      fill: palette[stop.ground === 'air' ? 'paper' : stop.ground],
      d: `${pathOf(corners)}z`,
    }),
    element('path', { stroke: palette.ink, 'stroke-width': 1, fill: 'none', d: face(0, 3) + face(1, 2) }),
  ]
}

/** Glass first, so that the angled faces of joints lie over it. */
export function bodies(placed: readonly PlacedStop[], look: BodyLook): Child {
  return [
    placed.map((placedStop, at) => {
      if (isJoin(placedStop.stop)) return null
      // A splice joins cores one by one; a path begins and ends without a face.
      const isFace = (next: PlacedStop | undefined) => next !== undefined && next.stop.kind !== 'splice'
      const ends = [isFace(placed[at - 1]), isFace(placed[at + 1]) && !placedStop.stop.isTip] as const
      return [guide(placedStop, look), channels(placedStop, look, ends)]
    }),
    placed.filter(({ stop }) => isJoin(stop)).map((placedStop) => joint(placedStop, look)),
  ]
}

/** The channels of an array from above, side by side: at the end faces, so that the light between them is seen. */
function channels(
  { stop, leftPx, rightPx }: PlacedStop,
  look: BodyLook,
  ends: readonly [boolean, boolean],
): Child {
  const { palette, topPx, bodyPx, named } = look
  const count = Math.min(MOST_LINES, stop.channels)
  const step = bodyPx / (count + 1)
  if (!named || count < 2 || step < LEAST_PITCH_PX) return null
  const longPx = Math.min(CHANNEL_PX, (rightPx - leftPx) / 4)
  const lines = Array.from({ length: count }, (_, i) => {
    const y = px(topPx + (i + 1) * step)
    const left = ends[0] ? `M${px(leftPx)} ${y}h${px(longPx)}` : ''
    return ends[1] ? `${left}M${px(rightPx)} ${y}h${px(-longPx)}` : left
  })
  return element('path', {
    stroke: palette.glassEdge,
    'stroke-width': 1,
    'stroke-opacity': 0.7,
    d: lines.join(''),
  })
}

/** The waveguide of a chip: it begins as a point behind the facet and grows to its full width. */
export function waveguide(
  { stop, leftPx, rightPx }: PlacedStop,
  { palette, topPx, bodyPx, half }: BodyLook,
): Child {
  const end = stop.stations.at(-1)
  if (stop.kind !== 'facet' || end === undefined) return null
  const middle = topPx + bodyPx / 2
  const halfPx = Math.max(0.75, half(end.radiusXUm) * 0.5)
  const from = leftPx + 0.12 * (rightPx - leftPx)
  const full = leftPx + 0.92 * (rightPx - leftPx)
  return element('path', {
    fill: palette.core,
    'fill-opacity': 0.8,
    d: `${pathOf([
      [from, middle - 0.4],
      [full, middle - halfPx],
      [rightPx, middle - halfPx],
      [rightPx, middle + halfPx],
      [full, middle + halfPx],
      [from, middle + 0.4],
    ])}z`,
  })
}

/** A fibre that ends on a lens: its cone and its rounded end, with air around them. */
export function lensedTipPart({ rightPx }: PlacedStop, { palette, topPx, bodyPx }: BodyLook): Child {
  const [middle, half, depth] = [topPx + bodyPx / 2, bodyPx / 2, bodyPx * 0.55]
  const [end, top, bottom] = [px(rightPx), px(topPx - 0.5), px(topPx + bodyPx + 0.5)]
  const [shoulder, cone] = [px(rightPx - depth), px(rightPx - depth * 0.16)]
  const surface = `${px(middle - half * 0.5)}Q${px(rightPx + depth * 0.12)} ${px(middle)} ${cone} ${px(middle + half * 0.5)}`
  return [
    element('path', {
      fill: palette.paper,
      d: `M${end} ${top}H${shoulder}L${cone} ${surface}L${shoulder} ${bottom}H${end}z`,
    }),
    element('path', {
      fill: 'none',
      stroke: palette.ink,
      'stroke-width': 1,
      d: `M${shoulder} ${px(topPx)}L${cone} ${surface}L${shoulder} ${px(topPx + bodyPx)}`,
    }),
  ]
}

/** A lens with its decentre and the angle of its axis as they are; its faces bulge as deep as they do. */
function lens(
  shape: StripLens,
  pose: StripLensPose,
  placedStop: PlacedStop,
  look: BodyLook,
  dashed: boolean,
): Child {
  const { palette, topPx, bodyPx } = look
  const at = (part: number) => placedStop.leftPx + part * (placedStop.rightPx - placedStop.leftPx)
  const halfPx = (LENS_FILLS * bodyPx) / 2
  const [start, end] = [at(shape.from), Math.max(at(shape.to), at(shape.from) + LEAST_LENS_PX)]
  const middle = topPx + bodyPx / 2 - Math.max(-0.5, Math.min(0.5, pose.shift)) * halfPx
  const most = 0.45 * (end - start)
  const depth = (part: number) => Math.max(-most, Math.min(most, part * halfPx))
  const [front, back] = [depth(shape.front), depth(shape.back)]
  const [upper, lower] = [px(middle - halfPx), px(middle + halfPx)]
  const turn = (-pose.tiltRad * 180) / Math.PI
  return element('path', {
    fill: dashed ? 'none' : palette.glass,
    'fill-opacity': dashed ? undefined : 0.75,
    stroke: palette.ink,
    'stroke-width': 1,
    'stroke-dasharray': dashed ? '3 3' : undefined,
    transform: turn === 0 ? undefined : `rotate(${px(turn)} ${px((start + end) / 2)} ${px(middle)})`,
    d: `M${px(start + front)} ${upper}Q${px(start - front)} ${px(middle)} ${px(start + front)} ${lower}L${px(end - back)} ${lower}Q${px(end + back)} ${px(middle)} ${px(end - back)} ${upper}z`,
  })
}

const sameInBoth = ({ x, y }: StripLens) => x.shift === y.shift && x.tiltRad === y.tiltRad

/** Lenses and device of a relay: from above solid, from the side dashed where it differs. */
export function optics(placedStop: PlacedStop, look: BodyLook): Child {
  const { palette, topPx, bodyPx, named } = look
  const { device, lenses } = placedStop.stop
  const at = (part: number) => placedStop.leftPx + part * (placedStop.rightPx - placedStop.leftPx)
  return [
    device === null
      ? null
      : rect(at(device.from), topPx + 0.1 * bodyPx, at(device.to), topPx + 0.9 * bodyPx, {
          fill: palette.glass,
          'fill-opacity': 0.6,
          stroke: palette.glassEdge,
          'stroke-width': 1,
          rx: named ? 2 : undefined,
        }),
    lenses.map((shape) => [
      lens(shape, shape.x, placedStop, look, false),
      sameInBoth(shape) ? null : lens(shape, shape.y, placedStop, look, true),
    ]),
  ]
}

export function deviceName(
  { stop, leftPx, rightPx }: PlacedStop,
  { palette, topPx, bodyPx }: BodyLook,
): Child {
  const { device } = stop
  if (device === null) return null
  const room = (device.to - device.from) * (rightPx - leftPx) - 6
  const middle = leftPx + ((device.from + device.to) / 2) * (rightPx - leftPx)
  return words(palette, middle, topPx + 0.1 * bodyPx + 13, fittedText(device.name, room, 12), { halo: true })
}
