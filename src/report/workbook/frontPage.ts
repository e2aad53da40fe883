// The first page: what was decided and why, requirements, designs with live totals, the loss budget of the chosen one as bars.

import { neutral } from '../../model/parts/neutralText'
import { statusText } from '../sections/verdictWords'
import type { Sheet } from '../sheet'
import type { LiveBudget } from './budgetPage'
import { type Page, type PageWriter, pageWriter } from './page'

const WIDTHS = [36, 14, 14, 14, 14, 26] as const
const LAST = WIDTHS.length - 1

/** Rows of a chart beside those of its bars. */
const CHART_FRAME = 8

/** A budget with the design that it belongs to, by its place among the candidates of the sheet. */
export interface PlacedBudget {
  readonly at: number
  readonly budget: LiveBudget
}

function decision({ chosen, refused }: Sheet, reason: string): string {
  if (chosen === null) return refused.length === 0 ? 'No design yet.' : 'No design can be evaluated.'
  const { name } = chosen.candidate
  if (chosen.byEngineer) return `Chosen: ${name}. ${reason}`.trim()
  return `Proposed: ${name}. Fewest requirements not met, then lowest nominal loss; no design is chosen yet.`
}

/** Rows of the designs, live; returns the row after them. */
function designRows(writer: PageWriter, row: number, budgets: readonly PlacedBudget[]): number {
  for (const [i, head] of [
    'Design',
    'Nominal, dB',
    'RSS, dB',
    'Worst case, dB',
    'Transmitted',
    'Page',
  ].entries())
    writer.text(row, i, head, i > 0 && i < LAST ? 'numberHead' : 'head')
  for (const [i, { at, budget }] of budgets.entries()) {
    const { nominal, rss, worst, efficiency } = budget.totals
    writer.text(row + 1 + i, 0, budget.title)
    for (const [column, total] of [nominal, rss, worst, efficiency].entries())
      writer.formula(row + 1 + i, 1 + column, total)
    writer.text(row + 1 + i, LAST, `Budget ${at + 1}`, 'unit')
  }
  return row + 1 + budgets.length
}

/** `reason` is the engineer's, as the project has it. */
export function frontPage(sheet: Sheet, reason: string, budgets: readonly PlacedBudget[]): Page {
  const { head, chosen, candidates } = sheet
  const writer = pageWriter('Summary')
  const spans: (readonly [number, number, number])[] = []
  const across = (row: number, text: string, style: 'title' | 'text' | 'note') => {
    writer.text(row, 0, neutral(text), style)
    spans.push([row, 0, LAST])
  }
  across(0, head.title, 'title')
  across(1, `${head.subject}. Revision: ${head.revision}. ${head.date}. SHA-256 ${head.checksum}`, 'note')
  across(3, decision(sheet, reason), 'text')

  let row = 5
  if (chosen !== null) {
    writer.text(row, 0, `Requirements of ${neutral(chosen.candidate.name)}, as exported`, 'head')
    writer.text(row, 1, 'Verdict', 'head')
    writer.text(row, 2, 'Basis', 'head')
    for (const { label, status, reason: why } of chosen.candidate.verdicts) {
      row += 1
      writer.text(row, 0, neutral(label))
      writer.text(row, 1, statusText(status), status === 'met' ? 'text' : 'total')
      writer.text(row, 2, neutral(why))
      spans.push([row, 2, LAST])
    }
    row += 2
  }
  row = designRows(writer, row, budgets) + 1
  const own = budgets.find(({ at }) => candidates[at]?.id === chosen?.candidate.id)?.budget
  across(
    row,
    'Numbers of the designs follow the inputs on What if and on the budget pages. Joints holds the closed forms; the whole review document is on the hidden page Document.',
    'note',
  )
  return {
    ...writer.page(WIDTHS, 1),
    spans,
    print: { orientation: 'portrait', pages: 1 },
    ...(own === undefined
      ? {}
      : {
          charts: [
            {
              title: `Loss budget of ${own.title}, dB`,
              ...own.waterfall,
              from: [row + 2, 0] as const,
              to: [row + 2 + CHART_FRAME + own.waterfall.bars, LAST] as const,
            },
          ],
        }),
  }
}
