// The files that a sheet can become. A new format is a file in formats/ and an entry here. Each is loaded when it is asked
// for.

import type { Project } from '../model/schema/project'
import type { FigureBlock } from './document/blocks'
import type { Sheet } from './sheet'

/** Name of the file next to the document that holds a figure. */
export type FiguresBeside = (figure: Pick<FigureBlock, 'id'>) => string

export interface SheetFormat {
  readonly id: string
  readonly label: string
  /** With the point. */
  readonly ending: string
  readonly mediaType: string
  /** The same sheet and project give the same file, byte for byte. */
  readonly render: (sheet: Sheet, project: Project, beside?: FiguresBeside) => Promise<string | Uint8Array>
}

export const FORMATS: readonly SheetFormat[] = [
  {
    id: 'xlsx',
    label: 'Spreadsheet, live formulas',
    ending: '.xlsx',
    mediaType: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
    render: async (sheet, project) => (await import('./workbook/workbook')).sheetWorkbook(sheet, project),
  },
  {
    id: 'html',
    label: 'HTML, one file',
    ending: '.html',
    mediaType: 'text/html',
    render: async (sheet) => (await import('./formats/html')).sheetHtml(sheet),
  },
  {
    id: 'md',
    label: 'Markdown',
    ending: '.md',
    mediaType: 'text/markdown',
    render: async (sheet, _, beside) => (await import('./formats/markdown')).sheetMarkdown(sheet, beside),
  },
  {
    id: 'csv',
    label: 'CSV',
    ending: '.csv',
    mediaType: 'text/csv',
    render: async (sheet) => (await import('./formats/csv')).sheetCsv(sheet),
  },
  {
    id: 'json',
    label: 'JSON',
    ending: '.json',
    mediaType: 'application/json',
    render: async (sheet, project) => (await import('./formats/reviewJson')).reviewJson(sheet, project),
  },
]
