// Loss over temperature with the band of drawn assemblies, the temperature of assembly and the limit.

import type { TemperatureSweep } from '../analysis/temperature/temperatureSweep'
import { baseLayout, type Figure, type PlotTheme } from './figure'

export function temperatureFigure(sweep: TemperatureSweep, limitDb: number, theme: PlotTheme): Figure {
  const x = sweep.temperaturesC
  const line = (axis: 'x' | 'y', at: number) => ({
    type: 'line',
    [`${axis}0`]: at,
    [`${axis}1`]: at,
    [axis === 'x' ? 'y0' : 'x0']: 0,
    [axis === 'x' ? 'y1' : 'x1']: 1,
    [axis === 'x' ? 'yref' : 'xref']: 'paper',
    line: { color: theme.ink, width: axis === 'x' ? 1 : 2, dash: axis === 'x' ? 'dot' : 'solid' },
  })
  const edge = {
    type: 'scatter',
    mode: 'lines',
    x,
    hoverinfo: 'skip',
    line: { color: theme.ink, width: 0.75, dash: 'dash' },
  }
  return {
    data: [
      { ...edge, y: sweep.bandLowDb, showlegend: false },
      {
        ...edge,
        y: sweep.bandHighDb,
        name: '5 to 95 % of assemblies',
        fill: 'tonexty',
        fillcolor: theme.rule,
      },
      {
        type: 'scatter',
        mode: 'lines',
        name: 'nominal',
        x,
        y: sweep.lossesDb,
        line: { color: theme.accent, width: 2 },
        hovertemplate: '%{x:.1f} °C: %{y:.2f} dB<extra></extra>',
      },
    ],
    layout: {
      ...baseLayout(theme, 'Temperature, °C', 'Loss of the chain, dB'),
      showlegend: true,
      legend: { orientation: 'h', x: 0.5, xanchor: 'center', y: 1.02, yanchor: 'bottom' },
      shapes: [line('y', limitDb), line('x', sweep.assemblyC)],
      annotations: [
        { x: 1, xref: 'paper', y: limitDb, text: 'limit', showarrow: false, xanchor: 'right', yshift: 10 },
        {
          x: sweep.assemblyC,
          y: 0.05,
          yref: 'paper',
          text: 'assembly',
          showarrow: false,
          xanchor: 'left',
          xshift: 4,
        },
      ],
    },
    sentence:
      `Aligned at ${sweep.assemblyC} °C with ${sweep.atAssemblyDb.toFixed(2)} dB; worst ${sweep.worstDb.toFixed(2)} dB at ${Number(sweep.worstC.toFixed(1))} °C.`.replaceAll(
        '-',
        '−',
      ),
    table: {
      head: ['Temperature, °C', 'Nominal, dB', '5 %, dB', '95 %, dB'],
      rows: Array.from(x, (temperature, i) => [
        temperature,
        sweep.lossesDb[i] ?? 0,
        sweep.bandLowDb[i] ?? 0,
        sweep.bandHighDb[i] ?? 0,
      ]),
    },
  }
}
