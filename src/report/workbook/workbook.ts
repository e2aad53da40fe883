// The workbook of the review: summary, designs side by side, a live budget a design, all joints, and the document itself.

import { compileCandidate } from '../../analysis/path/compileCandidate'
import type { Variable } from '../../analysis/results/evaluation'
import { PART_LISTS } from '../../model/project/references'
import type { Project } from '../../model/schema/project'
import type { Sheet } from '../sheet'
import { type JointSheet, liveBudget } from './budgetPage'
import { frontPage, type PlacedBudget } from './frontPage'
import { pageWriter, type WorkbookPage } from './page'
import { sheetPage } from './sheetPage'
import { whatIf } from './whatIfPage'
import { workbookOf } from './writePages'

const LISTS: ReadonlySet<unknown> = new Set(PART_LISTS)

/** Which quantities of parts are read by more than one of the designs. */
function sharedQuantities(project: Project, ids: readonly string[]): (variable: Variable) => boolean {
  const counts = new Map<string, number>()
  for (const id of ids) {
    const compiled = compileCandidate(project, id)
    if (!compiled.ok) continue
    for (const { path } of compiled.value.variables) {
      const key = path.join('/')
      if (LISTS.has(path[0])) counts.set(key, (counts.get(key) ?? 0) + 1)
    }
  }
  return ({ path }) => (counts.get(path.join('/')) ?? 0) > 1
}

/** On paper the scenarios of all joints with their results fit on so many pages. */
const JOINT_PAGES = 4
const JOINT_COLUMNS_PRINTED = 2

function jointsPage({ writer, widths, groups }: JointSheet): WorkbookPage {
  return {
    ...writer.page(widths, 0, 1),
    groups,
    print: { orientation: 'portrait', pages: JOINT_PAGES, lastColumn: JOINT_COLUMNS_PRINTED },
  }
}

export async function sheetWorkbook(sheet: Sheet, project: Project): Promise<Uint8Array> {
  const ids = sheet.candidates.map(({ id }) => id)
  const comparison = whatIf(ids.length, sharedQuantities(project, ids))
  const joints: JointSheet = { writer: pageWriter('Joints'), row: 0, widths: [], groups: [] }
  const budgets = sheet.candidates.flatMap((candidate, at): readonly PlacedBudget[] => {
    const budget = liveBudget(project, candidate, at + 1, candidate.name, joints, comparison.shared)
    return budget === null ? [] : [{ at, budget }]
  })
  return workbookOf(
    sheet.head,
    [
      frontPage(sheet, budgets),
      ...(budgets.length === 0 ? [] : [comparison.page(budgets.map(({ budget }) => budget))]),
      ...budgets.map(({ budget }) => budget.page),
      ...(joints.row === 0 ? [] : [jointsPage(joints)]),
      { ...sheetPage(sheet), hidden: true },
    ],
    [...comparison.names(), ...budgets.flatMap(({ budget }) => budget.names)],
  )
}
