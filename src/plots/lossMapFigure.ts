// Loss over two displacements as labelled contours, with the working point and what the station can hold.

import type { LossMap } from '../analysis/toleranceMap'
import { contourLabels } from './contourLabels'
import { baseLayout, type Figure, type PlotTheme } from './figure'
import type { CurveText } from './lossCurveFigure'

/** Cividis, thinned: J. R. Nunez et al., PLoS ONE 13 (2018) e0199239. */
const CIVIDIS = [
  [0, '#fee838'],
  [0.25, '#bcaf6f'],
  [0.5, '#7c7b78'],
  [0.75, '#414d6b'],
  [1, '#00224e'],
] as const

/** Marks lie on the bright part of the scale, in either theme. */
const MARK_COLOUR = '#14171a'

const CONTOUR_STEP_DB = 0.5
const SHOWN_ABOVE_LEAST_DB = 5

export interface MapAxisText extends CurveText {
  /** The least value that the axis can have, core unit. */
  readonly least?: number
}

/** What the station holds, core units: half the box on either side of the working point. */
export interface MapBox {
  readonly halfX: number
  readonly halfY: number
}

/** From and to on the screen; an axis that cannot go below a least value ends there. */
function boxSide(at: number, half: number, text: MapAxisText): readonly [number, number] {
  return [
    Math.max(text.least ?? Number.NEGATIVE_INFINITY, at - half) * text.perCore,
    (at + half) * text.perCore,
  ]
}

/**
 * The figure of a map; losses beyond 5 dB above the least one share the last colour. `beside` is the same by Gaussians,
 * whose contours are drawn thin over a map by fields.
 */
export function lossMapFigure(
  map: LossMap,
  x: MapAxisText,
  y: MapAxisText,
  box: MapBox,
  theme: PlotTheme,
  beside: LossMap | null = null,
): Figure {
  const start = Math.ceil(map.leastDb / CONTOUR_STEP_DB) * CONTOUR_STEP_DB
  const levels = Array.from({ length: SHOWN_ABOVE_LEAST_DB }, (_, i) => Math.ceil(map.leastDb) + i)
  const labels = contourLabels(map, levels)
  const at = { x: map.atX * x.perCore, y: map.atY * y.perCore }
  const [left, right] = boxSide(map.atX, box.halfX, x)
  const [bottom, top] = boxSide(map.atY, box.halfY, y)
  return {
    data: [
      {
        type: 'contour',
        x: map.x.map((value) => value * x.perCore),
        y: map.y.map((value) => value * y.perCore),
        z: map.rowsDb,
        colorscale: CIVIDIS,
        autocontour: false,
        contours: { start, end: start + SHOWN_ABOVE_LEAST_DB, size: CONTOUR_STEP_DB },
        showscale: false,
        hovertemplate: `${x.name} %{x:.2f} ${x.unit}, ${y.name} %{y:.2f} ${y.unit}: %{z:.2f} dB<extra></extra>`,
      },
      ...(beside === null ? [] : [besideTrace(beside, x, y)]),
      {
        type: 'scatter',
        mode: 'text',
        x: labels.map((label) => label.x * x.perCore),
        y: labels.map((label) => label.y * y.perCore),
        text: labels.map((label) => `${label.levelDb} dB`),
        textfont: { size: 12, color: MARK_COLOUR },
        hoverinfo: 'skip',
      },
      {
        type: 'scatter',
        mode: 'lines',
        x: [left, right, right, left, left],
        y: [bottom, bottom, top, top, bottom],
        line: { color: MARK_COLOUR, width: 2, dash: 'dash' },
        hoverinfo: 'skip',
      },
      {
        type: 'scatter',
        mode: 'markers',
        x: [at.x],
        y: [at.y],
        marker: { symbol: 'cross', size: 12, color: MARK_COLOUR, line: { color: '#ffffff', width: 1 } },
        hoverinfo: 'skip',
      },
    ],
    layout: baseLayout(theme, `${x.name}, ${x.unit}`, `${y.name}, ${y.unit}`),
    sentence: `Least loss on the map ${map.leastDb.toFixed(2)} dB, at the working point ${map.hereDb.toFixed(2)} dB; the dashed box is what the station holds${beside === null ? '' : '; thin dotted lines are the whole decibels by Gaussians'}.`,
    table: {
      head: [`${x.name}, ${x.unit}`, `${y.name}, ${y.unit}`, 'Loss, dB'],
      rows: map.rowsDb.flatMap((row, j) =>
        Array.from(row, (loss, i) => [(map.x[i] ?? 0) * x.perCore, (map.y[j] ?? 0) * y.perCore, loss]),
      ),
    },
  }
}

/** Contours at whole decibels, lines only. */
function besideTrace(map: LossMap, x: MapAxisText, y: MapAxisText) {
  const start = Math.ceil(map.leastDb)
  return {
    type: 'contour',
    x: map.x.map((value) => value * x.perCore),
    y: map.y.map((value) => value * y.perCore),
    z: map.rowsDb,
    autocontour: false,
    contours: { coloring: 'none', start, end: start + SHOWN_ABOVE_LEAST_DB - 1, size: 1 },
    line: { color: '#ffffff', width: 1, dash: 'dot' },
    showscale: false,
    hoverinfo: 'skip',
  }
}
