// The first page: the summary of the review (summary/summary.ts), with the totals of all designs live and the loss budget as bars.

import { statusText } from '../../analysis/results/verdict'
import type { SheetCandidate } from '../candidates'
import { provisionalLabel, provisionalText } from '../provisional'
import type { Sheet } from '../sheet'
import type { Summary } from '../summary/summary'
import type { LiveBudget } from './budgetPage'
import { type CellStyleName, type PageWriter, pageWriter, type WorkbookPage } from './page'

const WIDTHS = [38, 14, 14, 14, 14, 30] as const
const LAST = WIDTHS.length - 1

/** Rows of a chart next to those of its bars. */
const CHART_FRAME = 8

/** A budget with the design that it belongs to, by its index among the candidates of the sheet. */
export interface PlacedBudget {
  readonly at: number
  readonly budget: LiveBudget
}

/** Rows below each other, some texts running over several columns. */
interface Rows {
  readonly writer: PageWriter
  readonly spans: (readonly [row: number, from: number, to: number])[]
  at: number
}

function across(rows: Rows, from: number, content: string, style: CellStyleName = 'text'): void {
  rows.writer.text(rows.at, from, content, style)
  if (from < LAST) rows.spans.push([rows.at, from, LAST])
}

function line(rows: Rows, content: string, style: CellStyleName = 'text'): void {
  across(rows, 0, content, style)
  rows.at += 1
}

function decisionText({ decision }: Summary): string {
  if (decision.byEngineer) return `Selected: ${decision.name}. ${decision.reason}`.trim()
  return `Proposed: ${decision.name}. No design is selected yet; this one has the fewest requirements not met or not evaluated, then the lowest nominal loss.`
}

function verdictRows(rows: Rows, { verdicts }: Summary): void {
  const { writer } = rows
  for (const [i, head] of ['Requirement', 'Verdict', 'Result', 'Limit', 'Basis'].entries())
    writer.text(rows.at, i, head, 'head')
  rows.at += 1
  for (const { label, status, wish, found, limit, reason } of verdicts) {
    writer.text(rows.at, 0, wish ? `${label} (desirable)` : label)
    writer.text(rows.at, 1, statusText(status), status === 'met' ? 'text' : 'total')
    writer.text(rows.at, 2, found)
    writer.text(rows.at, 3, limit)
    across(rows, 4, reason)
    rows.at += 1
  }
  rows.at += 1
}

function lossRows(rows: Rows, { losses, yields, limitDb }: Summary): void {
  const { writer } = rows
  writer.text(rows.at, 0, 'Selected design, as exported', 'head')
  writer.text(rows.at, 1, 'Value', 'numberHead')
  writer.text(rows.at, 2, 'Unit', 'unitHead')
  writer.text(rows.at, 3, 'Basis', 'head')
  rows.at += 1
  const put = (label: string, value: number | null, unit: string, basis: string) => {
    writer.text(rows.at, 0, label)
    if (value === null) writer.text(rows.at, 1, 'not evaluated', 'carried')
    else writer.number(rows.at, 1, value, 'result')
    writer.text(rows.at, 2, unit, 'unit')
    across(rows, 3, basis)
    rows.at += 1
  }
  for (const { label, lossDb, basis } of losses) put(label, lossDb, 'dB', basis)
  for (const { label, share } of yields) put(label, share, '', `share within ${limitDb} dB, 0 to 1`)
  rows.at += 1
}

function designRows(
  rows: Rows,
  budgets: readonly PlacedBudget[],
  candidates: readonly SheetCandidate[],
): void {
  const { writer } = rows
  for (const [i, head] of [
    'Designs, recalculated',
    'Nominal, dB',
    'RSS, dB',
    'Worst case, dB',
    'Transmitted',
    'Page',
  ].entries())
    writer.text(rows.at, i, head, i === 0 ? 'head' : i < LAST ? 'numberHead' : 'unitHead')
  rows.at += 1
  for (const { at, budget } of budgets) {
    const { nominal, rss, worst, efficiency } = budget.totals
    writer.text(rows.at, 0, budget.title)
    for (const [column, total] of [nominal, rss, worst, efficiency].entries())
      writer.formula(rows.at, 1 + column, total)
    const page = budget.carried === 0 ? `Budget ${at + 1}` : `Budget ${at + 1}, partly fixed values`
    const evaluation = candidates[at]?.evaluation
    writer.text(rows.at, LAST, evaluation === undefined ? page : provisionalLabel(page, evaluation), 'unit')
    rows.at += 1
  }
  rows.at += 1
}

export function frontPage(
  { head, summary, candidates, refused }: Sheet,
  budgets: readonly PlacedBudget[],
): WorkbookPage {
  const writer = pageWriter('Summary')
  const rows: Rows = { writer, spans: [], at: 0 }
  line(rows, head.title, 'title')
  line(rows, `${head.subject}. Revision: ${head.revision}. ${head.date}. SHA-256 ${head.checksum}`, 'note')
  rows.at += 1
  if (summary === null) line(rows, refused.length === 0 ? 'No design yet.' : 'No design can be evaluated.')
  else {
    line(rows, decisionText(summary))
    const provisional = provisionalText(candidates)
    if (provisional !== '') line(rows, provisional, 'total')
    rows.at += 1
    verdictRows(rows, summary)
    lossRows(rows, summary)
  }
  designRows(rows, budgets, candidates)
  if (summary !== null && summary.risks.length > 0) {
    line(rows, 'Main risks', 'title')
    for (const { text } of summary.risks) line(rows, text)
    rows.at += 1
  }
  if (summary !== null && summary.alternatives.length > 0) {
    line(rows, 'Alternatives considered', 'title')
    for (const { name, reason } of summary.alternatives) {
      writer.text(rows.at, 0, name)
      across(rows, 1, reason)
      rows.at += 1
    }
    rows.at += 1
  }
  line(
    rows,
    'The numbers of the designs follow the inputs on the What if page and the budget pages. The Joints page contains the closed forms; the whole review document is on the hidden Document page.',
    'note',
  )
  const own = budgets.find(({ at }) => candidates[at]?.id === summary?.decision.designId)?.budget
  return {
    ...writer.page(WIDTHS, 1),
    spans: rows.spans,
    print: { orientation: 'portrait', pages: 1 },
    ...(own === undefined
      ? {}
      : {
          charts: [
            {
              title: `Loss budget of ${own.title}, dB`,
              ...own.waterfall,
              from: [rows.at + 1, 0] as const,
              to: [rows.at + 1 + CHART_FRAME + own.waterfall.bars, LAST] as const,
            },
          ],
        }),
  }
}
