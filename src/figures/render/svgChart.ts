// A chart as SVG, by its layout.

import type { Chart, ChartPane, ScaleName } from '../chart'
import { keptClear } from './keptClear'
import { BAR_PX, type ChartLayout, chartLayout, type Frame, mapAxis, type Size, SWATCH_PX } from './layout'
import { type Child, element, type Markup } from './markup'
import { FONT_FAMILY, FONT_PX, type Palette } from './palette'
import { SCALES } from './scales'
import { seriesShapes, swatch } from './svgSeries'
import { line, px, rect, words } from './svgShapes'
import { axisTicks } from './ticks'

const TICK_PX = 5

interface ChartLook {
  readonly palette: Palette
  /** Addresses of the pictures of maps; charts without one show contours alone. */
  readonly mapHref?: string | null
  /** The part of a plotting library is then left out: frames, grid, ticks and series. */
  readonly furnitureOnly?: boolean
  /** Of this chart in this size, where it is known already. */
  readonly layout?: ChartLayout
}

function yMarks(pane: ChartPane, frame: Frame, layout: ChartLayout, at: number, palette: Palette): Child {
  const found = layout.yTicks[at] ?? []
  const isMap = pane.series.some(({ kind }) => kind === 'map')
  const rightTicks = pane.right === undefined ? [] : axisTicks(pane.right, frame.bottomPx - frame.topPx, 38)
  return [
    found.map(({ at: value, words: text }) => {
      const y = frame.y(value)
      return [
        pane.y.names === undefined && !isMap
          ? line(palette, frame.leftPx, y, frame.rightPx, y, { tone: 'rule', weight: 'fine' })
          : null,
        line(palette, frame.leftPx - TICK_PX, y, frame.leftPx, y, { tone: 'quiet', weight: 'fine' }),
        words(palette, frame.leftPx - TICK_PX - 3, y + 4, text, { anchor: 'end' }),
      ]
    }),
    rightTicks.map(({ at: value, words: text }) => [
      line(palette, frame.rightPx, frame.right(value), frame.rightPx + TICK_PX, frame.right(value), {
        tone: 'quiet',
        weight: 'fine',
      }),
      words(palette, frame.rightPx + TICK_PX + 3, frame.right(value) + 4, text, { anchor: 'start' }),
    ]),
  ]
}

function xMarks(frame: Frame, layout: ChartLayout, palette: Palette, withWords: boolean): Child {
  return layout.xTicks.map(({ at, words: text }) => {
    const half = 3 * text.length
    const x = frame.x(at)
    return [
      line(palette, x, frame.bottomPx, x, frame.bottomPx + TICK_PX, { tone: 'quiet', weight: 'fine' }),
      withWords
        ? words(palette, Math.min(layout.widthPx - half - 2, x), frame.bottomPx + TICK_PX + FONT_PX, text)
        : null,
    ]
  })
}

/** Parts of one kind: where their number changes, no others take their places. */
const group = (...children: readonly Child[]): Markup => element('g', {}, children)

const STRIPES = 48

/** The stripes that were drawn last: in a drag they are those of every frame. */
let drawnStripes: { readonly key: string; readonly stripes: Markup } | null = null

/** The colours of a scale, the least value at the bottom. */
function stripesOf(scale: ScaleName, xPx: number, { topPx, bottomPx }: Frame): Markup {
  const key = `${scale} ${xPx} ${topPx} ${bottomPx}`
  if (drawnStripes?.key === key) return drawnStripes.stripes
  const heightPx = (bottomPx - topPx) / STRIPES
  const stripes = group(
    Array.from({ length: STRIPES }, (_, i) =>
      rect(xPx, bottomPx - (i + 1) * heightPx, xPx + BAR_PX, bottomPx - i * heightPx + 0.3, {
        fill: stopColour(SCALES[scale], (i + 0.5) / STRIPES),
      }),
    ),
  )
  drawnStripes = { key, stripes }
  return stripes
}

