// The budget of the chosen candidate: every line, the totals, what it was computed from, and how far the light gets.

import { waterfallFigure, waterfallHeightPx } from '../../../figures/loss/waterfall'
import { CHART_SIZE } from '../../../figures/render/picture'
import { plainText, roundedTo } from '../../../numerics/numberText'
import type { SheetCandidate } from '../../candidates'
import { type Block, group, type TableBlock, type TableRow, table, text } from '../../document/blocks'
import { lossCell, percentCell, throughputCell } from '../../document/cells'
import { figureBlock } from '../../document/figureBlock'
import { provisionalLabel } from '../../provisional'
import type { SectionSpec } from '../../section'
import type { SheetContext } from '../../sheet'
import { foldedSteps, isSlight } from '../../summary/foldedSteps'

const NOMINAL = 'Nominal'

function totals({ evaluation }: SheetCandidate): readonly TableRow[] {
  const { nominalDb, rootSumSquare, worstCorner, temperature } = evaluation
  const row = (label: string, lossDb: number, note: string): TableRow => ({
    mark: `total-${label}`,
    total: true,
    cells: [
      label === NOMINAL ? label : provisionalLabel(label, evaluation),
      lossCell(lossDb),
      '',
      throughputCell(lossDb),
      '',
      note,
    ],
  })
  return [
    row(NOMINAL, nominalDb, 'all quantities at their nominal values'),
    row('RSS', rootSumSquare.lossDb, 'independent tolerances'),
    row('Worst case', worstCorner.lossDb, worstCorner.exhaustive ? 'exhaustive' : 'search, not exhaustive'),
    ...(temperature === null
      ? []
      : [
          row(
            'Nominal, worst temperature',
            temperature.worstDb,
            `at ${plainText(roundedTo(temperature.worstC, 1))} °C`,
          ),
        ]),
  ]
}

const SLIGHT_NOTE = 'Contributions below 0.005 dB are left out on paper only.'

/** Lines with their share of the loss, and totals with what is left of the light. */
function budgetTable(candidate: SheetCandidate): TableBlock {
  return table(
    `Budget, ${candidate.name}`,
    [
      'Line',
      { label: 'Loss', unit: 'dB' },
      { label: 'Share', unit: '%' },
      { label: 'Transmitted', unit: '%' },
      'Source',
      'Note',
    ],
    [
      ...candidate.lines.map((line) => ({
        mark: line.id,
        slight: isSlight(line),
        cells: [
          line.label,
          lossCell(line.lossDb),
          percentCell(line.share, 0),
          '',
          line.provenance,
          line.note ?? '',
        ],
      })),
      ...totals(candidate),
    ],
  )
}

const inputTable = ({ inputs }: SheetCandidate): TableBlock =>
  table(
    'Computed from',
    ['Quantity', { label: 'Value' }, 'Unit', 'Tolerance', 'Source'],
    inputs.map(({ label, value, unit, tolerance, provenance }) => ({
      slight: value.value === 0 && tolerance === '',
      cells: [label, value, unit, tolerance, provenance],
    })),
    'inputs',
  )

/** The same in brief, for designs that were not selected. */
export function shortBudget({ name, lines, evaluation }: SheetCandidate): TableBlock {
  const total = (label: string, lossDb: number): TableRow => ({
    mark: `total-${label}`,
    total: true,
    cells: [label === NOMINAL ? label : provisionalLabel(label, evaluation), lossCell(lossDb), ''],
  })
  return table(
    `Budget, ${name}`,
    ['Line', { label: 'Loss', unit: 'dB' }, { label: 'Share', unit: '%' }],
    [
      ...lines.map(({ id, label, lossDb, share }) => ({
        mark: id,
        slight: isSlight({ lossDb }),
        cells: [label, lossCell(lossDb), percentCell(share, 0)],
      })),
      total(NOMINAL, evaluation.nominalDb),
      total('RSS', evaluation.rootSumSquare.lossDb),
      total('Worst case', evaluation.worstCorner.lossDb),
    ],
  )
}

/** Bars that can be read at the height of a figure on paper. */
const MOST_STEPS = 15

function build({ choice }: SheetContext): readonly Block[] {
  if (choice === null) return []
  const { candidate } = choice
  const steps = foldedSteps(candidate.lines, MOST_STEPS)
  return [
    budgetTable(candidate),
    ...(candidate.lines.some(isSlight) ? [text(SLIGHT_NOTE)] : []),
    figureBlock(waterfallFigure(`budget-${candidate.id}`, candidate.name, steps), {
      ...CHART_SIZE,
      heightPx: waterfallHeightPx(steps.length),
    }),
    group('columns', inputTable(candidate)),
  ]
}

export const budgetSection: SectionSpec = { id: 'budget', title: 'Budget', build }
