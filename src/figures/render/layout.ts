// Where everything of a chart lies, in px. Titles and names are outside the frames in rows of their own, so that no word
// can lie over a curve or another word. Both renderers place by it.

import {
  type Axis,
  axisTitle,
  type Chart,
  type ChartPane,
  legendSeries,
  type MapSeries,
  type RuleSeries,
} from '../chart'
import { FONT_PX } from './palette'
import { fittedText, textWidthPx } from './textWidth'
import { axisTicks, spacedTicks, type Tick } from './ticks'

export interface Size {
  readonly widthPx: number
  readonly heightPx: number
}

interface PlacedText {
  readonly xPx: number
  /** Of the baseline. */
  readonly yPx: number
  readonly words: string
  readonly anchor: 'start' | 'middle' | 'end'
  readonly quiet?: boolean
}

export interface Frame {
  readonly leftPx: number
  readonly rightPx: number
  readonly topPx: number
  readonly bottomPx: number
  readonly x: (value: number) => number
  readonly y: (value: number) => number
  /** Along the right-hand axis; as `y` without one. */
  readonly right: (value: number) => number
}

interface PlacedLegend {
  readonly xPx: number
  readonly yPx: number
  readonly series: ReturnType<typeof legendSeries>[number]
}

export interface ChartLayout extends Size {
  readonly frames: readonly Frame[]
  readonly xTicks: readonly Tick[]
  readonly yTicks: readonly (readonly Tick[])[]
  readonly texts: readonly PlacedText[]
  readonly legend: readonly PlacedLegend[]
  readonly colourBar: { readonly map: MapSeries; readonly xPx: number; readonly frame: Frame } | null
}

export const SWATCH_PX = 22
export const BAR_PX = 12
const ROW_PX = 17
/** A title right above a frame is clear of a tick at the frame's upper edge. */
const TITLE_PX = 21
const EDGE_PX = 3
const GAP_PX = 8
/** Between the numbers of an axis and its title. */
const AXIS_TITLE_GAP_PX = 3
const TICK_PX = 5
const LEGEND_GAP_PX = 18
const PANE_GAP_PX = 14
const PER_X_TICK_PX = 54
const PER_Y_TICK_PX = 38
const LEAST_FRAME_PX = 24

const rulesOf = ({ series }: ChartPane, axis: 'x' | 'y') =>
  series.filter(
    (each): each is RuleSeries => each.kind === 'rule' && each.axis === axis && each.label !== undefined,
  )

const mapOf = ({ panes }: Chart): MapSeries | null =>
  panes.flatMap(({ series }) => series).find((each): each is MapSeries => each.kind === 'map') ?? null

const widest = (words: readonly string[]) => Math.max(0, ...words.map((each) => textWidthPx(each)))

function mapping(axis: Axis, startPx: number, endPx: number): (value: number) => number {
  const perUnit = (endPx - startPx) / (axis.to - axis.from || 1)
  return (value) => startPx + (value - axis.from) * perUnit
}

/** Names of upright rules in rows above the frame; no two of a row touch. */
function ruleRows(
  rules: readonly RuleSeries[],
  x: (value: number) => number,
  leftPx: number,
  widthPx: number,
) {
  const ends: number[] = []
  return rules
    .map((rule) => ({ rule, half: textWidthPx(rule.label ?? '') / 2 }))
    .map(({ rule, half }) => ({
      words: rule.label ?? '',
      half,
      atPx: Math.min(widthPx - EDGE_PX - half, Math.max(leftPx + half, x(rule.at))),
    }))
    .toSorted((a, b) => a.atPx - b.atPx)
    .map((placed) => {
      const free = ends.findIndex((end) => end + GAP_PX <= placed.atPx - placed.half)
      const row = free === -1 ? ends.length : free
      ends[row] = placed.atPx + placed.half
      return { ...placed, row }
    })
}

/** The entries of the legend in rows that fit the width. */
function legendRows(chart: Chart, fromPx: number, toPx: number) {
  let [atPx, row] = [fromPx, 0]
  return legendSeries(chart).map((series) => {
    const need = SWATCH_PX + 6 + textWidthPx(series.name)
    if (atPx > fromPx && atPx + need > toPx) {
      atPx = fromPx
      row += 1
    }
    const placed = { series, xPx: atPx, row }
    atPx += need + LEGEND_GAP_PX
    return { ...placed, endPx: atPx - LEGEND_GAP_PX }
  })
}

