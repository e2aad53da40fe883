// How the losses of drawn assemblies spread: bars of their shares, the cumulative curve, limit and percentiles.

import { countText } from '../analysis/results/countText'
import type { YieldResult } from '../analysis/yield/yieldResult'
import { baseLayout, type Figure, type PlotTheme } from './figure'

export type LossSpread = Pick<
  YieldResult,
  'histogram' | 'percentiles' | 'limitDb' | 'samples' | 'yield' | 'p50Db' | 'p95Db' | 'p99Db'
>

const db = (loss: number) => (Number.isFinite(loss) ? `${loss.toFixed(2)} dB` : 'more than 64 dB')

export function yieldFigure(spread: LossSpread, theme: PlotTheme): Figure {
  const { fromDb, stepDb, counts } = spread.histogram
  const edge = (i: number) => Number((fromDb + i * stepDb).toPrecision(12))
  const percent = (count: number) => (100 * count) / spread.samples
  let below = 0
  const cumulative = counts.map((count) => {
    below += count
    return percent(below)
  })
  const layout = baseLayout(theme, 'Loss of the chain, dB', 'Share of assemblies in a class, %')
  const marked = spread.percentiles.filter((each) => Number.isFinite(each.lossDb))
  const vertical = (x: number, dash: string, width: number, color: string) => ({
    type: 'line',
    x0: x,
    x1: x,
    y0: 0,
    y1: 1,
    yref: 'paper',
    line: { color, dash, width },
  })
  const label = (x: number, text: string, y: number) => ({
    x,
    y,
    yref: 'paper',
    text,
    showarrow: false,
    xanchor: 'left',
    xshift: 4,
  })
  return {
    data: [
      {
        type: 'bar',
        name: 'share of a class',
        x: counts.map((_, i) => edge(i) + stepDb / 2),
        y: counts.map(percent),
        width: stepDb,
        marker: { color: theme.rule, line: { color: theme.ink, width: 0.5 } },
        hovertemplate: '%{x:.3f} dB: %{y:.2f} %<extra></extra>',
      },
      {
        type: 'scatter',
        mode: 'lines',
        name: 'share at or below',
        x: [fromDb, ...counts.map((_, i) => edge(i + 1))],
        y: [0, ...cumulative],
        yaxis: 'y2',
        line: { color: theme.accent, width: 2 },
        hovertemplate: 'at or below %{x:.3f} dB: %{y:.2f} %<extra></extra>',
      },
    ],
    layout: {
      ...layout,
      bargap: 0,
      showlegend: true,
      legend: { orientation: 'h', x: 0.5, xanchor: 'center', y: 1.02, yanchor: 'bottom' },
      margin: { l: 56, r: 60, t: 36, b: 48 },
      yaxis2: {
        title: { text: 'Share at or below, %', standoff: 8 },
        overlaying: 'y',
        side: 'right',
        range: [0, 104],
        tickmode: 'array',
        tickvals: [0, 25, 50, 75, 100],
        showgrid: false,
        linecolor: theme.ink,
        ticks: 'outside',
        automargin: true,
      },
      shapes: [
        vertical(spread.limitDb, 'solid', 2, theme.ink),
        ...marked.map((each) => vertical(each.lossDb, 'dot', 1.5, theme.ink)),
      ],
      annotations: [
        label(spread.limitDb, 'limit', 0.62),
        ...marked.map((each, i) =>
          label(each.lossDb, `P${Number((100 * each.share).toPrecision(6))}`, 0.98 - 0.09 * i),
        ),
      ],
    },
    sentence: `${(100 * spread.yield).toFixed(2)} % of ${countText(spread.samples)} assemblies stay within ${spread.limitDb} dB; half within ${db(spread.p50Db)}, 95 % within ${db(spread.p95Db)}, 99 % within ${db(spread.p99Db)}.`,
    table: {
      head: ['From, dB', 'To, dB', 'Assemblies', 'At or below, %'],
      rows: counts.map((count, i) => [edge(i), edge(i + 1), count, cumulative[i] ?? 0]),
    },
  }
}
