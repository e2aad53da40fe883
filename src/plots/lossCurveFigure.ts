// Loss against one displacement, with the places where it has grown by half, one and three decibels.

import type { AxisWindow, LossCurve } from '../analysis/tolerance/toleranceCurve'
import { baseLayout, type Figure, type PlotTheme } from './figure'

export interface CurveText {
  readonly name: string
  readonly unit: string
  readonly perCore: number
}

const MARKERS = ['circle', 'square', 'diamond'] as const

/**
 * The figure of one axis; losses are totals of the joint in dB. `beside` is the same by Gaussians, where the curve is by
 * fields.
 */
export function lossCurveFigure(
  curve: LossCurve,
  window: AxisWindow,
  workingLossDb: number,
  text: CurveText,
  theme: PlotTheme,
  beside: LossCurve | null = null,
): Figure {
  const shown = (core: number) => core * text.perCore
  const marks = window.marks.map((mark, i) => {
    const places = [
      mark.below === null ? null : window.at - mark.below,
      mark.above === null ? null : window.at + mark.above,
    ]
    const x = places.filter((place) => place !== null).map(shown)
    return {
      type: 'scatter',
      mode: 'markers',
      name: `+${mark.excessDb} dB`,
      x,
      y: x.map(() => workingLossDb + mark.excessDb),
      marker: { symbol: MARKERS[i], size: 9, color: theme.ink },
      showlegend: true,
      hoverinfo: 'skip',
      cliponaxis: false,
    }
  })
  const oneDb = window.marks.find((mark) => mark.excessDb === 1)
  const sides = [
    oneDb?.below == null ? [] : `${shown(oneDb.below).toFixed(2)} ${text.unit} below`,
    oneDb?.above == null ? [] : `${shown(oneDb.above).toFixed(2)} ${text.unit} above`,
  ].flat()
  const room = sides.length === 0 ? 'never 1 dB more on this axis' : `1 dB more at ${sides.join(' and ')} it`
  return {
    data: [
      ...(beside === null ? [] : [besideTrace(beside, shown, theme)]),
      {
        type: 'scatter',
        mode: 'lines',
        x: curve.positions.map(shown),
        y: curve.lossesDb,
        line: { color: theme.accent, width: 2 },
        name: 'fields',
        showlegend: beside !== null,
        hovertemplate: `%{x:.2f} ${text.unit}: %{y:.2f} dB<extra></extra>`,
      },
      {
        type: 'scatter',
        mode: 'markers',
        x: [shown(window.at)],
        y: [workingLossDb],
        marker: { symbol: 'cross', size: 12, color: theme.accent },
        name: 'working point',
        hoverinfo: 'skip',
      },
      ...marks,
    ],
    layout: {
      ...baseLayout(theme, `${text.name}, ${text.unit}`, 'Loss of the joint, dB'),
      showlegend: true,
      legend: { orientation: 'h', x: 0.5, xanchor: 'center', y: 1.02, yanchor: 'bottom' },
    },
    sentence: `${text.name}: ${workingLossDb.toFixed(2)} dB at the working point; ${room}.`,
    table: {
      head: [`${text.name}, ${text.unit}`, 'Loss, dB'],
      rows: Array.from(curve.positions, (position, i) => [shown(position), curve.lossesDb[i] ?? 0]),
    },
  }
}

function besideTrace(curve: LossCurve, shown: (core: number) => number, theme: PlotTheme) {
  return {
    type: 'scatter',
    mode: 'lines',
    x: curve.positions.map(shown),
    y: curve.lossesDb,
    line: { color: theme.ink, width: 1, dash: 'dot' },
    name: 'Gaussians',
    showlegend: true,
    hoverinfo: 'skip',
  }
}