function colourBar({ colourBar: bar }: ChartLayout, palette: Palette): Child {
  if (bar === null) return null
  const { map, xPx, frame } = bar
  const found = axisTicks(mapAxis(map), frame.bottomPx - frame.topPx, 38)
  const toY = (value: number) =>
    frame.bottomPx - ((value - map.from) / (map.to - map.from || 1)) * (frame.bottomPx - frame.topPx)
  return [
    stripesOf(map.scale, xPx, frame),
    found.map(({ at, words: text }) => [
      line(palette, xPx + BAR_PX, toY(at), xPx + BAR_PX + 4, toY(at), { tone: 'quiet', weight: 'fine' }),
      words(palette, xPx + BAR_PX + 7, toY(at) + 4, text, { anchor: 'start' }),
    ]),
    words(palette, xPx + BAR_PX, frame.topPx - 5, map.unit === '' ? '' : map.unit, {
      anchor: 'middle',
      tone: 'quiet',
    }),
  ]
}

/** The colour at a place of a scale, mixed between its neighbours. */
function stopColour(stops: (typeof SCALES)['loss'], position: number): string {
  const at = Math.min(stops.length - 1.000001, position * (stops.length - 1))
  const below = Math.floor(at)
  const channel = (stop: number, c: number) =>
    Number.parseInt((stops[stop]?.[1] ?? '#000000').slice(1 + 2 * c, 3 + 2 * c), 16)
  const mixed = [0, 1, 2].map((c) =>
    Math.round(channel(below, c) + (at - below) * (channel(below + 1, c) - channel(below, c))),
  )
  return `#${mixed.map((value) => value.toString(16).padStart(2, '0')).join('')}`
}

/** Titles, names of rules and the legend: what is outside the frames. */
function furniture(layout: ChartLayout, palette: Palette): Child {
  return [
    layout.texts.map(({ xPx, yPx, words: text, anchor, quiet }) =>
      words(palette, xPx, yPx, text, { anchor, tone: quiet ? 'quiet' : 'ink' }),
    ),
    layout.legend.map(({ series, xPx, yPx }) => [
      swatch(series, xPx, yPx, SWATCH_PX, palette),
      words(palette, xPx + SWATCH_PX + 6, yPx, series.name, { anchor: 'start' }),
    ]),
  ]
}

export function svgRoot({ widthPx, heightPx }: Size, className: string, children: Child): Markup {
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: className,
      viewBox: `0 0 ${px(widthPx)} ${px(heightPx)}`,
      role: 'presentation',
      'font-family': FONT_FAMILY,
      'font-size': FONT_PX,
    },
    children,
  )
}

export function svgChart(
  chart: Chart,
  size: Size,
  { palette, mapHref = null, furnitureOnly = false, layout = chartLayout(chart, size) }: ChartLook,
): Markup {
  // Where no picture of the map is drawn, its scale means nothing.
  const bar = furnitureOnly || mapHref !== null ? colourBar(layout, palette) : null
  if (furnitureOnly) return svgRoot(size, 'chart', [bar, furniture(layout, palette)])
  const panes = chart.panes.map((pane, i) => {
    const frame = layout.frames[i]
    if (frame === undefined) return null
    const { leftPx, topPx, rightPx, bottomPx } = frame
    const [width, height] = [px(rightPx - leftPx), px(bottomPx - topPx)]
    const drawn = keptClear(pane.series, frame)
    const marksLast = (kind: string) => (kind === 'points' ? 1 : 0)
    const [within, above] = [0, 1].map((turn) =>
      pane.series
        .filter(({ kind }) => marksLast(kind) === turn)
        .map((series) => seriesShapes(series, frame, { palette, mapHref, drawn })),
    )
    return [
      group(yMarks(pane, frame, layout, i, palette)),
      element(
        'svg',
        {
          x: px(leftPx),
          y: px(topPx),
          width,
          height,
          viewBox: `${px(leftPx)} ${px(topPx)} ${width} ${height}`,
        },
        within ?? null,
      ),
      rect(leftPx, topPx, rightPx, bottomPx, { fill: 'none', stroke: palette.quiet, 'stroke-width': 1 }),
      group(above ?? null),
      group(xMarks(frame, layout, palette, i === chart.panes.length - 1)),
    ]
  })
  return svgRoot(size, 'chart', [panes, group(bar), group(furniture(layout, palette))])
}
