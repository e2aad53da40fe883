// The sheet as CSV (RFC 4180): section, kind of row, then the cells; numbers in full, with a point. A text that a spreadsheet
// program would take for a formula is led by an apostrophe.

import Papa from 'papaparse'
import { columnTitle } from '../../figures/figure'
import { escapeFormula } from '../../model/parts/formulaEscape'
import type { Cell, TableBlock } from '../document/blocks'
import type { Printed } from '../sheet'
import { sheetRows } from './sheetRows'

const field = (cell: Cell) => (typeof cell === 'string' ? escapeFormula(cell) : String(cell.value))

/** Rows of cells as CSV, each with the same number of fields. */
function csvText(rows: readonly (readonly Cell[])[]): string {
  const width = Math.max(0, ...rows.map((row) => row.length))
  const fields = rows.map((row) => Array.from({ length: width }, (_, i) => field(row[i] ?? '')))
  return `${Papa.unparse(fields, { newline: '\r\n' })}\r\n`
}

/** One table as CSV, its head first. */
export function tableText({ columns, rows }: TableBlock): string {
  return csvText([columns.map(columnTitle), ...rows.map(({ cells }) => cells)])
}

/** With a byte order mark: spreadsheet programs read UTF-8 only with it. */
export function sheetCsv(sheet: Printed): string {
  const rows = sheetRows(sheet).map(({ section, kind, cells }) => [section, kind, ...cells])
  return `\ufeff${csvText([['Section', 'Kind'], ...rows])}`
}
