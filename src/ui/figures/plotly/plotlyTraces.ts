// What is drawn of a series by the plotting library: its traces.

import type { Dash, Mark, Series } from '../../../figures/chart'
import { DASHES, type Palette, type Tone, WIDTH_PX } from '../../../figures/render/palette'
import { SCALES } from '../../../figures/render/scales'

export type Plain = Readonly<Record<string, unknown>>

const SYMBOLS: Readonly<Record<Mark, string>> = {
  circle: 'circle',
  square: 'square-open',
  diamond: 'diamond',
  cross: 'cross-thin-open',
  x: 'x-thin-open',
  triangle: 'triangle-up-open',
}
const MARK_PX = 8

/** The library's name of a dash. */
export const dashOf = (dash: Dash | undefined) => {
  const dashes = DASHES[dash ?? 'solid']
  return dashes === ''
    ? 'solid'
    : dashes
        .split(' ')
        .map((px) => `${px}px`)
        .join(',')
}

const numbers = (values: ArrayLike<number | null>) => Array.from(values)

export interface PaneNames {
  readonly y: string
  readonly right: string
}

/** Traces of a series; rules and boxes have none. */
export function tracesOf(series: Series, names: PaneNames, pane: number, palette: Palette): readonly Plain[] {
  const base = {
    xaxis: 'x',
    yaxis: 'right' in series && series.right ? names.right : names.y,
    hoverinfo: 'unread' in series && series.unread ? 'skip' : 'none',
    meta: pane,
    showlegend: false,
  }
  switch (series.kind) {
    case 'line':
      return [
        {
          ...base,
          type: 'scatter',
          mode: series.dots ? 'lines+markers' : 'lines',
          x: numbers(series.x),
          y: numbers(series.y),
          connectgaps: false,
          marker: { size: 4, color: palette[series.tone] },
          line: {
            color: palette[series.tone],
            width: WIDTH_PX[series.weight ?? 'strong'],
            dash: dashOf(series.dash),
            simplify: false,
          },
        },
      ]
    case 'points': {
      const { mark } = series
      const color = palette[series.tone]
      return [
        {
          ...base,
          type: 'scatter',
          mode: 'markers',
          cliponaxis: false,
          x: numbers(series.x),
          y: numbers(series.y),
          marker: {
            symbol: typeof mark === 'string' ? SYMBOLS[mark] : mark.map((each) => SYMBOLS[each]),
            size: series.sizePx ?? MARK_PX,
            color,
            line: { color, width: 1.5 },
          },
        },
      ]
    }
    case 'bars': {
      const [from, to] = [numbers(series.from), numbers(series.to)]
      const lengths = to.map((end, i) => (end ?? 0) - (from[i] ?? 0))
      if (lengths.every((length) => length === 0)) return flatBars(series, base, palette)
      const tones = series.tone
      const positions = numbers(series.at)
      return [
        {
          ...base,
          type: 'bar',
          orientation: series.lying ? 'h' : 'v',
          [series.lying ? 'y' : 'x']: positions,
          [series.lying ? 'x' : 'y']: lengths,
          base: from,
          width: series.thickness,
          cliponaxis: false,
          ...(series.labels !== undefined && {
            text: series.labels,
            textposition: 'outside',
            textfont: { color: palette.ink },
          }),
          marker: {
            color: typeof tones === 'string' ? palette[tones] : tones.map((tone: Tone) => palette[tone]),
            line: { color: palette.ink, width: 0.5 },
          },
        },
      ]
    }
    case 'band': {
      const edge = {
        ...base,
        type: 'scatter',
        mode: 'lines',
        x: numbers(series.x),
        line: { color: palette.quiet, width: 0.75, dash: 'dash', simplify: false },
      }
      return [
        { ...edge, y: numbers(series.low) },
        { ...edge, y: numbers(series.high), fill: 'tonexty', fillcolor: palette.band },
      ]
    }
    case 'whiskers': {
      const middle = numbers(series.low).map((low, i) => ((low ?? 0) + (series.high[i] ?? 0)) / 2)
      const half = middle.map((at, i) => (series.high[i] ?? 0) - at)
      return [
        {
          ...base,
          type: 'scatter',
          mode: 'markers',
          x: numbers(series.x),
          y: middle,
          marker: { size: 0.1, color: palette.ink },
          error_y: { type: 'data', array: half, color: palette.ink, thickness: 1.5, width: 3 },
        },
      ]
    }
    case 'map':
      return [
        {
          ...base,
          type: 'heatmap',
          x: numbers(series.x),
          y: numbers(series.y),
          z: series.rows.map((row) => Array.from(row, (value) => (Number.isNaN(value) ? null : value))),
          zmin: series.from,
          zmax: series.to,
          zsmooth: 'best',
          colorscale: SCALES[series.scale],
          showscale: false,
        },
      ]
    case 'contours':
      return series.levels.map(({ value, strong }) => ({
        ...base,
        type: 'contour',
        hoverinfo: 'skip',
        x: numbers(series.x),
        y: numbers(series.y),
        z: series.rows.map((row) => Array.from(row)),
        autocontour: false,
        contours: { start: value, end: value, size: 1, coloring: 'none' },
        line: {
          color: series.beside ? palette.over : palette.core,
          width: strong ? 1.75 : 0.75,
          dash: dashOf(series.dash),
        },
        showscale: false,
      }))
    case 'rule':
    case 'box':
      return []
  }
}

/** Bars without length are their lines, such as medians. */
function flatBars(
  series: Extract<Series, { kind: 'bars' }>,
  base: Plain,
  palette: Palette,
): readonly Plain[] {
  const [x, y]: (number | null)[][] = [[], []]
  const half = series.thickness / 2
  for (const [i, at] of Array.from(series.at).entries()) {
    const [along, across] = series.lying ? [y, x] : [x, y]
    along?.push(at - half, at + half, null)
    across?.push(series.to[i] ?? 0, series.to[i] ?? 0, null)
  }
  const tone = typeof series.tone === 'string' ? series.tone : 'accent'
  const labels = series.labels
  const lines = {
    ...base,
    type: 'scatter',
    mode: 'lines',
    x,
    y,
    line: { color: palette[tone], width: WIDTH_PX.strong },
  }
  if (labels === undefined) return [lines]
  return [
    {
      ...base,
      type: 'scatter',
      mode: 'text',
      x: numbers(series.to),
      y: numbers(series.at),
      text: labels.map((each) => ` ${each}`),
      textposition: 'middle right',
      cliponaxis: false,
      hoverinfo: 'skip',
    },
  ]
}