/** Names of level rules to the right of the frame, pushed apart where they are near each other. */
function levelTexts(rules: readonly RuleSeries[], frame: Frame): readonly PlacedText[] {
  let lastPx = Number.NEGATIVE_INFINITY
  return rules
    .toSorted((a, b) => frame.y(a.at) - frame.y(b.at))
    .map((rule) => {
      const yPx = Math.max(frame.y(rule.at) + 4, lastPx + FONT_PX + 1)
      lastPx = yPx
      return { xPx: frame.rightPx + 6, yPx, words: rule.label ?? '', anchor: 'start' as const }
    })
}

/** Ticks decide the margins and margins the ticks: laid out again until the margin holds every tick's words. */
const PASSES = 3

export function chartLayout(chart: Chart, size: Size): ChartLayout {
  let tickWords: readonly string[] = []
  let layout = laidOut(chart, size, tickWords)
  for (let pass = 1; pass < PASSES; pass++) {
    const found = layout.yTicks.flat().map(({ words }) => words)
    if (found.every((words) => tickWords.includes(words))) break
    tickWords = [...tickWords, ...found]
    layout = laidOut(chart, size, tickWords)
  }
  return layout
}

function laidOut(chart: Chart, { widthPx, heightPx }: Size, tickWords: readonly string[]): ChartLayout {
  const { x, panes } = chart
  const map = mapOf(chart)
  const rightNames = panes.flatMap((pane) => rulesOf(pane, 'y').map(({ label }) => label ?? ''))
  const rightTicks = panes.flatMap(({ right }) =>
    right === undefined ? [] : axisTicks(right, 200, PER_Y_TICK_PX),
  )
  const shares = panes.reduce((sum, { share }) => sum + share, 0)
  const guessPx = Math.max(LEAST_FRAME_PX, heightPx - 90)
  const mostNamePx = 0.5 * widthPx
  const leftPx = EDGE_PX + Math.min(mostNamePx, widest(tickWords)) + TICK_PX + 4
  const lastXPx = x.names === undefined ? 14 : EDGE_PX
  const marginPx = Math.max(
    lastXPx,
    rightTicks.length === 0 ? 0 : widest(rightTicks.map(({ words }) => words)) + TICK_PX + 6,
    rightNames.length === 0 ? 0 : widest(rightNames) + 10,
    map === null
      ? 0
      : BAR_PX +
          GAP_PX +
          TICK_PX +
          widest(axisTicks(mapAxis(map), guessPx, PER_Y_TICK_PX).map((t) => t.words)) +
          10,
  )
  const fullRightPx = Math.max(leftPx + LEAST_FRAME_PX, widthPx - marginPx)
  const xPx = mapping(x, leftPx, fullRightPx)

  // Legend: next to the first title where both fit, else in rows of its own.
  const [first] = panes
  const titlePx = first === undefined ? 0 : textWidthPx(axisTitle(first.y))
  const hasTitle = (pane: ChartPane) => axisTitle(pane.y) !== '' || pane.right !== undefined
  const inLine = legendRows(chart, 0, Number.POSITIVE_INFINITY)
  const linePx = inLine.at(-1)?.endPx ?? 0
  const rightTitlePx = first?.right === undefined ? 0 : textWidthPx(axisTitle(first.right)) + LEGEND_GAP_PX
  const isBeside = linePx > 0 && titlePx + LEGEND_GAP_PX + linePx + rightTitlePx + EDGE_PX <= widthPx
  const placed = isBeside
    ? inLine.map((each) => ({ ...each, xPx: each.xPx + widthPx - rightTitlePx - EDGE_PX - linePx }))
    : legendRows(chart, EDGE_PX, widthPx - EDGE_PX)
  const legendLines = placed.length === 0 ? 0 : (placed.at(-1)?.row ?? 0) + 1
  const besideRow = isBeside && (first === undefined || !hasTitle(first)) ? 1 : 0
  const headPx = EDGE_PX + (isBeside ? besideRow * ROW_PX : legendLines * ROW_PX)

  const ruled = panes.map((pane) => ruleRows(rulesOf(pane, 'x'), xPx, leftPx, widthPx))
  const overheadPx = panes.map((pane, i) => {
    const rows = Math.max(-1, ...(ruled[i] ?? []).map(({ row }) => row)) + 1
    if (!hasTitle(pane)) return 6 + rows * ROW_PX
    return rows === 0 ? TITLE_PX : (rows + 1) * ROW_PX
  })
  const footPx = TICK_PX + ROW_PX + (axisTitle(x) === '' ? 0 : ROW_PX + AXIS_TITLE_GAP_PX) + 2
  const freePx =
    heightPx -
    headPx -
    footPx -
    overheadPx.reduce((sum, px) => sum + px, 0) -
    PANE_GAP_PX * (panes.length - 1)

  const texts: PlacedText[] = []
  const frames: Frame[] = []
  let topPx = headPx
  for (const [i, pane] of panes.entries()) {
    const titleYPx = topPx + FONT_PX
    if (axisTitle(pane.y) !== '') {
      texts.push({ xPx: EDGE_PX, yPx: titleYPx, words: axisTitle(pane.y), anchor: 'start', quiet: true })
    }
    if (pane.right !== undefined) {
      texts.push({
        xPx: widthPx - EDGE_PX,
        yPx: titleYPx,
        words: axisTitle(pane.right),
        anchor: 'end',
        quiet: true,
      })
    }
    topPx += overheadPx[i] ?? 0
    for (const { atPx, words, row } of ruled[i] ?? []) {
      texts.push({ xPx: atPx, yPx: topPx - 5 - row * ROW_PX, words, anchor: 'middle' })
    }
    const wholePx = Math.max(LEAST_FRAME_PX, (freePx * pane.share) / shares)
    const frame = frameOf(chart, pane, { leftPx, rightPx: fullRightPx, topPx, bottomPx: topPx + wholePx })
    frames.push(frame)
    texts.push(...levelTexts(rulesOf(pane, 'y'), frame))
    topPx = frame.bottomPx + PANE_GAP_PX
  }
  const last = frames.at(-1)
  const xTicks =
    last === undefined ? [] : spacedTicks(axisTicks(x, last.rightPx - last.leftPx, PER_X_TICK_PX), last.x)
  if (last !== undefined && axisTitle(x) !== '') {
    const half = textWidthPx(axisTitle(x)) / 2
    const middle = (last.leftPx + last.rightPx) / 2
    texts.push({
      xPx: Math.min(widthPx - EDGE_PX - half, Math.max(EDGE_PX + half, middle)),
      yPx: last.bottomPx + TICK_PX + 2 * ROW_PX + AXIS_TITLE_GAP_PX - 3,
      words: axisTitle(x),
      anchor: 'middle',
      quiet: true,
    })
  }
  return {
    widthPx,
    heightPx,
    frames,
    xTicks,
    yTicks: panes.map(({ y }, i) => {
      const frame = frames[i]
      const found = axisTicks(y, frame === undefined ? 0 : frame.bottomPx - frame.topPx, PER_Y_TICK_PX)
      return found.map(({ at, words }) => ({ at, words: fittedText(words, mostNamePx) }))
    }),
    texts,
    legend: placed.map(({ series, xPx: at, row }) => ({
      series,
      xPx: at,
      yPx: EDGE_PX + FONT_PX + (isBeside ? 0 : row * ROW_PX),
    })),
    colourBar: map === null || last === undefined ? null : { map, xPx: last.rightPx + GAP_PX, frame: last },
  }
}

