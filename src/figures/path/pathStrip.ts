// The mode from fibre to waveguide as one picture: its 1/e² envelope through glass, air and adhesive, every element with its
// name and loss, and the mount that carries both sides. Along the light nothing is to scale; across, radii are to scale or,
// where they differ much, by a power law.

import { fixedText } from '../../numerics/numberText'
import type { Drawing, Figure } from '../figure'
import { type Child, element, type Markup } from '../render/markup'
import type { Palette } from '../render/palette'
import { svgRoot } from '../render/svgChart'
import { px, rect, words } from '../render/svgShapes'
import { fittedText, textWidthPx, twoLines } from '../render/textWidth'
import { light } from './pathLight'
import { type MountStacks, mountShapes } from './pathMount'
import { type BodyLook, bodies, deviceName, lensedTipPart, optics, waveguide } from './pathParts'
import type { PathStop } from './pathStops'
import { heightLaw, isJoin, type PlacedStop, placedStops, smallHeightLaw } from './stripLayout'

interface StripOptions {
  readonly widthPx: number
  readonly heightPx: number
  readonly selectedId?: string | undefined
  readonly mount?: MountStacks | null
  /** Whether a name that is too long for its element goes on in a second line: where no pointer can ask for the rest. */
  readonly namesWhole?: boolean
}

const NAMES_PX = 39
const NAME_LINE_PX = 14
const EDGE_PX = 3
const NAME_SIZE_PX = 12.5
const LOSS_BAR_PX = 3
/** A shorter bar is a speck. */
const LEAST_BAR_PX = 2
/** The mount is drawn where the strip is this high, and this high. */
const MOUNT_FROM_PX = 94
const MOUNT_PX = 13

/** The loss of each element as a bar below it: the largest is as wide as its element. */
function lossBars(placed: readonly PlacedStop[], palette: Palette, yPx: number): Child {
  const most = Math.max(1e-9, ...placed.map(({ stop, leftPx, rightPx }) => stop.lossDb / (rightPx - leftPx)))
  return placed.map(({ stop, leftPx, rightPx }) => {
    const wide = Math.max(0, stop.lossDb) / most
    if (wide < LEAST_BAR_PX) return null
    const middle = (leftPx + rightPx) / 2
    const half = Math.min(wide, rightPx - leftPx - 8) / 2
    return rect(middle - half, yPx, middle + half, yPx + LOSS_BAR_PX, { fill: palette.accent, rx: 1 })
  })
}

const roomPx = ({ leftPx, rightPx }: PlacedStop) => rightPx - leftPx - 8

/** The name of an element as lines of its width. */
const nameLines = (placed: PlacedStop, whole: boolean): readonly string[] =>
  whole
    ? twoLines(placed.stop.name, roomPx(placed), NAME_SIZE_PX)
    : [fittedText(placed.stop.name, roomPx(placed), NAME_SIZE_PX)]

function names(placed: PlacedStop, palette: Palette, yPx: number, whole: boolean): Child {
  const { stop, leftPx, rightPx } = placed
  const [middle, room] = [(leftPx + rightPx) / 2, roomPx(placed)]
  const shown = (content: string, dy: number, tone: 'ink' | 'quiet') => {
    const node = words(palette, middle, yPx + dy, fittedText(content, room, NAME_SIZE_PX), { tone })
    return { ...node, attributes: { ...node.attributes, 'font-size': NAME_SIZE_PX } }
  }
  const forms = [stop.detail, ...stop.shorter]
  const detail = forms.find((form) => textWidthPx(form, NAME_SIZE_PX) <= room) ?? forms.at(-1) ?? ''
  const lines = nameLines(placed, whole)
  return [
    lines.map((line, i) => shown(line, 19 + i * NAME_LINE_PX, 'ink')),
    shown(detail, 34 + (lines.length - 1) * NAME_LINE_PX, 'quiet'),
  ]
}

