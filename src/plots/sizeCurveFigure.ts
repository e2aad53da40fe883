// Loss against the size of a part: the optimum, the present size, and the band that meets the limit.

import type { SizeCurve } from '../analysis/sizing/sizeCurve'
import { baseLayout, type Figure, type PlotTheme } from './figure'
import type { CurveText } from './lossCurveFigure'

const SHOWN_DB = 6

export function sizeCurveFigure(
  curve: SizeCurve,
  limitDb: number,
  text: CurveText,
  theme: PlotTheme,
): Figure {
  const { bestDb, nowDb, readings } = curve
  const shown = (core: number) => (readings === null ? core * text.perCore : core)
  const number = (core: number) => String(Number(shown(core).toPrecision(readings === null ? 4 : 3)))
  const sized = (core: number) => `${number(core)} ${text.unit}`.trim()
  // A reading, such as a magnification, takes the place of the size that brings it about.
  const values = readings?.values ?? curve.values
  const now = readings?.now ?? curve.now
  const best = readings?.best ?? curve.best
  const [from, to] = readings?.band ?? [curve.band?.from ?? 0, curve.band?.to ?? 0]
  const band =
    curve.band === null ? null : { from: Math.min(from, to), to: Math.max(from, to), open: curve.band.open }
  const bandText =
    band === null
      ? `no size meets the limit of ${limitDb} dB`
      : `${number(band.from)} to ${sized(band.to)} meets the limit of ${limitDb} dB${band.open ? ', or beyond the curve' : ''}`
  const named = text.unit === '' ? text.name : `${text.name}, ${text.unit}`
  const base = baseLayout(theme, named, 'Nominal loss, dB')
  return {
    data: [
      {
        type: 'scatter',
        mode: 'lines',
        x: Array.from(values, shown),
        y: Array.from(curve.lossesDb),
        line: { color: theme.accent, width: 2 },
        showlegend: false,
        hovertemplate: `%{x:.3f} ${text.unit}: %{y:.2f} dB<extra></extra>`,
      },
      {
        type: 'scatter',
        mode: 'markers',
        name: 'now',
        x: [shown(now)],
        y: [nowDb],
        marker: { symbol: 'cross', size: 12, color: theme.accent },
        hoverinfo: 'skip',
      },
      {
        type: 'scatter',
        mode: 'markers',
        name: 'best',
        x: [shown(best)],
        y: [bestDb],
        marker: { symbol: 'diamond', size: 11, color: theme.ink },
        hoverinfo: 'skip',
      },
    ],
    layout: {
      ...base,
      yaxis: { ...(base.yaxis as object), range: [0, Math.max(limitDb * 1.2, bestDb + SHOWN_DB)] },
      showlegend: true,
      legend: { orientation: 'h', x: 0.5, xanchor: 'center', y: 1.02, yanchor: 'bottom' },
      shapes: [
        {
          type: 'line',
          xref: 'paper',
          x0: 0,
          x1: 1,
          y0: limitDb,
          y1: limitDb,
          line: { color: theme.ink, width: 1, dash: 'dash' },
        },
        ...(band === null
          ? []
          : [
              {
                type: 'rect',
                yref: 'paper',
                x0: shown(band.from),
                x1: shown(band.to),
                y0: 0,
                y1: 1,
                fillcolor: theme.accent,
                opacity: 0.12,
                line: { width: 0 },
              },
            ]),
      ],
    },
    sentence: `${text.name}: best at ${sized(best)} with ${bestDb.toFixed(2)} dB, now ${sized(now)} with ${nowDb.toFixed(2)} dB; ${bandText}.`,
    table: {
      head: [named, 'Nominal loss, dB'],
      rows: Array.from(values, (value, i) => [shown(value), curve.lossesDb[i] ?? 0]),
    },
  }
}
