// Sheets for tests: the demo with its runs, and ways to find a cell on a sheet.

import { runArray } from '../../../src/analysis/array/runArray'
import { runYield } from '../../../src/analysis/index'
import type { Project } from '../../../src/model/schema/project'
import type { SheetRuns } from '../../../src/report/candidates'
import { type Cell, plainBlocks, type TableBlock } from '../../../src/report/document/blocks'
import { buildSheet, type Sheet, type SheetRequest } from '../../../src/report/sheet'
import { twoDesigns } from '../../support/twoDesigns'

export const DATE = '2026-11-25'
export const CHOSEN = 'high-na-bonded'

let ofDemo: SheetRuns | undefined

/** Runs small enough for a test, of the candidate that the demo's numbers propose. */
export function demoRuns(project?: Project): SheetRuns {
  if (project !== undefined) return runsOf(project)
  ofDemo ??= runsOf(twoDesigns())
  return ofDemo
}

function runsOf(project: Project): SheetRuns {
  return {
    yields: new Map([[CHOSEN, runYield(project, CHOSEN, { samples: 5000 })]]),
    arrays: new Map([[CHOSEN, runArray(project, CHOSEN, { samples: 128 })]]),
  }
}

const MOST_KEPT = 12
const sheets = new Map<string, Sheet>()
const numbers = new WeakMap<SheetRuns, number>()
let runsSeen = 0

function numberOfRuns(runs: SheetRuns | undefined): number {
  if (runs === undefined) return 0
  const number = numbers.get(runs) ?? ++runsSeen
  numbers.set(runs, number)
  return number
}

/** The sheet of a project; of equal projects with the same runs it is built once for all test files of a worker. */
export function sheetOf(project: Project, more: Partial<SheetRequest> = {}): Sheet {
  const build = () => buildSheet({ project, date: DATE, ...more })
  const { runs, ...others } = more
  if (Object.keys(others).length > 0) return build()
  const key = `${numberOfRuns(runs)} ${JSON.stringify(project)}`
  const sheet = sheets.get(key) ?? build()
  sheets.delete(key)
  sheets.set(key, sheet)
  const [oldest] = sheets.keys()
  if (sheets.size > MOST_KEPT && oldest !== undefined) sheets.delete(oldest)
  return sheet
}

export function tablesOf(sheet: Sheet, sectionId: string): readonly TableBlock[] {
  const section = sheet.sections.find(({ id }) => id === sectionId)
  return plainBlocks(section?.blocks ?? []).filter((block): block is TableBlock => block.kind === 'table')
}

export function rowOf(table: TableBlock | undefined, mark: string): readonly Cell[] {
  const row = table?.rows.find((each) => each.mark === mark)
  if (row === undefined) throw new Error(`no row ${mark}`)
  return row.cells
}

export function numberOf(cell: Cell | undefined): number {
  if (typeof cell !== 'object') throw new Error(`${cell} is no number`)
  return cell.value
}
