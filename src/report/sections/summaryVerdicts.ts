// The requirements on the first page, each with its verdict, result, limit and basis.

import { STATUS_MARKS, statusText } from '../../analysis/results/verdict'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import { type Cell, type TableBlock, table } from '../document/blocks'
import type { Summary } from '../summary/summary'
import { begun, type RowLines, short } from './summaryFit'
import { withoutLimit, withoutResult } from './verdictWords'

/** Requirements that the page has a row for. */
export const MOST_VERDICTS = 8
export const basisOf = ({ reason, found }: Summary['verdicts'][number]) =>
  withoutResult(withoutLimit(reason), found)
export const requirementOf = ({ wish, label }: Summary['verdicts'][number]) =>
  wish ? `Desirable: ${label}` : label

/** What the verdict rests on: a loss criterion that states nothing else, on the figure that it limits. */
function basisText(verdict: Summary['verdicts'][number], { requirements }: Project): string {
  const rest = basisOf(verdict)
  const basis = byId(requirements.losses, verdict.id)?.basis ?? ''
  if (rest === '') return basis
  return basis === 'RSS' && verdict.status === 'met' ? `RSS; ${rest}` : rest
}

/** The row for requirements that have none of their own: under the worst of their verdicts, with the count of each where they differ. */
function othersRow(others: Summary['verdicts']): readonly Cell[] {
  const counted = (['not met', 'not known', 'met'] as const).flatMap((status) => {
    const count = others.filter((each) => each.status === status).length
    return count === 0 ? [] : [{ status, words: `${count} ${statusText(status)}` }]
  })
  const { status } = counted[0] ?? { status: 'met' as const }
  const split = counted.length === 1 ? '' : counted.map(({ words }) => words).join(', ')
  return [
    `${STATUS_MARKS[status]} ${statusText(status)}`,
    `${others.length} more, see Requirements`,
    '',
    '',
    split,
  ]
}

export function verdictTable({ verdicts }: Summary, project: Project, lines: RowLines): TableBlock {
  const rank = { 'not met': 0, 'not known': 1, met: 2 } as const
  const kept = new Set(
    verdicts
      .toSorted((a, b) => rank[a.status] - rank[b.status])
      .slice(0, verdicts.length > MOST_VERDICTS ? MOST_VERDICTS - 1 : MOST_VERDICTS),
  )
  const others = verdicts.filter((each) => !kept.has(each))
  return table(
    'Requirements',
    [
      'Verdict',
      { label: 'Requirement', fit: short('requirement', lines) },
      'Result',
      'Limit',
      { label: 'Basis', fit: begun('basis', lines) },
    ],
    [
      ...verdicts
        .filter((each) => kept.has(each))
        .map((each) => {
          const { id, status, wish, found, limit } = each
          return {
            mark: `summary-${id}`,
            ...(status !== 'met' && !wish && { strong: true }),
            cells: [
              `${STATUS_MARKS[status]} ${statusText(status)}`,
              requirementOf(each),
              found,
              limit,
              basisText(each, project),
            ],
          }
        }),
      ...(others.length === 0 ? [] : [othersRow(others)]),
    ],
    'summary-requirements',
  )
}