/** The picture without words: bodies, light, optical axis. */
function picture(placed: readonly PlacedStop[], look: BodyLook, widthPx: number): Child {
  const { palette, topPx, bodyPx, half } = look
  const middlePx = topPx + bodyPx / 2
  return [
    bodies(placed, look),
    placed.map((placedStop) => optics(placedStop, look)),
    light(placed, { palette, half, middlePx }),
    placed.map((placedStop) => waveguide(placedStop, look)),
    element('path', {
      stroke: palette.quiet,
      'stroke-width': 0.75,
      'stroke-dasharray': '12 3 2 3',
      d: `M0 ${px(middlePx)}H${px(widthPx)}`,
    }),
    placed.filter(({ stop }) => stop.isTip).map((placedStop) => lensedTipPart(placedStop, look)),
  ]
}

/** Both ends of the last joint, where the two stacks of the mount part. */
function jointEnds(placed: readonly PlacedStop[], widthPx: number): readonly [number, number] {
  const last = placed.findLast(({ stop }) => isJoin(stop))
  return last === undefined ? [widthPx / 2, widthPx / 2] : [last.leftPx, last.rightPx]
}

export function drawPathStrip(stops: readonly PathStop[], options: StripOptions, palette: Palette): Markup {
  const { widthPx, heightPx, selectedId, mount = null, namesWhole = false } = options
  const mountPx = mount !== null && heightPx >= MOUNT_FROM_PX ? MOUNT_PX : 0
  const placed = placedStops(stops, widthPx)
  const linesPx =
    (Math.max(1, ...placed.map((each) => nameLines(each, namesWhole).length)) - 1) * NAME_LINE_PX
  const bodyPx = heightPx - NAMES_PX - linesPx - 2 * EDGE_PX - mountPx
  const look: BodyLook = { palette, half: heightLaw(stops, bodyPx), topPx: EDGE_PX, bodyPx, named: true }
  const selected = placed.find(({ stop }) => stop.id === selectedId)
  const belowPx = EDGE_PX + bodyPx
  return svgRoot({ widthPx, heightPx }, 'path-strip', [
    picture(placed, look, widthPx),
    mount === null || mountPx === 0
      ? null
      : mountShapes(
          mount,
          { topPx: belowPx, heightPx: mountPx, jointPx: jointEnds(placed, widthPx) },
          widthPx,
          palette,
        ),
    placed.map((placedStop) => [
      deviceName(placedStop, look),
      names(placedStop, palette, belowPx + mountPx, namesWhole),
    ]),
    lossBars(placed, palette, belowPx + mountPx + 4),
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

const PAPER = { widthPx: 960, heightPx: 136 } as const

/** The strip as a figure of the sheet. */
export function pathFigure(
  id: string,
  name: string,
  stops: readonly PathStop[],
  mount: MountStacks | null = null,
): Figure<Drawing> {
  const total = stops.reduce((sum, { lossDb }) => sum + lossDb, 0)
  return {
    id,
    sentence: `${name}: 1/e² envelope of the mode from fibre to waveguide, x filled, y dashed; ${fixedText(total, 2)} dB in total. Not to scale along the path.`,
    picture: {
      kind: 'drawing',
      ...PAPER,
      draw: (palette) => drawPathStrip(stops, { ...PAPER, mount, namesWhole: true }, palette),
    },
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

/** A small envelope without words, for galleries and comparisons; all of them share one scale across. */
export function pathThumbnail(
  stops: readonly PathStop[],
  widthPx: number,
  heightPx: number,
  palette: Palette,
): Markup {
  const look: BodyLook = {
    palette,
    half: smallHeightLaw(heightPx - 2),
    topPx: 1,
    bodyPx: heightPx - 2,
    named: false,
  }
  return svgRoot({ widthPx, heightPx }, 'path-thumbnail', [
    picture(placedStops(stops, widthPx), look, widthPx),
  ])
}
