// Mode-field diameters and coupling loss of a cross-section against one of its dimensions.

import { along, extent, lossAxis } from '../axes'
import type { Chart, ChartPane, LineSeries, RuleSeries } from '../chart'
import type { Figure } from '../figure'

interface SweepLines {
  readonly name: string
  readonly unit: string
  readonly values: readonly number[]
  /** Null without a guided mode. */
  readonly mfdXUm: readonly (number | null)[]
  readonly mfdYUm: readonly (number | null)[]
  readonly lossDb: readonly (number | null)[]
  readonly gaussianDb: readonly (number | null)[]
  readonly chosen: number | null
  readonly now: number
}

/** Coupling loss above, diameters below, on one axis; the upright lines are the present and the selected value. */
export function modeSweepFigure(sweep: SweepLines, sentence: string): Figure<Chart> {
  const { name, unit, values, mfdXUm, mfdYUm, lossDb, gaussianDb, chosen, now } = sweep
  const line = (
    label: string,
    y: readonly (number | null)[],
    look: Pick<LineSeries, 'tone' | 'dash' | 'weight'>,
  ) => ({ kind: 'line', name: label, x: values, y, dots: true, ...look }) as const
  const upright = (at: number, label: string | undefined, dash: 'dot' | 'solid'): RuleSeries => ({
    kind: 'rule',
    axis: 'x',
    at,
    dash,
    weight: 'fine',
    ...(label !== undefined && { label }),
  })
  const uprights = (named: boolean) => [
    upright(now, named ? 'current' : undefined, 'dot'),
    ...(chosen === null ? [] : [upright(chosen, named ? 'selected' : undefined, 'solid')]),
  ]
  const withLoss = lossDb.some((loss) => loss !== null)
  const mfd: ChartPane = {
    y: { title: 'MFD', unit: 'µm', from: 0, to: 1.08 * extent(mfdXUm, mfdYUm)[1], digits: 2 },
    share: 1,
    series: [
      line('MFD x', mfdXUm, { tone: 'accent' }),
      line('MFD y', mfdYUm, { tone: 'accent', dash: 'dash' }),
      ...uprights(!withLoss),
    ],
  }
  const loss: ChartPane = {
    y: lossAxis('Coupling loss', [0], lossDb, gaussianDb),
    share: 1,
    series: [
      line('coupling loss, field', lossDb, { tone: 'ink' }),
      line('coupling loss, Gaussian', gaussianDb, { tone: 'ink', dash: 'dot', weight: 'fine' }),
      ...uprights(true),
    ],
  }
  return {
    id: 'mode-sweep',
    sentence,
    picture: {
      kind: 'chart',
      x: along(name, unit, [...values, now], 4),
      panes: withLoss ? [loss, mfd] : [mfd],
    },
    table: {
      columns: [
        { label: name, unit },
        { label: 'MFD x', unit: 'µm' },
        { label: 'MFD y', unit: 'µm' },
        { label: 'Coupling loss, field', unit: 'dB' },
        { label: 'Coupling loss, Gaussian', unit: 'dB' },
      ],
      rows: values.map((value, i) => [
        value,
        mfdXUm[i] ?? 'no mode',
        mfdYUm[i] ?? 'no mode',
        lossDb[i] ?? 'none',
        gaussianDb[i] ?? 'none',
      ]),
    },
  }
}
