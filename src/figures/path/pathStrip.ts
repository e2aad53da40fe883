// The mode from fibre to waveguide as one picture: its 1/e² envelope through glass, air and adhesive, every element with its
// name and loss. Along the light nothing is to scale; across, radii are to scale or, where they differ much, by a power law.

import type { Drawing, Figure } from '../figure'
import { fixedText } from '../numberText'
import { type Child, element } from '../render/markup'
import type { Palette } from '../render/palette'
import { svgRoot } from '../render/svgChart'
import { pathOf, px, rect, words } from '../render/svgShapes'
import { fittedText } from '../render/textWidth'
import type { PathStop, Station } from './pathStops'

export interface StripOptions {
  readonly widthPx: number
  readonly heightPx: number
  readonly selectedId?: string | undefined
  /** False for thumbnails: the picture alone. */
  readonly named?: boolean
}

export interface StripPlace {
  readonly stop: PathStop
  readonly leftPx: number
  readonly rightPx: number
}

const NAMES_PX = 34
const EDGE_PX = 3
/** The widest mode fills this part of the strip. */
const FILLED = 0.74
/** Radii that differ by more than this are drawn by a power law, so that the smallest stays visible. */
const LINEAR_RATIO = 8
/** A face angle of 8° is to be seen without making the strip wild. */
const MOST_LEAN_PX = 14
const DOT_PX = 2.4
const MOST_DOTS = 16
const NAME_SIZE_PX = 12.5

/** Where each stop lies along the strip. */
export function stripPlaces(stops: readonly PathStop[], widthPx: number): readonly StripPlace[] {
  const total = stops.reduce((sum, { share }) => sum + share, 0) || 1
  let atPx = 0
  return stops.map((stop) => {
    const leftPx = atPx
    atPx += (stop.share / total) * widthPx
    return { stop, leftPx, rightPx: atPx }
  })
}

/** From radius in micrometres to half a height in px, for all stops alike. */
function heightLaw(stops: readonly PathStop[], bodyPx: number): (radiusUm: number) => number {
  const radii = stops.flatMap(({ stations }) =>
    stations.flatMap(({ radiusXUm, radiusYUm }) => [radiusXUm, radiusYUm]),
  )
  const [least, most] = [Math.max(1e-3, Math.min(...radii)), Math.max(1e-3, ...radii)]
  const ratio = most / least
  const power = ratio <= LINEAR_RATIO ? 1 : Math.log(LINEAR_RATIO) / Math.log(ratio)
  return (radiusUm) => ((FILLED * bodyPx) / 2) * (Math.max(0, radiusUm) / most) ** power
}

interface Look {
  readonly palette: Palette
  readonly half: (radiusUm: number) => number
  readonly topPx: number
  readonly bodyPx: number
}

function envelope(
  { stop, leftPx, rightPx }: StripPlace,
  look: Look,
  axis: 'x' | 'y',
): readonly [string, string] {
  const middle = look.topPx + look.bodyPx / 2
  const edge = (side: 1 | -1) =>
    stop.stations.map((station: Station): readonly [number, number] => {
      const half = look.half(axis === 'x' ? station.radiusXUm : station.radiusYUm)
      const centre = middle - (station.shift ?? 0) * half
      return [leftPx + station.at * (rightPx - leftPx), centre - side * half]
    })
  const [upper, lower] = [edge(1), edge(-1)]
  return [`${pathOf([...upper, ...lower.toReversed()])}z`, pathOf([...upper, null, ...lower])]
}

/** The ground of a stop, with its angled faces. */
function ground({ stop, leftPx, rightPx }: StripPlace, { palette, topPx, bodyPx }: Look): Child {
  const lean = (slope: number) => Math.max(-MOST_LEAN_PX, Math.min(MOST_LEAN_PX, (slope * bodyPx) / 2))
  const [near, far] = stop.faces.map(lean)
  const bottom = topPx + bodyPx
  return element('path', {
    fill: palette[stop.ground],
    d: pathOf([
      [leftPx + (near ?? 0), topPx],
      [rightPx + (far ?? 0), topPx],
      [rightPx - (far ?? 0), bottom],
      [leftPx - (near ?? 0), bottom],
    ]).concat('z'),
  })
}

