// How bad it gets: worst case, RSS and percentile, and what each tolerance adds alone.

import { leadingLoss } from '../../../model/project/lossCriteria'
import { fixedText } from '../../../numerics/numberText'
import { type Block, group, list, table, text } from '../../document/blocks'
import { lossCell } from '../../document/cells'
import { provisionalLabel } from '../../provisional'
import type { SectionSpec } from '../../section'
import type { SheetContext } from '../../sheet'

function percentileRow({ project, choice }: SheetContext) {
  const { percentile } = leadingLoss(project.requirements)
  const share = percentile / 100
  const found = choice?.candidate.yield?.percentiles.find((each) => Math.abs(each.share - share) < 1e-9)
  return [
    `${percentile} % of assemblies`,
    found === undefined ? 'not evaluated' : lossCell(found.lossDb),
    found === undefined ? 'needs a yield run with the current values' : 'simulated from the tolerances',
  ]
}

function build(context: SheetContext): readonly Block[] {
  const { choice } = context
  if (choice === null) return []
  const { evaluation } = choice.candidate
  const { rootSumSquare, worstCorner } = evaluation
  const costly = rootSumSquare.contributions.filter(({ addedDb }) => addedDb >= 0.0005)
  const totals = table(
    'Insertion loss with tolerances',
    ['Quantity', { label: 'Loss', unit: 'dB' }, 'Meaning'],
    [
      [
        provisionalLabel('RSS', evaluation),
        lossCell(rootSumSquare.lossDb),
        'excess losses of the individual tolerances, added in quadrature',
      ],
      [
        provisionalLabel('Worst case', evaluation),
        lossCell(worstCorner.lossDb),
        'all tolerances at their limits',
      ],
      percentileRow(context),
    ],
  )
  return [
    ...(costly.length === 0
      ? [totals, text('No tolerance of this path adds loss.')]
      : [
          group(
            'columns',
            totals,
            table(
              'Excess loss per tolerance, at its worse limit; combined in quadrature, not added',
              ['Quantity', { label: 'Excess loss', unit: 'dB' }],
              costly.map(({ label, addedDb }) => ({
                slight: addedDb < 0.005,
                cells: [label, { value: addedDb, text: fixedText(addedDb, 3) }],
              })),
            ),
          ),
        ]),
    ...(worstCorner.settings.length === 0
      ? []
      : [
          text(
            `Worst case, ${worstCorner.exhaustive ? 'exhaustive' : 'search from several starting points, flipping limits singly and in pairs; not exhaustive'}:`,
          ),
          group(
            'columns',
            list([
              `at the upper limit: ${settings(worstCorner.settings, 1)}`,
              `at the lower limit: ${settings(worstCorner.settings, -1)}`,
            ]),
          ),
        ]),
  ]
}

function settings(all: readonly { readonly label: string; readonly sign: number }[], sign: number): string {
  const names = all.filter((each) => each.sign === sign).map(({ label }) => label)
  return names.length === 0 ? 'none' : names.join('; ')
}

export const spreadSection: SectionSpec = { id: 'spread', title: 'Worst case and spread', build }
