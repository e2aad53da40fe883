// The chosen candidate beside the others, and why each of them was not chosen.

import { compareCandidates } from '../../analysis/compare/compareCandidates'
import type { Cell as ComparedCell } from '../../analysis/compare/comparison'
import { withMinus } from '../../numerics/numberText'
import type { SheetCandidate } from '../candidates'
import { type Block, type Cell, table } from '../document/blocks'
import { lossCell } from '../document/cells'
import type { SectionSpec } from '../section'
import type { SheetContext } from '../sheet'
import { shortfall } from './verdictWords'

function against(other: SheetCandidate, chosen: SheetCandidate): string {
  const missed = shortfall(other.verdicts)
  const more = other.evaluation.nominalDb - chosen.evaluation.nominalDb
  const besides = `${lossCell(Math.abs(more)).text} dB ${more < 0 ? 'less' : 'more'} than ${chosen.name}`
  return missed === '' ? `Meets every requirement; ${besides}.` : `${missed}. Nominal loss ${besides}.`
}

function cellOf({ value, text }: ComparedCell): Cell {
  return value === null ? text : { value, text: withMinus(text) }
}

/** As many candidates as a page is wide enough for. */
const MOST_COLUMNS = 8

/** Equal groups of columns, none too wide, as [from, to). */
function columnGroups(count: number): readonly (readonly [number, number])[] {
  const groups = Math.ceil(count / MOST_COLUMNS)
  const size = Math.ceil(count / groups)
  return Array.from({ length: groups }, (_, i) => [i * size, Math.min(count, (i + 1) * size)])
}

function build({ project, choice, candidates, refused, runs, evaluate }: SheetContext): readonly Block[] {
  if (choice === null || candidates.length + refused.length < 2) return []
  const others = candidates.filter(({ id }) => id !== choice.candidate.id)
  const remarked = others.some(({ remark }) => remark !== '')
  const comparison = compareCandidates(project, evaluate, runs.yields, runs.arrays)
  return [
    table(
      'Rejected alternatives',
      ['Design', 'Reason for rejection', ...(remarked ? ['Remark'] : [])],
      [
        ...others.map((other) => [
          other.name,
          against(other, choice.candidate),
          ...(remarked ? [other.remark] : []),
        ]),
        ...refused.map(({ name, issues }) => [
          name,
          `Not evaluated: ${issues.map(({ message }) => message).join('; ')}`,
          ...(remarked ? [''] : []),
        ]),
      ],
    ),
    ...columnGroups(comparison.columns.length).map(([from, to], i) =>
      table(
        i === 0 ? 'Comparison' : 'Comparison, continued',
        ['Figure', 'Unit', ...comparison.columns.slice(from, to).map(({ name }) => name)],
        comparison.rows.map((row) => ({
          mark: `compare-${row.id}`,
          cells: [row.label, row.unit, ...row.cells.slice(from, to).map(cellOf)],
        })),
      ),
    ),
  ]
}

export const comparisonSection: SectionSpec = {
  id: 'comparison',
  title: 'Comparison with the other designs',
  build,
}