/** Faces as fine upright lines; those of a join lean as they do. */
function faces({ stop, leftPx, rightPx }: StripPlace, { palette, topPx, bodyPx }: Look): Child {
  if (stop.kind !== 'gap' && stop.kind !== 'relay') return null
  const stroke = { stroke: palette.ink, 'stroke-width': 1, fill: 'none' }
  return [leftPx, rightPx].map((at, i) => {
    const lean = Math.max(-MOST_LEAN_PX, Math.min(MOST_LEAN_PX, ((stop.faces[i] ?? 0) * bodyPx) / 2))
    return element('path', { ...stroke, d: `M${px(at + lean)} ${topPx}L${px(at - lean)} ${topPx + bodyPx}` })
  })
}

function tip({ rightPx }: StripPlace, { palette, topPx, bodyPx }: Look): Child {
  const [middle, half, depth] = [topPx + bodyPx / 2, bodyPx / 2, bodyPx * 0.28]
  return element('path', {
    fill: palette.air,
    stroke: palette.ink,
    'stroke-width': 1,
    d: `M${px(rightPx)} ${topPx}L${px(rightPx - depth)} ${topPx}L${px(rightPx - depth * 0.28)} ${px(middle - half * 0.36)}Q${px(rightPx)} ${px(middle)} ${px(rightPx - depth * 0.28)} ${px(middle + half * 0.36)}L${px(rightPx - depth)} ${topPx + bodyPx}L${px(rightPx)} ${topPx + bodyPx}`,
  })
}

function optics({ stop, leftPx, rightPx }: StripPlace, look: Look, named: boolean): Child {
  const { palette, topPx, bodyPx } = look
  const at = (part: number) => leftPx + part * (rightPx - leftPx)
  const middle = topPx + bodyPx / 2
  const half = (0.94 * bodyPx) / 2
  const { device } = stop
  return [
    stop.lenses.map(({ from, to, shift }) => {
      const [start, end] = [at(from), Math.max(at(to), at(from) + 8)]
      const centre = middle - Math.max(-0.5, Math.min(0.5, shift)) * half
      const bulge = Math.min(10, 0.5 * (end - start))
      return element('path', {
        fill: palette.glass,
        'fill-opacity': 0.85,
        stroke: palette.ink,
        'stroke-width': 1,
        d: `M${px(start + bulge)} ${px(centre - half)}Q${px(start - bulge)} ${px(centre)} ${px(start + bulge)} ${px(centre + half)}L${px(end - bulge)} ${px(centre + half)}Q${px(end + bulge)} ${px(centre)} ${px(end - bulge)} ${px(centre - half)}z`,
      })
    }),
    device === null
      ? null
      : [
          rect(at(device.from), topPx + 0.1 * bodyPx, at(device.to), topPx + 0.9 * bodyPx, {
            fill: 'none',
            stroke: palette.ink,
            'stroke-width': 1,
            'stroke-dasharray': '4 3',
          }),
          named
            ? words(
                palette,
                at((device.from + device.to) / 2),
                topPx + 0.1 * bodyPx + 13,
                fittedText(device.name, at(device.to) - at(device.from) - 6, 12),
                { halo: true },
              )
            : null,
        ],
  ]
}

/** The row of channels of an array, seen from above, in the corner of its part. */
function channels({ stop, leftPx, rightPx }: StripPlace, { palette, topPx }: Look): Child {
  if (stop.channels < 2) return null
  const count = Math.min(MOST_DOTS, stop.channels)
  const step = Math.min(6, (rightPx - leftPx - 16) / count)
  if (step < 3) return null
  return Array.from({ length: count }, (_, i) =>
    element('circle', {
      cx: px(rightPx - 9 - (count - 1 - i) * step),
      cy: topPx + 5,
      r: DOT_PX / 2 + 0.3,
      fill: palette.quiet,
    }),
  )
}

function names({ stop, leftPx, rightPx }: StripPlace, palette: Palette, yPx: number): Child {
  const [middle, room] = [(leftPx + rightPx) / 2, rightPx - leftPx - 8]
  const text = (content: string, dy: number, tone: 'ink' | 'quiet') => ({
    ...words(palette, middle, yPx + dy, fittedText(content, room, NAME_SIZE_PX), { tone }),
  })
  const shown = (node: ReturnType<typeof text>) => ({
    ...node,
    attributes: { ...node.attributes, 'font-size': NAME_SIZE_PX },
  })
  return [shown(text(stop.name, 13, 'ink')), shown(text(stop.detail, 28, 'quiet'))]
}

