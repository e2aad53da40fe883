// Measured points over a coordinate: as they were read, and with what was fitted to them and what is left over.

import { baseLayout, type Figure, type PlotTheme } from './figure'

export interface PlottedSignal {
  readonly label: string
  readonly x: ArrayLike<number>
  readonly y: ArrayLike<number>
}

export interface AxisTitles {
  readonly x: string
  readonly y: string
}

const SYMBOLS = ['circle', 'x-thin-open', 'square-open', 'triangle-up-open', 'diamond-open'] as const
/** Plain and grey enough for paper; the symbol tells signals apart, not the colour. */
const FAINT = 0.75

const markerOf = (i: number, theme: PlotTheme) => ({
  symbol: SYMBOLS[i % SYMBOLS.length],
  size: i % SYMBOLS.length === 1 ? 7 : 5,
  opacity: FAINT,
  color: theme.ink,
  line: { width: 1.2, color: theme.ink },
})

function rowsOf(signals: readonly PlottedSignal[]): readonly (readonly (string | number)[])[] {
  return signals.flatMap(({ label, x, y }) => Array.from(x, (at, i) => [label, at, y[i] ?? 0]))
}

/** The readings alone. */
export function readingsFigure(
  signals: readonly PlottedSignal[],
  titles: AxisTitles,
  sentence: string,
  theme: PlotTheme,
): Figure {
  return {
    data: signals.map((signal, i) => ({
      type: 'scatter',
      mode: 'markers',
      name: signal.label,
      x: Array.from(signal.x),
      y: Array.from(signal.y),
      marker: markerOf(i, theme),
    })),
    layout: {
      ...baseLayout(theme, titles.x, titles.y),
      showlegend: signals.length > 1,
      legend: { orientation: 'h', x: 0, y: 1.02, yanchor: 'bottom' },
    },
    sentence,
    table: { head: ['Signal', titles.x, titles.y], rows: rowsOf(signals) },
  }
}

export interface FittedSignal extends PlottedSignal {
  readonly fitted: ArrayLike<number>
  readonly residual: ArrayLike<number>
}

/** Points with their fit above, what is left over below, on one coordinate. */
export function fitFigure(
  signal: FittedSignal,
  titles: AxisTitles & { readonly residual: string },
  sentence: string,
  theme: PlotTheme,
): Figure {
  const layout = baseLayout(theme, titles.x, titles.y)
  const axis = { ...(layout.yaxis as object), domain: [0.34, 1], automargin: true }
  const x = Array.from(signal.x)
  return {
    data: [
      {
        type: 'scatter',
        mode: 'markers',
        name: 'measured',
        x,
        y: Array.from(signal.y),
        marker: markerOf(0, theme),
      },
      {
        type: 'scatter',
        mode: 'lines',
        name: 'fitted',
        x,
        y: Array.from(signal.fitted),
        line: { color: theme.accent, width: 2 },
      },
      {
        type: 'scatter',
        mode: 'markers',
        name: 'measured less fitted',
        x,
        y: Array.from(signal.residual),
        yaxis: 'y2',
        marker: { ...markerOf(0, theme), size: 4 },
        showlegend: false,
      },
    ],
    layout: {
      ...layout,
      xaxis: { ...(layout.xaxis as object), anchor: 'y2' },
      yaxis: axis,
      yaxis2: {
        ...axis,
        domain: [0, 0.24],
        title: { text: titles.residual, standoff: 8 },
        nticks: 4,
        exponentformat: 'e',
        zeroline: true,
        zerolinecolor: theme.ink,
      },
      showlegend: true,
      legend: { orientation: 'h', x: 0, y: 1.02, yanchor: 'bottom' },
    },
    sentence,
    table: {
      head: [titles.x, 'Measured', 'Fitted', titles.residual],
      rows: x.map((at, i) => [at, signal.y[i] ?? 0, signal.fitted[i] ?? 0, signal.residual[i] ?? 0]),
    },
  }
}

/** Measured points beside one or two lines, such as a straight line through losses or a predicted curve. */
export function pointsAndLinesFigure(
  points: PlottedSignal & { readonly flagged?: readonly boolean[] },
  lines: readonly PlottedSignal[],
  titles: AxisTitles,
  sentence: string,
  theme: PlotTheme,
): Figure {
  const flagged = points.flagged ?? []
  const DASHES = ['solid', 'dash'] as const
  return {
    data: [
      ...lines.map((line, i) => ({
        type: 'scatter',
        mode: 'lines',
        name: line.label,
        x: Array.from(line.x),
        y: Array.from(line.y),
        line: { color: i === 0 ? theme.accent : theme.ink, width: 2, dash: DASHES[i % DASHES.length] },
      })),
      {
        type: 'scatter',
        mode: 'markers',
        name: points.label,
        x: Array.from(points.x),
        y: Array.from(points.y),
        marker: {
          ...markerOf(0, theme),
          size: 7,
          symbol: Array.from(points.x, (_, i) => (flagged[i] ? 'diamond-open' : 'circle')),
        },
      },
    ],
    layout: {
      ...baseLayout(theme, titles.x, titles.y),
      showlegend: true,
      legend: { orientation: 'h', x: 0, y: 1.02, yanchor: 'bottom' },
    },
    sentence,
    table: {
      head: ['Series', titles.x, titles.y],
      rows: [...rowsOf(lines), ...rowsOf([points])],
    },
  }
}
