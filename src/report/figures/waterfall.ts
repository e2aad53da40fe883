// The budget as steps: each line starts where the one before has ended, and the last bar is their sum.

import type { SheetCandidate } from '../candidates'
import type { FigureBlock } from '../document/blocks'
import { lossCell } from '../document/cells'
import { bar, chart, label } from './chart'
import { figure } from './figure'

const ROW_PX = 20
const LEFT_PX = 190
const LONGEST_NAME = 30

function shortened(name: string): string {
  const letters = [...name]
  return letters.length > LONGEST_NAME ? `${letters.slice(0, LONGEST_NAME - 1).join('')}…` : name
}

export function waterfall({ id, name, lines, evaluation }: SheetCandidate): FigureBlock {
  const total = evaluation.nominalDb
  const steps: { readonly label: string; readonly fromDb: number; readonly toDb: number }[] = []
  for (const each of lines) {
    const fromDb = steps.at(-1)?.toDb ?? 0
    steps.push({ label: each.label, fromDb, toDb: fromDb + each.lossDb })
  }
  steps.push({ label: 'Nominal', fromDb: 0, toDb: total })
  const ends = steps.flatMap(({ fromDb, toDb }) => [fromDb, toDb])
  const [least, most] = [Math.min(0, ...ends), Math.max(0.1, ...ends)]
  const count = steps.length
  const drawing = chart(
    {
      x: { from: least, to: most + 0.12 * (most - least), title: 'Loss so far, dB' },
      y: {
        from: count,
        to: 0,
        title: '',
        names: steps.map((step, i) => ({ at: i + 0.5, name: shortened(step.label) })),
      },
      heightPx: count * ROW_PX + 60,
      leftPx: LEFT_PX,
    },
    ({ x, y }) =>
      steps.flatMap(({ fromDb, toDb }, i) => [
        bar(
          x(fromDb),
          y(i + 0.15),
          x(toDb),
          y(i + 0.85),
          i === count - 1 ? 'chart-bar-dark' : toDb < fromDb ? 'chart-bar-light' : 'chart-bar',
        ),
        label(x(Math.max(fromDb, toDb)) + 5, y(i + 0.5) + 4, lossCell(toDb - fromDb).text, 'start'),
      ]),
  )
  return figure(
    `budget-${id}`,
    `${name}: ${lines.length} lines add up to ${lossCell(total).text} dB.`,
    drawing,
    ['Line', { label: 'Loss', unit: 'dB' }, { label: 'Loss so far', unit: 'dB' }],
    steps.map((step) => [step.label, lossCell(step.toDb - step.fromDb), lossCell(step.toDb)]),
  )
}