export function drawPathStrip(stops: readonly PathStop[], options: StripOptions, palette: Palette) {
  const { widthPx, heightPx, selectedId, named = true } = options
  const bodyPx = heightPx - (named ? NAMES_PX : 0) - 2 * EDGE_PX
  const look: Look = { palette, half: heightLaw(stops, bodyPx), topPx: EDGE_PX, bodyPx }
  const places = stripPlaces(stops, widthPx)
  const selected = places.find(({ stop }) => stop.id === selectedId)
  const middle = EDGE_PX + bodyPx / 2
  // Glass first, so that the leaning faces of joins lie over it.
  const grounds = places.toSorted(
    (a, b) =>
      Number(a.stop.kind === 'gap' || a.stop.kind === 'relay') -
      Number(b.stop.kind === 'gap' || b.stop.kind === 'relay'),
  )
  return svgRoot({ widthPx, heightPx }, 'path-strip', [
    grounds.map((place) => ground(place, look)),
    places.map((place) => optics(place, look, named)),
    places.map((place) => {
      const [area, edge] = envelope(place, look, 'x')
      return [
        element('path', { fill: palette.beam, 'fill-opacity': 0.85, d: area }),
        element('path', {
          fill: 'none',
          stroke: palette.beamEdge,
          'stroke-width': 1.5,
          'stroke-linejoin': 'round',
          d: edge,
        }),
      ]
    }),
    places.map((place) => {
      const [, edge] = envelope(place, look, 'y')
      return element('path', {
        fill: 'none',
        stroke: palette.beamEdge,
        'stroke-width': 1,
        'stroke-dasharray': '3 3',
        d: edge,
      })
    }),
    element('path', {
      stroke: palette.quiet,
      'stroke-width': 0.75,
      'stroke-dasharray': '12 3 2 3',
      d: `M0 ${px(middle)}H${px(widthPx)}`,
    }),
    places.map((place) => [
      place.stop.isTip ? tip(place, look) : null,
      faces(place, look),
      channels(place, look),
      place.stop.kind === 'splice'
        ? element('path', {
            stroke: palette.quiet,
            'stroke-width': 1,
            'stroke-dasharray': '2 2',
            d: `M${px((place.leftPx + place.rightPx) / 2)} ${EDGE_PX}v${px(bodyPx)}`,
          })
        : null,
      named ? names(place, palette, EDGE_PX + bodyPx) : null,
    ]),
    element('path', {
      stroke: palette.glassEdge,
      'stroke-width': 1,
      d: `M0 ${EDGE_PX}H${px(widthPx)}M0 ${px(EDGE_PX + bodyPx)}H${px(widthPx)}`,
    }),
    selected === undefined
      ? null
      : rect(selected.leftPx + 1, 1, selected.rightPx - 1, heightPx - 1, {
          fill: palette.accent,
          'fill-opacity': 0.07,
          stroke: palette.accent,
          'stroke-width': 2,
          rx: 2,
        }),
  ])
}

const PAPER = { widthPx: 960, heightPx: 130 } as const

/** The strip as a figure of the sheet. */
export function pathFigure(id: string, name: string, stops: readonly PathStop[]): Figure<Drawing> {
  const total = stops.reduce((sum, { lossDb }) => sum + lossDb, 0)
  return {
    id,
    sentence: `${name}: 1/e² envelope of the mode from fibre to waveguide, x filled, y dashed; ${fixedText(total, 2)} dB in all. Not to scale along the path.`,
    picture: { kind: 'drawing', ...PAPER, draw: (palette) => drawPathStrip(stops, PAPER, palette) },
    table: {
      columns: [
        { label: 'Element' },
        { label: 'MFD x at its start', unit: 'µm', digits: 2 },
        { label: 'MFD x at its end', unit: 'µm', digits: 2 },
        { label: 'Loss', unit: 'dB', digits: 2 },
      ],
      rows: stops.map(({ name: stopName, stations, lossDb }) => [
        stopName,
        2 * (stations[0]?.radiusXUm ?? 0),
        2 * (stations.at(-1)?.radiusXUm ?? 0),
        lossDb,
      ]),
    },
  }
}

/** A small envelope without words, for galleries and comparisons. */
export function pathThumbnail(
  stops: readonly PathStop[],
  widthPx: number,
  heightPx: number,
  palette: Palette,
) {
  return drawPathStrip(stops, { widthPx, heightPx, named: false }, palette)
}
