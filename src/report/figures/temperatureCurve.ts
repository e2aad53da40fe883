// Loss over temperature with the band of drawn assemblies.

import type { TemperatureSweep } from '../../analysis/temperature/temperatureSweep'
import type { FigureBlock } from '../document/blocks'
import { lossCell, withMinus } from '../document/cells'
import { element } from '../document/markup'
import { chart, label, line, polyline } from './chart'
import { figure, plotted } from './figure'

export function temperatureCurve(sweep: TemperatureSweep, limitDb: number): FigureBlock {
  const { temperaturesC: at, lossesDb, bandLowDb, bandHighDb } = sweep
  const highest = Math.max(limitDb, ...bandHighDb, ...lossesDb)
  const lowest = Math.min(limitDb, ...bandLowDb, ...lossesDb)
  const room = 0.1 * (highest - lowest)
  const drawing = chart(
    {
      x: { from: at[0] ?? 0, to: at.at(-1) ?? 1, title: 'Temperature, °C' },
      y: { from: Math.max(0, lowest - room), to: highest + room, title: 'Loss of the chain, dB' },
    },
    (places) => {
      const { x, y, leftPx, rightPx, topPx, bottomPx } = places
      const edge = (values: Float64Array) =>
        Array.from(at, (t, i) => `${x(t).toFixed(1)},${y(values[i] ?? 0).toFixed(1)}`)
      return [
        element('polygon', {
          class: 'chart-band',
          points: [...edge(bandLowDb), ...edge(bandHighDb).toReversed()].join(' '),
        }),
        polyline(at, lossesDb, places, 'chart-curve'),
        line(leftPx, y(limitDb), rightPx, y(limitDb), 'chart-limit'),
        label(rightPx - 6, y(limitDb) - 5, 'limit', 'end'),
        line(x(sweep.assemblyC), topPx, x(sweep.assemblyC), bottomPx, 'chart-mark'),
        label(x(sweep.assemblyC) + 4, topPx + 14, 'assembly', 'start'),
      ]
    },
  )
  return figure(
    'temperature',
    withMinus(
      `Worst ${lossCell(sweep.worstDb).text} dB at ${Number(sweep.worstC.toFixed(1))} °C; the band holds 5 to 95 % of drawn assemblies.`,
    ),
    drawing,
    [
      { label: 'Temperature', unit: '°C' },
      { label: 'Nominal', unit: 'dB' },
      { label: '5 %', unit: 'dB' },
      { label: '95 %', unit: 'dB' },
    ],
    Array.from(at, (t, i) => [
      plotted(t),
      plotted(lossesDb[i] ?? 0),
      plotted(bandLowDb[i] ?? 0),
      plotted(bandHighDb[i] ?? 0),
    ]),
  )
}
