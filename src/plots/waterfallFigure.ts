// The budget as steps: each line starts where the one before has ended, and the last bar is their sum.

import type { BudgetLine } from '../analysis/results/evaluation'
import { baseLayout, type Figure, type PlotTheme } from './figure'

const TOTAL = 'Total'
/** Room for the number behind the longest bar, as a part of the whole length. */
const NUMBER_ROOM = 0.22

/** A loss to two digits; what rounds to nothing has no sign. */
const signed = (db: number) => `${db <= -0.005 ? '−' : ''}${Math.abs(db).toFixed(2)} dB`

/** The figure of one chain's lines, in their order from fibre to waveguide. Losses in dB; a gain steps back. */
export function waterfallFigure(
  lines: readonly Pick<BudgetLine, 'id' | 'label' | 'lossDb'>[],
  theme: PlotTheme,
): Figure {
  const starts: number[] = []
  let totalDb = 0
  let farthestDb = 0
  for (const line of lines) {
    starts.push(totalDb)
    totalDb += line.lossDb
    farthestDb = Math.max(farthestDb, totalDb)
  }
  const largest = lines.reduce<Pick<BudgetLine, 'label' | 'lossDb'> | undefined>(
    (most, line) => (most === undefined || line.lossDb > most.lossDb ? line : most),
    undefined,
  )
  const lengths = [...lines.map((line) => line.lossDb), totalDb]
  const names = [...lines.map((line) => line.label), TOTAL]
  // Places are ids, because two joints of a chain have lines of the same name.
  const places = [...lines.map((line) => line.id), TOTAL]
  const layout = baseLayout(theme, 'Loss so far, dB', '')
  return {
    data: [
      {
        type: 'bar',
        orientation: 'h',
        y: places,
        x: lengths,
        base: [...starts, 0],
        text: lengths.map(signed),
        textposition: 'outside',
        cliponaxis: false,
        customdata: names,
        marker: {
          color: lengths.map((db, i) =>
            i === lines.length ? theme.ink : db < 0 ? theme.rule : theme.accent,
          ),
          line: { color: theme.ink, width: 0.5 },
        },
        hovertemplate: '%{customdata}: %{text}<extra></extra>',
      },
    ],
    layout: {
      ...layout,
      xaxis: {
        ...layout.xaxis,
        ...(farthestDb > 0 && { range: [Math.min(0, totalDb), farthestDb * (1 + NUMBER_ROOM)] }),
      },
      yaxis: {
        autorange: 'reversed',
        automargin: true,
        ticklabeloverflow: 'allow',
        type: 'category',
        tickvals: places,
        ticktext: names,
      },
    },
    sentence:
      largest === undefined
        ? 'The budget has no lines.'
        : `${lines.length} lines add up to ${signed(totalDb)}; the largest is ${largest.label} with ${signed(largest.lossDb)}.`,
    table: {
      head: ['Line', 'Loss, dB', 'Loss so far, dB'],
      rows: names.map((name, i) => [name, lengths[i] ?? 0, (starts[i] ?? 0) + (lengths[i] ?? 0)]),
    },
  }
}
