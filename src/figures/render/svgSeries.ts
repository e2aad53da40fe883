// One series of a chart as SVG, in a frame.

import type { BarSeries, ContourSeries, PointSeries, Series } from '../chart'
import { contourLabels, type LabelBox } from './contourLabels'
import { contourLines } from './contours'
import type { Frame } from './layout'
import { type Child, element, type Markup } from './markup'
import { FONT_PX, type Palette, type Tone } from './palette'
import { line, markShape, pathOf, px, rect, strokeOf, words } from './svgShapes'
import { textWidthPx } from './textWidth'

const MARK_PX = 8
/** Ink on a map, whose colours are the same in both themes. */
const ON_MAP = '#14171a'
/** What lies on a map is drawn on a lighter line, this much wider in all, which keeps it in sight where the map is dark. */
const CASING_PX = 2.5
const LABEL_GAP_PX = 5
const PLATE_PX = 2

function points(xs: ArrayLike<number>, ys: ArrayLike<number | null>, frame: Frame, isRight: boolean) {
  const toY = isRight ? frame.right : frame.y
  return Array.from(xs, (x, i): readonly [number, number] | null => {
    const y = ys[i]
    return y === null || y === undefined || !Number.isFinite(y) ? null : [frame.x(x), toY(y)]
  })
}

function marks(
  { x, y, mark, tone, sizePx = MARK_PX, right = false }: PointSeries,
  frame: Frame,
  palette: Palette,
  widerPx = 0,
) {
  return points(x, y, frame, right).map((point, i) =>
    point === null
      ? null
      : markShape(
          palette,
          typeof mark === 'string' ? mark : (mark[i] ?? 'circle'),
          point[0],
          point[1],
          sizePx + widerPx,
          tone,
          widerPx,
        ),
  )
}

function toneAt(tone: BarSeries['tone'], i: number): Tone {
  return typeof tone === 'string' ? tone : (tone[i] ?? 'accent')
}

function bars(series: BarSeries, frame: Frame, palette: Palette): readonly Child[] {
  const { at, from, to, thickness, tone, lying = false, labels } = series
  return Array.from(at, (position, i) => {
    const [start, end] = [from[i] ?? 0, to[i] ?? 0]
    if (start === end && labels === undefined) return flatBar(series, position, end, frame, palette)
    const look = { fill: palette[toneAt(tone, i)], stroke: palette.ink, 'stroke-width': 0.5 }
    const [low, high] = [position - thickness / 2, position + thickness / 2]
    if (!lying) return rect(frame.x(low), frame.y(start), frame.x(high), frame.y(end), look)
    const label = labels?.[i]
    return [
      rect(frame.x(start), frame.y(low), frame.x(end), frame.y(high), look),
      label === undefined ? null : barLabel(label, start, end, position, frame, palette),
    ]
  })
}

/** A bar without length is a line, such as a median. */
function flatBar(
  { thickness, tone, lying }: BarSeries,
  position: number,
  at: number,
  frame: Frame,
  palette: Palette,
) {
  const stroke = { tone: typeof tone === 'string' ? tone : 'accent', weight: 'strong' } as const
  const [low, high] = [position - thickness / 2, position + thickness / 2]
  return lying
    ? line(palette, frame.x(at), frame.y(low), frame.x(at), frame.y(high), stroke)
    : line(palette, frame.x(low), frame.y(at), frame.x(high), frame.y(at), stroke)
}

/** Behind the bar's end; where it does not fit there, inside the bar or before its start. */
function barLabel(
  label: string,
  start: number,
  end: number,
  position: number,
  frame: Frame,
  palette: Palette,
): Markup {
  const [left, right] = [frame.x(start), frame.x(end)].toSorted((a, b) => a - b)
  const wide = textWidthPx(label) + 2 * LABEL_GAP_PX
  const y = frame.y(position) + 4
  if ((right ?? 0) + wide <= frame.rightPx) {
    return words(palette, (right ?? 0) + LABEL_GAP_PX, y, label, { anchor: 'start', halo: true })
  }
  const inside = (right ?? 0) - (left ?? 0) >= wide
  return inside
    ? words(palette, (right ?? 0) - LABEL_GAP_PX, y, label, { anchor: 'end', tone: 'paper' })
    : words(palette, (left ?? 0) - LABEL_GAP_PX, y, label, { anchor: 'end', halo: true })
}

