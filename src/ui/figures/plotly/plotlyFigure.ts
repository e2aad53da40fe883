// A chart as what the plotting library takes: traces, axes and shapes, placed by the same layout as the SVG.

import type { Axis, Chart, ChartPane, Series } from '../../../figures/chart'
import type { ChartLayout } from '../../../figures/render/layout'
import { FONT_FAMILY, FONT_PX, type Palette, WIDTH_PX } from '../../../figures/render/palette'
import { dashOf, type PaneNames, type Plain, tracesOf } from './plotlyTraces'

const namesOf = (pane: number): PaneNames => ({
  y: pane === 0 ? 'y' : `y${2 * pane + 1}`,
  right: `y${2 * pane + 2}`,
})

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

/** The frame of a pane that the axis below does not close; mirrored on all panes, it would carry its ticks into the titles. */
function frameOf(y: string, palette: Palette): Plain {
  return {
    type: 'rect',
    xref: 'x domain',
    yref: `${y} domain`,
    x0: 0,
    x1: 1,
    y0: 0,
    y1: 1,
    line: { color: palette.quiet, width: 1 },
  }
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

interface PlotlyFigure {
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
  const axes = chart.panes.flatMap((pane: ChartPane, i): (readonly [string, Plain])[] => {
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
      shapes: chart.panes.flatMap((pane, i) => [
        ...(i < chart.panes.length - 1 ? [frameOf(namesOf(i).y, palette)] : []),
        ...pane.series.flatMap((series) => shapesOf(series, namesOf(i), palette)),
      ]),
    },
  }
}
