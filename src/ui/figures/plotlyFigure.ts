// A chart as what the plotting library takes: traces, axes and shapes, placed by the same layout as the SVG.

import type { Axis, Chart, Dash, Mark, Pane, Series } from '../../figures/chart'
import type { ChartLayout } from '../../figures/render/layout'
import { DASHES, FONT_FAMILY, FONT_PX, type Palette, type Tone, WIDTH_PX } from '../../figures/render/palette'
import { SCALES } from '../../figures/render/scales'

type Plain = Readonly<Record<string, unknown>>

const SYMBOLS: Readonly<Record<Mark, string>> = {
  circle: 'circle',
  square: 'square-open',
  diamond: 'diamond',
  cross: 'cross-thin-open',
  x: 'x-thin-open',
  triangle: 'triangle-up-open',
}
const MARK_PX = 8

const dashOf = (dash: Dash | undefined) => {
  const dashes = DASHES[dash ?? 'solid']
  return dashes === ''
    ? 'solid'
    : dashes
        .split(' ')
        .map((px) => `${px}px`)
        .join(',')
}

const numbers = (values: ArrayLike<number | null>) => Array.from(values)

interface PaneNames {
  readonly y: string
  readonly right: string
}

const namesOf = (pane: number): PaneNames => ({
  y: pane === 0 ? 'y' : `y${2 * pane + 1}`,
  right: `y${2 * pane + 2}`,
})

function tracesOf(series: Series, names: PaneNames, pane: number, palette: Palette): readonly Plain[] {
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
      const places = numbers(series.at)
      return [
        {
          ...base,
          type: 'bar',
          orientation: series.lying ? 'h' : 'v',
          [series.lying ? 'y' : 'x']: places,
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

function shapesOf(series: Series, { y }: PaneNames, palette: Palette): readonly Plain[] {
  if (series.kind === 'rule') {
    const line = {
      color: palette.ink,
      width: WIDTH_PX[series.weight ?? 'normal'],
      dash: dashOf(series.dash ?? 'dash'),
    }
    return series.axis === 'x'
      ? [{ type: 'line', xref: 'x', x0: series.at, x1: series.at, yref: `${y} domain`, y0: 0, y1: 1, line }]
      : [{ type: 'line', xref: 'x domain', x0: 0, x1: 1, yref: y, y0: series.at, y1: series.at, line }]
  }
  if (series.kind !== 'box') return []
  const [x0, x1] = series.x ?? [0, 1]
  const [y0, y1] = series.y ?? [0, 1]
  return [
    {
      type: 'rect',
      xref: series.x === null ? 'x domain' : 'x',
      yref: series.y === null ? `${y} domain` : y,
      x0,
      x1,
      y0,
      y1,
      ...(series.filled
        ? { fillcolor: palette.accent, opacity: 0.12, line: { width: 0 } }
        : { line: { color: palette.ink, width: 1.5, dash: dashOf('dash') } }),
    },
  ]
}

function axisOf(axis: Axis, ticks: number, palette: Palette): Plain {
  return {
    range: [axis.from, axis.to],
    nticks: ticks + 1,
    gridcolor: palette.rule,
    zeroline: false,
    showline: true,
    mirror: true,
    linecolor: palette.quiet,
    tickcolor: palette.quiet,
    ticks: 'outside',
    ticklabeloverflow: 'allow', // the margins hold the labels; measuring each one takes half of the drawing time
    ...(axis.names !== undefined && { showgrid: false }),
  }
}

export interface PlotlyFigure {
  readonly data: readonly Plain[]
  readonly layout: Plain
}

export function plotlyFigure(chart: Chart, layout: ChartLayout, palette: Palette): PlotlyFigure {
  const { widthPx, heightPx, frames, xTicks, yTicks } = layout
  const [first, last] = [frames[0], frames.at(-1)]
  const margin = {
    l: first?.leftPx ?? 0,
    r: widthPx - (last?.rightPx ?? widthPx),
    t: first?.topPx ?? 0,
    b: heightPx - (last?.bottomPx ?? heightPx),
    pad: 0,
  }
  const insidePx = heightPx - margin.t - margin.b || 1
  const domain = (at: number) => {
    const frame = frames[at]
    const up = (px: number) => Math.min(1, Math.max(0, 1 - (px - margin.t) / insidePx))
    return [up(frame?.bottomPx ?? 0), up(frame?.topPx ?? 0)]
  }
  const isMap = chart.panes.some(({ series }) => series.some(({ kind }) => kind === 'map'))
  const axes = chart.panes.flatMap((pane: Pane, i): (readonly [string, Plain])[] => {
    const name = i === 0 ? 'yaxis' : `yaxis${2 * i + 1}`
    const found = yTicks[i] ?? []
    const words =
      pane.y.names === undefined
        ? {}
        : { tickvals: found.map(({ at }) => at), ticktext: found.map(({ words: text }) => text) }
    const own = {
      ...axisOf(pane.y, found.length, palette),
      domain: domain(i),
      anchor: 'x',
      ...(isMap && { showgrid: false }),
      ...words,
    }
    if (pane.right === undefined) return [[name, own]]
    const right = {
      ...axisOf(pane.right, 5, palette),
      showgrid: false,
      overlaying: namesOf(i).y,
      side: 'right',
      anchor: 'x',
    }
    return [
      [name, own],
      [`yaxis${2 * i + 2}`, right],
    ]
  })
  const xNames =
    chart.x.names === undefined
      ? {}
      : { tickvals: xTicks.map(({ at }) => at), ticktext: xTicks.map(({ words }) => words) }
  return {
    data: chart.panes.flatMap((pane, i) =>
      pane.series.flatMap((series) => tracesOf(series, namesOf(i), i, palette)),
    ),
    layout: {
      width: widthPx,
      height: heightPx,
      margin,
      paper_bgcolor: 'transparent',
      plot_bgcolor: 'transparent',
      font: { family: FONT_FAMILY, size: FONT_PX, color: palette.ink },
      showlegend: false,
      barmode: 'overlay',
      bargap: 0,
      hovermode: isMap ? 'closest' : 'x',
      hoverdistance: -1,
      dragmode: 'zoom',
      uirevision: chart.x.title,
      xaxis: {
        ...axisOf(chart.x, xTicks.length, palette),
        domain: [0, 1],
        anchor: namesOf(chart.panes.length - 1).y,
        showgrid: false,
        ...(!isMap && {
          showspikes: true,
          spikemode: 'across',
          spikesnap: 'cursor',
          spikecolor: palette.quiet,
          spikethickness: 1,
          spikedash: 'solid',
        }),
        ...xNames,
      },
      ...Object.fromEntries(axes),
      shapes: chart.panes.flatMap((pane, i) =>
        pane.series.flatMap((series) => shapesOf(series, namesOf(i), palette)),
      ),
    },
  }
}