/** On a map with a halo, through which the map is seen; else on a plate that breaks the line, because paper shows no halos. */
function contourLabel(xPx: number, yPx: number, label: string, palette: Palette, onMap: boolean): Child {
  const look = { x: px(xPx), y: px(yPx + 4), 'text-anchor': 'middle', fill: onMap ? ON_MAP : palette.ink }
  if (onMap) {
    const halo = { 'paint-order': 'stroke', stroke: '#ffffff', 'stroke-width': 3, 'stroke-linejoin': 'round' }
    return element('text', { ...look, ...halo }, label)
  }
  const halfPx = textWidthPx(label) / 2 + PLATE_PX
  return [
    rect(xPx - halfPx, yPx - FONT_PX / 2, xPx + halfPx, yPx + FONT_PX / 2, { fill: palette.paper }),
    element('text', look, label),
  ]
}

function contours(
  series: ContourSeries,
  frame: Frame,
  { palette, mapHref, drawn }: SeriesLook,
): readonly Child[] {
  const onMap = mapHref !== null
  const tone: Tone = series.beside ? 'over' : onMap ? 'core' : 'accent'
  const stroke =
    onMap && !series.beside ? { ...strokeOf(palette, { tone }), stroke: ON_MAP } : strokeOf(palette, { tone })
  const lettered = series.levels.filter((level) => level.words !== undefined)
  const lines = contourLines(
    series,
    series.levels.map(({ value }) => value),
  )
  return [
    series.levels.map(({ strong }, at) => {
      let path = ''
      for (const points of lines[at] ?? []) {
        for (let k = 0; k + 1 < points.length; k += 2) {
          path += `${k === 0 ? 'M' : 'L'}${px(frame.x(points[k] ?? 0))} ${px(frame.y(points[k + 1] ?? 0))}`
        }
      }
      return element('path', {
        ...stroke,
        'stroke-width': strong ? 1.75 : 0.75,
        'stroke-dasharray': series.dash === 'dot' ? '1 3' : undefined,
        d: path,
      })
    }),
    // In a group: where a label comes or goes, no line changes.
    element(
      'g',
      {},
      contourLabels(
        series,
        lettered.map(({ value }) => value),
        (x, y) => [frame.x(x), frame.y(y)],
        lettered.map((level) => textWidthPx(level.words ?? '')),
        { left: frame.leftPx, right: frame.rightPx, top: frame.topPx, bottom: frame.bottomPx },
        drawn,
      ).map(({ xPx, yPx, index }) => contourLabel(xPx, yPx, lettered[index]?.words ?? '', palette, onMap)),
    ),
  ]
}

interface SeriesLook {
  readonly palette: Palette
  /** What the labels of contour lines keep clear of. */
  readonly drawn: readonly LabelBox[]
  /** Address of the picture of a map, null where there is none. */
  readonly mapHref: string | null
}

