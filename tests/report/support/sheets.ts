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

export function sheetOf(project: Project, more: Partial<SheetRequest> = {}): Sheet {
  return buildSheet({ project, date: DATE, ...more })
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
