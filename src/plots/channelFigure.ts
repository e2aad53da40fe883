// Loss of every channel of an array: bars of the median, lines from the 5 to the 95 % of drawn blocks, the limit.

import type { AimResult } from '../analysis/array/runArray'
import { baseLayout, type Figure, type PlotTheme } from './figure'

/** Losses beyond this are drawn as this, so that one dark channel does not flatten the rest. */
const CEILING_DB = 30

export function channelFigure(
  {
    channels,
    allChannelsYield,
    worstChannelYield,
  }: Pick<AimResult, 'channels' | 'allChannelsYield' | 'worstChannelYield'>,
  limitDb: number,
  theme: PlotTheme,
): Figure {
  const x = channels.map((each) => each.channel)
  const drawn = (loss: number) => Math.min(CEILING_DB, loss)
  const layout = baseLayout(theme, 'Channel', 'Loss, dB')
  return {
    data: [
      {
        type: 'bar',
        name: 'median, line from 5 to 95 %',
        x,
        y: channels.map((each) => drawn(each.p50Db)),
        marker: { color: theme.rule, line: { color: theme.ink, width: 0.5 } },
        error_y: {
          type: 'data',
          symmetric: false,
          array: channels.map((each) => drawn(each.p95Db) - drawn(each.p50Db)),
          arrayminus: channels.map((each) => drawn(each.p50Db) - drawn(each.p5Db)),
          color: theme.ink,
          thickness: 1.5,
        },
        hovertemplate: 'channel %{x}: median %{y:.2f} dB<extra></extra>',
      },
      {
        type: 'scatter',
        mode: 'markers',
        name: 'as drawn on paper',
        x,
        y: channels.map((each) => drawn(each.nominalDb)),
        marker: { symbol: 'diamond', size: 8, color: theme.accent },
        hovertemplate: 'channel %{x}: %{y:.2f} dB on paper<extra></extra>',
      },
    ],
    layout: {
      ...layout,
      xaxis: { ...(layout.xaxis as object), dtick: channels.length > 24 ? 4 : 1 },
      showlegend: true,
      legend: { orientation: 'h', x: 0.5, xanchor: 'center', y: 1.02, yanchor: 'bottom' },
      shapes: [
        {
          type: 'line',
          x0: 0,
          x1: 1,
          xref: 'paper',
          y0: limitDb,
          y1: limitDb,
          line: { color: theme.ink, width: 2 },
        },
      ],
      annotations: [
        { x: 1, xref: 'paper', y: limitDb, text: 'limit', showarrow: false, xanchor: 'right', yshift: 10 },
      ],
    },
    sentence: `In ${(100 * allChannelsYield).toFixed(1)} % of blocks every channel stays within ${limitDb} dB; the worst channel does in ${(100 * worstChannelYield).toFixed(1)} %.`,
    table: {
      head: ['Channel', 'On paper, dB', '5 %, dB', 'Median, dB', '95 %, dB', 'Within the limit, %'],
      rows: channels.map((each) => [
        each.channel,
        each.nominalDb,
        each.p5Db,
        each.p50Db,
        each.p95Db,
        100 * each.yield,
      ]),
    },
  }
}