/** What the series draws inside its frame. */
export function seriesShapes(series: Series, frame: Frame, look: SeriesLook): Child {
  const { palette, mapHref } = look
  switch (series.kind) {
    case 'line': {
      const positions = points(series.x, series.y, frame, series.right ?? false)
      const stroke = strokeOf(palette, {
        tone: series.tone,
        weight: series.weight ?? 'strong',
        dash: series.dash ?? 'solid',
      })
      const path = element('path', { ...stroke, 'stroke-linejoin': 'round', d: pathOf(positions) })
      if (!series.dots) return path
      return [
        path,
        positions.map(
          (position) => position && markShape(palette, 'circle', position[0], position[1], 4, series.tone),
        ),
      ]
    }
    case 'points':
      if (mapHref === null) return marks(series, frame, palette)
      return [
        marks({ ...series, tone: 'over' }, frame, palette, CASING_PX),
        marks(series, frame, { ...palette, core: ON_MAP }),
      ]
    case 'bars':
      return bars(series, frame, palette)
    case 'band': {
      const edge = (values: ArrayLike<number>) =>
        Array.from(series.x, (x, i) => [frame.x(x), frame.y(values[i] ?? 0)] as const)
      const [low, high] = [edge(series.low), edge(series.high)]
      const rim = strokeOf(palette, { tone: 'quiet', weight: 'fine', dash: 'dash' })
      return [
        element('path', {
          fill: palette.band,
          stroke: 'none',
          d: `${pathOf([...low, ...high.toReversed()])}z`,
        }),
        element('path', { ...rim, 'stroke-width': 0.75, d: pathOf([...low, null, ...high]) }),
      ]
    }
    case 'whiskers':
      return Array.from(series.x, (x, i) => {
        const [at, low, high] = [
          px(frame.x(x)),
          px(frame.y(series.low[i] ?? 0)),
          px(frame.y(series.high[i] ?? 0)),
        ]
        return element('path', {
          ...strokeOf(palette, { tone: 'ink', weight: 'normal' }),
          d: `M${at} ${low}V${high}M${at - 3} ${low}h6M${at - 3} ${high}h6`,
        })
      })
    case 'box': {
      const [left, right] = series.x === null ? [frame.leftPx, frame.rightPx] : series.x.map(frame.x)
      const [bottom, top] = series.y === null ? [frame.bottomPx, frame.topPx] : series.y.map(frame.y)
      const sides = [left ?? 0, bottom ?? 0, right ?? 0, top ?? 0] as const
      if (series.filled) return rect(...sides, { fill: palette.accent, 'fill-opacity': 0.12 })
      const dashed = strokeOf(palette, { tone: 'ink', dash: 'dash' })
      if (mapHref === null) return rect(...sides, dashed)
      const casing = {
        fill: 'none',
        stroke: palette.over,
        'stroke-width': dashed['stroke-width'] + CASING_PX,
      }
      return [rect(...sides, casing), rect(...sides, { ...dashed, stroke: ON_MAP })]
    }
    case 'rule': {
      const stroke = { tone: 'ink', weight: series.weight ?? 'normal', dash: series.dash ?? 'dash' } as const
      return series.axis === 'x'
        ? line(palette, frame.x(series.at), frame.topPx, frame.x(series.at), frame.bottomPx, stroke)
        : line(palette, frame.leftPx, frame.y(series.at), frame.rightPx, frame.y(series.at), stroke)
    }
    case 'map':
      if (mapHref === null || mapHref === '') return null
      return element('image', {
        href: mapHref,
        x: px(frame.leftPx),
        y: px(frame.topPx),
        width: px(frame.rightPx - frame.leftPx),
        height: px(frame.bottomPx - frame.topPx),
        preserveAspectRatio: 'none',
      })
    case 'contours':
      return contours(series, frame, look)
  }
}

/** A legend entry's sample of how its series is drawn. */
export function swatch(series: Series, xPx: number, yPx: number, widthPx: number, palette: Palette): Child {
  const middle = yPx - 4
  switch (series.kind) {
    case 'line':
      return line(palette, xPx, middle, xPx + widthPx, middle, {
        tone: series.tone,
        weight: series.weight ?? 'strong',
        dash: series.dash ?? 'solid',
      })
    case 'points':
      return markShape(
        palette,
        typeof series.mark === 'string' ? series.mark : 'circle',
        xPx + widthPx / 2,
        middle,
        MARK_PX,
        series.tone,
      )
    case 'bars':
      return rect(xPx + 4, middle - 5, xPx + widthPx - 2, middle + 5, {
        fill: palette[toneAt(series.tone, 0)],
        stroke: palette.ink,
        'stroke-width': 0.5,
      })
    case 'band':
      return rect(xPx + 2, middle - 5, xPx + widthPx - 2, middle + 5, {
        fill: palette.band,
        stroke: palette.quiet,
        'stroke-width': 0.75,
      })
    case 'whiskers':
      return line(palette, xPx + widthPx / 2, middle - 6, xPx + widthPx / 2, middle + 6, { tone: 'ink' })
    default:
      return null
  }
}
