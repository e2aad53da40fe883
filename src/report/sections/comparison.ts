// The chosen design next to the others, and what speaks for and against each of them.

import { compareCandidates } from '../../analysis/compare/compareCandidates'
import type { ComparisonCell as ComparedCell, ComparisonRow } from '../../analysis/compare/comparison'
import { musts } from '../../analysis/verdicts/verdictGroups'
import { columnTitle } from '../../figures/figure'
import { withMinus } from '../../numerics/numberText'
import type { Choice, SheetCandidate } from '../candidates'
import { type Block, type Cell, type TableBlock, type TableRow, table, text } from '../document/blocks'
import { lossCell } from '../document/cells'
import type { SectionSpec } from '../section'
import type { SheetContext } from '../sheet'
import { reachEnd } from './loss/temperature'
import { leavesOutSummary, MOST_ALTERNATIVES } from './summary'
import { comparedWith, shortfall } from './verdictWords'

function against(other: SheetCandidate, chosen: SheetCandidate): string {
  const missed = shortfall(other.verdicts)
  const open = musts(other.verdicts)
    .filter(({ status }) => status === 'not known')
    .map(({ label }) => label)
  const more = other.evaluation.nominalDb - chosen.evaluation.nominalDb
  const besides = `${lossCell(Math.abs(more)).text} dB ${more < 0 ? 'lower' : 'higher'} than that of ${chosen.name}`
  if (missed !== '') return `Not met: ${missed}. Nominal loss ${besides}.`
  if (open.length > 0) return `Not evaluated: ${open.join('; ')}. Nominal loss ${besides}.`
  return `Meets every requirement. Nominal loss ${besides}.`
}

/** A requirement that is not met says what was found, too. */
function cellOf({ value, text, verdict, provisional }: ComparedCell): Cell {
  if (verdict?.status === 'not met' && verdict.value !== undefined) return `${text} (${verdict.value})`
  if (provisional === true) return `${text}, provisional`
  return value === null ? text : { value, text: withMinus(text) }
}

/** Rows of requirements always; of the others those that say something of any design. */
const saysAnything = ({ cells }: ComparisonRow): boolean =>
  cells.some(({ value, text, verdict }) => verdict !== undefined || value !== null || !SILENT.has(text))
const SILENT: ReadonlySet<string> = new Set(['', 'none', 'not known', 'not evaluated'])

/** A row, other than a requirement, that is the same for all designs. */
const isEqual = ({ cells }: ComparisonRow): boolean =>
  cells.every(({ text, verdict }) => verdict === undefined && text === cells[0]?.text)

const EQUAL_NOTE = 'Values that are the same for all designs are left out on paper only.'

type Reach = readonly [fromC: number, toC: number] | null

/** A row as it is printed; the usable temperature range has a number for each of its ends. */
function printedRows(
  row: ComparisonRow,
  from: number,
  to: number,
  reaches: readonly Reach[],
): readonly TableRow[] {
  const label = columnTitle(row)
  if (row.id !== 'reach') {
    const cells = [label, ...row.cells.slice(from, to).map(cellOf)]
    return [{ mark: `compare-${row.id}`, slight: isEqual(row), cells }]
  }
  return (['from', 'to'] as const).map((end, at) => ({
    mark: `compare-${row.id}-${end}`,
    cells: [
      `${row.label}, ${end}, °C`,
      ...reaches.slice(from, to).map((reach, i): Cell => {
        const value = reach?.[at]
        return value === undefined ? (row.cells[from + i]?.text ?? '') : reachEnd(value)
      }),
    ],
  }))
}

/** As many candidates as a page is wide enough for. */
const MOST_COLUMNS = 8

/** Equal groups of columns, none too wide, as [from, to). */
function columnGroups(count: number): readonly (readonly [number, number])[] {
  const groups = Math.ceil(count / MOST_COLUMNS)
  const size = Math.ceil(count / groups)
  return Array.from({ length: groups }, (_, i) => [i * size, Math.min(count, (i + 1) * size)])
}

function alternativesTable(
  choice: Choice,
  others: readonly SheetCandidate[],
  refused: SheetContext['refused'],
): TableBlock {
  const remarked = others.some(({ remark }) => remark !== '')
  return table(
    'Alternatives considered',
    ['Design', comparedWith(choice), ...(remarked ? ['Remark'] : [])],
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
  )
}

function build(context: SheetContext): readonly Block[] {
  const { project, choice, candidates, refused, runs, evaluate } = context
  if (choice === null || candidates.length + refused.length < 2) return []
  const others = candidates.filter(({ id }) => id !== choice.candidate.id)
  // The first page says of each why it is not chosen; here are its numbers.
  const saidBefore =
    !leavesOutSummary(context) &&
    refused.length === 0 &&
    others.length <= MOST_ALTERNATIVES &&
    others.every(({ remark }) => remark === '')
  const comparison = compareCandidates(project, evaluate, runs.yields, runs.arrays)
  const rows = comparison.rows.filter(saysAnything)
  const reaches = comparison.columns.map(
    ({ candidateId }) =>
      candidates.find(({ id }) => id === candidateId)?.evaluation.temperature?.reachC ?? null,
  )
  return [
    ...(saidBefore ? [] : [alternativesTable(choice, others, refused)]),
    ...columnGroups(comparison.columns.length).map(([from, to], i) =>
      table(
        i === 0 ? 'Comparison' : 'Comparison, continued',
        ['Quantity', ...comparison.columns.slice(from, to).map(({ name }) => name)],
        rows.flatMap((row) => printedRows(row, from, to, reaches)),
        'comparison',
      ),
    ),
    ...(rows.some(isEqual) ? [text(EQUAL_NOTE)] : []),
  ]
}

export const comparisonSection: SectionSpec = {
  id: 'comparison',
  title: 'Comparison with the other designs',
  build,
}
