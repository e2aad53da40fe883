// How the losses of drawn assemblies spread.

import type { YieldResult } from '../../analysis/index'
import type { FigureBlock } from '../document/blocks'
import { lossCell, percentCell } from '../document/cells'
import { bar, chart, label, line, polyline } from './chart'
import { figure, plotted } from './figure'

export function lossHistogram(run: YieldResult, name: string): FigureBlock {
  const { fromDb, stepDb, counts } = run.histogram
  const edges = Array.from({ length: counts.length + 1 }, (_, i) =>
    Number((fromDb + i * stepDb).toPrecision(12)),
  )
  const top = Math.max(1, ...counts)
  const shares = [0]
  for (const count of counts) shares.push((shares.at(-1) ?? 0) + count / run.samples)
  const to = Math.max(edges.at(-1) ?? 1, run.limitDb * 1.05)
  const drawing = chart(
    {
      x: { from: Math.min(fromDb, run.limitDb), to, title: 'Loss of the chain, dB' },
      y: { from: 0, to: 1.05, title: 'Share at or below' },
    },
    (places) => {
      const { x, y, topPx, bottomPx } = places
      return [
        ...counts.map((count, i) =>
          bar(x(edges[i] ?? 0), y(0), x(edges[i + 1] ?? 0), y(count / top), 'chart-bar-light'),
        ),
        polyline(edges, shares, places, 'chart-curve'),
        line(x(run.limitDb), topPx, x(run.limitDb), bottomPx, 'chart-limit'),
        label(x(run.limitDb) - 5, topPx + 14, 'limit', 'end'),
        ...run.percentiles
          .filter(({ lossDb }) => lossDb < to)
          .flatMap(({ share, lossDb }, i) => [
            line(x(lossDb), topPx, x(lossDb), bottomPx, 'chart-mark'),
            label(x(lossDb) + 4, topPx + 30 + 15 * i, `P${Number((100 * share).toPrecision(6))}`, 'start'),
          ]),
      ]
    },
  )
  return figure(
    `yield-${run.candidateId}`,
    `${name}: ${percentCell(run.yield, 2).text} % of ${run.samples} assemblies stay within ${run.limitDb} dB; half within ${lossCell(run.p50Db).text} dB. The bars have a scale of their own.`,
    drawing,
    [
      { label: 'From', unit: 'dB' },
      { label: 'To', unit: 'dB' },
      'Assemblies',
      { label: 'At or below', unit: '%' },
    ],
    counts.map((count, i) => [
      plotted(edges[i] ?? 0),
      plotted(edges[i + 1] ?? 0),
      plotted(count),
      plotted(100 * (shares[i + 1] ?? 0)),
    ]),
  )
}
