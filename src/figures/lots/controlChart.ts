// The control chart of a lot: means of assemblies in their order over their moving ranges, with centre lines and limits.

import type { LotSummary } from '../../measure/index'
import { fixedText } from '../../numerics/numberText'
import { spanning } from '../axes'
import type { Chart, Mark, Series } from '../chart'
import type { Figure } from '../figure'

const limit = (at: number, label: string): Series => ({ kind: 'rule', axis: 'y', at, label, dash: 'dash' })
const centre = (at: number): Series => ({
  kind: 'rule',
  axis: 'y',
  at,
  label: 'mean',
  dash: 'solid',
  weight: 'fine',
})

/** Null for a lot too small for a chart. */
export function controlChartFigure({ assemblies, chart, byDate }: LotSummary): Figure<Chart> | null {
  if (chart === null) return null
  const positions = assemblies.map((_, i) => i + 1)
  const means = assemblies.map(({ meanDb }) => meanDb)
  const order = byDate ? 'Assembly, by date' : 'Assembly, as listed'
  const outside = new Set(chart.outside)
  const beyond = new Set(chart.outsideRanges)
  const points = (x: readonly number[], y: readonly number[], isOut: (i: number) => boolean): Series => ({
    kind: 'points',
    name: '',
    x,
    y,
    tone: 'ink',
    mark: x.map((_, i): Mark => (isOut(i) ? 'x' : 'circle')),
    sizePx: 6,
  })
  const count = chart.outside.length
  return {
    id: 'control-chart',
    sentence: `${count === 0 ? 'No assembly is' : count === 1 ? '1 assembly is' : `${count} assemblies are`} outside the control limits ${fixedText(chart.lower, 2)} to ${fixedText(chart.upper, 2)} dB; ${beyond.size === 0 ? 'no moving range exceeds' : beyond.size === 1 ? '1 moving range exceeds' : `${beyond.size} moving ranges exceed`} ${fixedText(chart.upperRange, 2)} dB.`,
    picture: {
      kind: 'chart',
      x: { title: order, from: 0, to: positions.length + 1, digits: 0 },
      panes: [
        {
          y: spanning('Mean loss', 'dB', [means, [chart.lower, chart.upper]], { digits: 3 }),
          share: 2,
          series: [
            centre(chart.mean),
            limit(chart.lower, 'lower'),
            limit(chart.upper, 'upper'),
            { kind: 'line', name: '', x: positions, y: means, tone: 'quiet', weight: 'fine' },
            points(positions, means, (i) => outside.has(i)),
          ],
        },
        {
          y: spanning('Range', 'dB', [[0, chart.upperRange], chart.ranges], { digits: 3 }),
          share: 1,
          series: [
            centre(chart.meanRange),
            limit(chart.upperRange, 'upper'),
            points(positions.slice(1), chart.ranges, (i) => beyond.has(i + 1)),
          ],
        },
      ],
    },
    table: {
      columns: [
        { label: 'Assembly' },
        { label: 'Mean loss', unit: 'dB', digits: 3 },
        { label: 'Highest loss', unit: 'dB', digits: 3 },
        { label: 'Moving range', unit: 'dB', digits: 3 },
      ],
      rows: assemblies.map(({ name, meanDb, worstDb }, i) => [
        name,
        meanDb,
        worstDb,
        i === 0 ? '' : (chart.ranges[i - 1] ?? ''),
      ]),
    },
  }
}
