// The losses of several designs as stacked bars on one scale, by cause.

import type { BudgetLine, LineKind } from '../../analysis/results/evaluation'
import { fixedText } from '../../numerics/numberText'
import { LEAST_LOSS_SPAN_DB } from '../axes'
import { type BarSeries, type Chart, chart } from '../chart'
import type { Figure } from '../figure'
import type { Tone } from '../render/palette'

const CAUSES: readonly {
  readonly name: string
  readonly tone: Tone
  readonly kinds: readonly LineKind[]
}[] = [
  { name: 'mode mismatch', tone: 'mismatch', kinds: ['mode mismatch', 'mode shape', 'aberration'] },
  {
    name: 'misalignment',
    tone: 'misalignment',
    kinds: ['gap', 'lateral offset', 'tilt', 'roll', 'combined'],
  },
  { name: 'reflection', tone: 'reflection', kinds: ['fresnel'] },
  { name: 'clipping', tone: 'clipping', kinds: ['clipping'] },
  { name: 'splice, connector', tone: 'splice', kinds: ['splice', 'connector'] },
  { name: 'taper, device', tone: 'parts', kinds: ['taper', 'device', 'propagation', 'absorption'] },
  { name: 'drift, user-defined', tone: 'user', kinds: ['drift', 'user line'] },
]

interface StackedDesign {
  readonly name: string
  readonly lines: readonly Pick<BudgetLine, 'kind' | 'lossDb'>[]
}

const ROOM = 1.14
const THICKNESS = 0.62

/** Loss by cause, in the order of `CAUSES`; they add up to the sum of the lines. */
function lossByCause(lines: StackedDesign['lines']): readonly number[] {
  return CAUSES.map(({ kinds }) =>
    lines.reduce((sum, line) => sum + (kinds.includes(line.kind) ? line.lossDb : 0), 0),
  )
}

/** Start and end of every cause's bar: gains run to the left of zero, so that bars never hide each other. */
export function stackedEnds(parts: readonly number[]): readonly (readonly [from: number, to: number])[] {
  let [gain, loss] = [0, 0]
  return parts.map((part) => {
    if (part < 0) {
      gain += part
      return [gain - part, gain]
    }
    loss += part
    return [loss - part, loss]
  })
}

/** One bar per design, in the order given; the limit is drawn across all of them. */
export function lossStackFigure(designs: readonly StackedDesign[], limitDb: number): Figure<Chart> {
  const parts = designs.map(({ lines }) => lossByCause(lines))
  const ends = parts.map(stackedEnds)
  const totals = parts.map((own) => own.reduce((sum, db) => sum + db, 0))
  const reaches = ends.flat(2)
  const [least, most] = [Math.min(0, ...reaches), Math.max(limitDb, LEAST_LOSS_SPAN_DB, ...reaches)]
  const at = designs.map((_, i) => i + 0.5)
  const lowest = totals.indexOf(Math.min(...totals))
  const series = CAUSES.flatMap(({ name, tone }, cause): readonly BarSeries[] => {
    if (parts.every((own) => Math.abs(own[cause] ?? 0) < 0.005)) return []
    return [
      {
        kind: 'bars',
        lying: true,
        name,
        at,
        from: ends.map((own) => own[cause]?.[0] ?? 0),
        to: ends.map((own) => own[cause]?.[1] ?? 0),
        thickness: THICKNESS,
        tone,
      },
    ]
  })
  const labels: BarSeries = {
    kind: 'bars',
    lying: true,
    name: '',
    legend: false,
    unread: true,
    at,
    from: ends.map((own) => Math.max(0, ...own.flat())),
    to: ends.map((own) => Math.max(0, ...own.flat())),
    thickness: 0,
    tone: 'ink',
    labels: totals.map((db) => `${fixedText(db, 2)} dB`),
  }
  return {
    id: 'loss-by-cause',
    sentence:
      designs.length === 0
        ? 'No design to compare.'
        : `Lowest nominal loss: ${designs[lowest]?.name ?? ''}, ${fixedText(totals[lowest] ?? 0, 2)} dB. Dashed line: limit of ${limitDb} dB.`,
    picture: chart(
      { title: 'Nominal loss', unit: 'dB', from: least, to: least + (most - least) * ROOM },
      {
        title: '',
        from: Math.max(1, designs.length),
        to: 0,
        names: designs.map(({ name }, i) => ({ at: i + 0.5, name })),
      },
      [...series, labels, { kind: 'rule', axis: 'x', at: limitDb, label: 'limit' }],
    ),
    table: {
      columns: [
        { label: 'Design' },
        ...CAUSES.map(({ name }) => ({ label: name, unit: 'dB' })),
        { label: 'Nominal', unit: 'dB' },
      ],
      rows: designs.map(({ name }, i) => [name, ...(parts[i] ?? []), totals[i] ?? 0]),
    },
  }
}