/** The axis of a colour scale. */
export function mapAxis({ from, to, title, unit }: MapSeries): Axis {
  return { title, unit, from, to }
}

/** Equal axes hold as far as the shorter side can still be seen: an image of one line is stretched. */
function frameOf(
  chart: Chart,
  pane: ChartPane,
  box: {
    readonly leftPx: number
    readonly rightPx: number
    readonly topPx: number
    readonly bottomPx: number
  },
): Frame {
  let { rightPx, bottomPx } = box
  if (chart.equalAxes) {
    const [spanX, spanY] = [Math.abs(chart.x.to - chart.x.from), Math.abs(pane.y.to - pane.y.from)]
    const perUnit = Math.min((rightPx - box.leftPx) / spanX, (bottomPx - box.topPx) / spanY)
    rightPx = box.leftPx + Math.max(LEAST_FRAME_PX, spanX * perUnit)
    bottomPx = box.topPx + Math.max(LEAST_FRAME_PX, spanY * perUnit)
  }
  const y = mapping(pane.y, bottomPx, box.topPx)
  return {
    ...box,
    rightPx,
    bottomPx,
    x: mapping(chart.x, box.leftPx, rightPx),
    y,
    right: pane.right === undefined ? y : mapping(pane.right, bottomPx, box.topPx),
  }
}
