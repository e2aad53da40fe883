// The loss budget as steps: each contribution starts where the one before has ended, and the last bar is their sum.

import type { BudgetLine } from '../../analysis/results/evaluation'
import { fixedText } from '../../numerics/numberText'
import { extent, LEAST_LOSS_SPAN_DB } from '../axes'
import { type Chart, chart } from '../chart'
import type { Figure } from '../figure'
import type { Tone } from '../render/palette'

const TOTAL = 'Nominal'
/** Space for the number behind the longest bar, as a part of the whole length. */
const NUMBER_ROOM = 0.18
const THICKNESS = 0.7
const ROW_PX = 20
const FRAME_PX = 66

export const waterfallHeightPx = (lines: number): number => (lines + 1) * ROW_PX + FRAME_PX

/**
 * The lines of one optical path in their order from fibre to waveguide. Losses in dB; a gain steps back. A line may represent
 * several contributions, and have a shorter label at its bar.
 */
export function waterfallFigure(
  id: string,
  name: string,
  lines: readonly (Pick<BudgetLine, 'label' | 'lossDb'> & {
    readonly parts?: number
    readonly tick?: string
  })[],
): Figure<Chart> {
  const from: number[] = []
  const to: number[] = []
  for (const { lossDb } of lines) {
    from.push(to.at(-1) ?? 0)
    to.push((to.at(-1) ?? 0) + lossDb)
  }
  const totalDb = to.at(-1) ?? 0
  const count = lines.reduce((sum, { parts = 1 }) => sum + parts, 0)
  const names = [...lines.map(({ label }) => label), TOTAL]
  const lossesDb = [...lines.map(({ lossDb }) => lossDb), totalDb]
  from.push(0)
  to.push(totalDb)
  const [least, most] = extent(from, to)
  const span = Math.max(LEAST_LOSS_SPAN_DB, most - least)
  const tones = lossesDb.map(
    (lossDb, i): Tone => (i === lines.length ? 'ink' : lossDb < 0 ? 'soft' : 'accent'),
  )
  const largest = lines.toSorted((a, b) => b.lossDb - a.lossDb)[0]
  return {
    id,
    sentence:
      largest === undefined
        ? `${name}: the loss budget has no contributions.`
        : `${name}: ${count} contributions add up to ${fixedText(totalDb, 2)} dB; the largest, ${fixedText(largest.lossDb, 2)} dB, is ${largest.label}.`,
    picture: chart(
      { title: 'Cumulative loss', unit: 'dB', from: least, to: least + span * (1 + NUMBER_ROOM) },
      {
        title: '',
        from: names.length,
        to: 0,
        names: [...lines.map(({ label, tick = label }) => tick), TOTAL].map((name, i) => ({
          at: i + 0.5,
          name,
        })),
      },
      [
        {
          kind: 'bars',
          lying: true,
          name: '',
          at: names.map((_, i) => i + 0.5),
          from,
          to,
          thickness: THICKNESS,
          tone: tones,
          labels: lossesDb.map((lossDb) => fixedText(lossDb, 2)),
        },
      ],
    ),
    table: {
      columns: [
        { label: 'Contribution' },
        { label: 'Loss', unit: 'dB', digits: 2 },
        { label: 'Cumulative loss', unit: 'dB', digits: 2 },
      ],
      rows: names.map((each, i) => [each, lossesDb[i] ?? 0, to[i] ?? 0]),
    },
  }
}
