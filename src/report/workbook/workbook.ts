// The workbook of the review: the sheet to read, and a live budget for every candidate.

import { neutral } from '../../model/parts/neutralText'
import type { Project } from '../../model/schema/project'
import type { Sheet } from '../sheet'
import { liveBudget } from './budgetPage'
import { sheetPage } from './sheetPage'
import { workbookOf } from './writePages'

export async function sheetWorkbook(sheet: Sheet, project: Project): Promise<Uint8Array> {
  const budgets = sheet.candidates.flatMap((candidate, i) => {
    const live = liveBudget(project, candidate, i + 1, neutral(candidate.name))
    return live === null ? [] : [live]
  })
  return workbookOf(
    sheet.head,
    [sheetPage(sheet), ...budgets.flatMap((budget) => budget.pages)],
    budgets.flatMap(({ names }) => names),
  )
}
