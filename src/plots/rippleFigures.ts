// Fringes of a gap: the loss as the gap moves, and how the fringes fade as it opens.

import type { RippleCurve } from '../analysis/light/rippleCurve'
import { baseLayout, type Figure, type PlotTheme } from './figure'

const gapLine = (gapUm: number, theme: PlotTheme) => ({
  type: 'line',
  x0: gapUm,
  x1: gapUm,
  yref: 'paper',
  y0: 0,
  y1: 1,
  line: { color: theme.ink, width: 1, dash: 'dot' },
})

/** Loss against the gap over a few fringes, beside the single pass that the budget counts. */
export function rippleFigure(curve: RippleCurve, theme: PlotTheme): Figure {
  const x = Array.from(curve.gapsUm)
  const least = Math.min(...curve.lossesDb)
  const most = Math.max(...curve.lossesDb)
  return {
    data: [
      {
        type: 'scatter',
        mode: 'lines',
        name: 'single pass',
        x,
        y: Array.from(curve.singleDb),
        line: { color: theme.ink, width: 1, dash: 'dash' },
        hoverinfo: 'skip',
      },
      {
        type: 'scatter',
        mode: 'lines',
        name: 'with round trips',
        x,
        y: Array.from(curve.lossesDb),
        line: { color: theme.accent, width: 2 },
        hovertemplate: '%{x:.3f} µm: %{y:.2f} dB<extra></extra>',
      },
    ],
    layout: {
      ...baseLayout(theme, 'Gap, µm', 'Loss of the chain, dB'),
      showlegend: true,
      legend: { orientation: 'h', x: 0.5, xanchor: 'center', y: 1.02, yanchor: 'bottom' },
      shapes: [gapLine(curve.gapUm, theme)],
    },
    sentence: `Loss from ${least.toFixed(2)} to ${most.toFixed(2)} dB while the gap moves by ${((x.at(-1) ?? 0) - (x[0] ?? 0)).toFixed(2)} µm.`,
    table: {
      head: ['Gap, µm', 'With round trips, dB', 'Single pass, dB'],
      rows: x.map((gap, i) => [gap, curve.lossesDb[i] ?? 0, curve.singleDb[i] ?? 0]),
    },
  }
}

/** Peak to peak of the fringes against the gap. */
export function rippleFadeFigure(curve: RippleCurve, theme: PlotTheme): Figure {
  const x = Array.from(curve.fadeGapsUm)
  const end = x.at(-1) ?? 0
  return {
    data: [
      {
        type: 'scatter',
        mode: 'lines',
        x,
        y: Array.from(curve.fadeDb),
        line: { color: theme.accent, width: 2 },
        hovertemplate: '%{x:.1f} µm: %{y:.3f} dB<extra></extra>',
      },
    ],
    layout: {
      ...baseLayout(theme, 'Gap, µm', 'Ripple, peak to peak, dB'),
      shapes: [gapLine(curve.gapUm, theme)],
    },
    sentence: `The ripple falls from ${(curve.fadeDb[0] ?? 0).toFixed(2)} dB at contact to ${(curve.fadeDb.at(-1) ?? 0).toFixed(2)} dB at ${end.toFixed(0)} µm, as the light of every round trip spreads and walks off.`,
    table: {
      head: ['Gap, µm', 'Ripple, dB'],
      rows: x.map((gap, i) => [gap, curve.fadeDb[i] ?? 0]),
    },
  }
}
