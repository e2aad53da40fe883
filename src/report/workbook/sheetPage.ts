// The whole sheet as one page: every section, table and number, to read and to filter.

import { type SheetRow, sheetRows } from '../formats/sheetRows'
import type { Sheet } from '../sheet'
import { type CellStyleName, pageWriter, type WorkbookPage } from './page'

const STYLES: Readonly<Partial<Record<SheetRow['kind'], CellStyleName>>> = {
  table: 'title',
  columns: 'head',
  total: 'total',
  remark: 'note',
}

export function sheetPage(sheet: Sheet): WorkbookPage {
  const writer = pageWriter('Document')
  for (const [i, head] of ['Section', 'Kind'].entries()) writer.text(0, i, head, 'head')
  for (const [i, { section, kind, cells }] of sheetRows(sheet).entries()) {
    writer.text(i + 1, 0, section, 'note')
    writer.text(i + 1, 1, kind, 'note')
    for (const [column, cell] of cells.entries()) {
      const style = STYLES[kind]
      if (typeof cell === 'string') writer.text(i + 1, column + 2, cell, style)
      else if (Number.isFinite(cell.value)) {
        writer.number(
          i + 1,
          column + 2,
          cell.value,
          style ?? (Number.isInteger(cell.value) ? 'text' : 'result'),
        )
      } else writer.text(i + 1, column + 2, cell.text, style)
    }
  }
  return writer.page([26, 9, 60, 30, 18, 18, 30, 18, 18, 18, 18, 18], 1, 2)
}
