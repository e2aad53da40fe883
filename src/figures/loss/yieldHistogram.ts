// How the losses of simulated assemblies spread: bars of their shares, the cumulative curve, limit and percentiles.

import type { YieldResult } from '../../analysis/yield/yieldResult'
import { percentileName } from '../../model/project/statedRequirements'
import { lossDbText } from '../../model/quantity/lossText'
import { countText, fixedText, rounded } from '../../numerics/numberText'
import { LEAST_LOSS_SPAN_DB } from '../axes'
import { type Chart, chart } from '../chart'
import type { Figure } from '../figure'

type LossSpread = Pick<
  YieldResult,
  'histogram' | 'percentiles' | 'limitDb' | 'samples' | 'yield' | 'p50Db' | 'p95Db' | 'p99Db'
>

const BAR_ROOM = 1.06

export function yieldHistogramFigure(id: string, spread: LossSpread): Figure<Chart> {
  const { fromDb, stepDb, counts } = spread.histogram
  const edge = (i: number) => rounded(fromDb + i * stepDb, 12)
  const percent = (count: number) => (100 * count) / spread.samples
  let below = 0
  const cumulative = counts.map((count) => {
    below += count
    return percent(below)
  })
  const shares = counts.map(percent)
  const from = Math.min(fromDb, spread.limitDb)
  const to = Math.max(edge(counts.length), spread.limitDb * 1.03, from + LEAST_LOSS_SPAN_DB)
  const marked = spread.percentiles.filter(({ lossDb }) => Number.isFinite(lossDb) && lossDb <= to)
  return {
    id,
    sentence: `Yield ${fixedText(100 * spread.yield, 2)} % at ${spread.limitDb} dB (${countText(spread.samples)} simulated assemblies). P50 ${lossDbText(spread.p50Db)}, P95 ${lossDbText(spread.p95Db)}, P99 ${lossDbText(spread.p99Db)}.`,
    picture: chart(
      { title: 'Insertion loss', unit: 'dB', from, to, digits: 3 },
      {
        title: 'Assemblies per bin',
        unit: '%',
        from: 0,
        to: Math.max(...shares, 1e-9) * BAR_ROOM,
        digits: 2,
      },
      [
        {
          kind: 'bars',
          name: 'per bin',
          at: counts.map((_, i) => edge(i) + stepDb / 2),
          from: counts.map(() => 0),
          to: shares,
          thickness: stepDb,
          tone: 'soft',
        },
        {
          kind: 'line',
          name: 'cumulative',
          x: [fromDb, ...counts.map((_, i) => edge(i + 1))],
          y: [0, ...cumulative],
          right: true,
          tone: 'accent',
        },
        { kind: 'rule', axis: 'x', at: spread.limitDb, label: 'limit', dash: 'solid', weight: 'strong' },
        ...marked.map(({ share, lossDb }) => ({
          kind: 'rule' as const,
          axis: 'x' as const,
          at: lossDb,
          label: percentileName(100 * share),
          dash: 'dot' as const,
        })),
      ],
      { right: { title: 'Cumulative', unit: '%', from: 0, to: 100 * BAR_ROOM, digits: 2 } },
    ),
    table: {
      columns: [
        { label: 'From', unit: 'dB' },
        { label: 'To', unit: 'dB' },
        { label: 'Assemblies' },
        { label: 'Cumulative', unit: '%' },
      ],
      rows: counts.map((count, i) => [edge(i), edge(i + 1), count, cumulative[i] ?? 0]),
    },
  }
}
