// The workbook: the sheet to read, and a live budget for every candidate. Text of people never stands where a program
// would compute it.

import { type CellStyle, type WriteSheet, writeXlsx } from 'hucre/xlsx'
import { writable } from '../../figures/render/markup'
import { PALETTES, type Tone } from '../../figures/render/palette'
import { neutral } from '../../model/parts/neutralText'
import type { Project } from '../../model/schema/project'
import type { Sheet } from '../sheet'
import { liveBudget } from './budgetPage'
import type { CellStyleName, Page, PageCell } from './page'
import { sheetPage } from './sheetPage'

/** A colour of the palette for paper, as a workbook writes it. */
const colour = (tone: Tone) => ({ rgb: PALETTES.paper[tone].slice(1).toUpperCase() })
const INK = colour('ink')
const thin = { style: 'thin', color: colour('rule') } as const
const solid = (tone: Tone) => ({ type: 'pattern', pattern: 'solid', fgColor: colour(tone) }) as const
/** Everything stands at the top of its row, so that a number is level with its text where that takes several lines. */
const top = { vertical: 'top' } as const
const wrapped = { ...top, wrapText: true } as const
/** Programs put their own letters where a font has no name. */
const font = { name: 'Calibri', size: 11 } as const
const QUIET = colour('quiet')
const input: CellStyle = {
  font: { ...font, color: colour('accent') },
  fill: solid('adhesive'),
  border: { top: thin, bottom: thin, left: thin, right: thin },
  numFmt: 'General',
  alignment: top,
}
const bold = { ...font, bold: true, color: INK } as const

const STYLES: Readonly<Record<CellStyleName, CellStyle>> = {
  text: { font, alignment: wrapped },
  head: { font: bold, border: { bottom: thin }, alignment: wrapped },
  title: { font: { ...bold, size: 12 }, alignment: top },
  unit: { font: { ...font, color: QUIET }, alignment: { ...top, horizontal: 'left', indent: 1 } },
  input,
  computed: { ...input, numFmt: '0.0000' },
  result: { font, numFmt: '0.0000', alignment: top },
  total: { font: bold, border: { top: thin }, numFmt: '0.0000', alignment: wrapped },
  carried: { font: { ...font, italic: true, color: QUIET }, numFmt: '0.0000', alignment: top },
  note: { font: { ...font, color: QUIET }, alignment: top },
}

const DEFAULT_WIDTH = 10
/** Pages with more columns would be too small to read on one width of paper. */
const WIDEST_FITTED = 20

/** Longest text that a cell of a workbook holds (ECMA-376 names no limit; programs stop here). */
const LONGEST_TEXT = 32_767

/** `_x0041_` stands for a letter in a workbook, and for itself only when its first sign is written so (ECMA-376, 22.9.2.19). */
const ESCAPE = /_(?=x[0-9a-f]{4}_)/gi

function textOf(content: string): string {
  const text = writable(content).replace(ESCAPE, '_x005F_')
  return text.length > LONGEST_TEXT ? `${text.slice(0, LONGEST_TEXT - 1)}…` : text
}

function cellOf({ value, formula, style }: PageCell) {
  const look = STYLES[style]
  if (typeof value === 'string' && formula === undefined)
    return { value: textOf(value), type: 'string' as const, style: look }
  if (formula === undefined) return { value, type: 'number' as const, style: look }
  return { value, type: 'formula' as const, formula, formulaResult: value, style: look }
}

const LINE_POINTS = 15
/** No program makes a row higher. */
const HIGHEST_POINTS = 409

/** Lines that a text takes in a column so many characters wide. */
function linesOf(text: string, width: number): number {
  return text.split('\n').reduce((lines, line) => lines + Math.max(1, Math.ceil(line.length / width)), 0)
}

/** Rows high enough for their text: programs differ in whether they find that out by themselves. */
function rowHeights({ cells, widths }: Page): Map<number, { height: number }> {
  const lines = new Map<number, number>()
  for (const [at, { value, style }] of cells) {
    if (typeof value !== 'string' || STYLES[style].alignment?.wrapText !== true) continue
    const [row = 0, column = 0] = at.split(',').map(Number)
    lines.set(row, Math.max(lines.get(row) ?? 1, linesOf(value, widths[column] ?? DEFAULT_WIDTH)))
  }
  return new Map(
    Array.from(lines)
      .filter(([, count]) => count > 1)
      .map(([row, count]) => [row, { height: Math.min(HIGHEST_POINTS, LINE_POINTS * count) }]),
  )
}

/** A number outside the limits is refused by the spreadsheet program, with the reason. */
function validations({ limits }: Page): NonNullable<WriteSheet['dataValidations']> {
  return Array.from(limits, ([range, { from, to, message }]) => ({
    type: 'decimal',
    operator: 'between',
    formula1: String(from),
    formula2: String(to),
    showErrorMessage: true,
    errorStyle: 'stop',
    errorTitle: 'Value not allowed',
    errorMessage: message,
    range,
  }))
}

function writeSheet(page: Page, sheet: Sheet): WriteSheet {
  const { name, cells, limits, widths, frozenRows, frozenColumns } = page
  return {
    name,
    columns: widths.map((width) => ({ width })),
    rowDefs: rowHeights(page),
    cells: new Map(Array.from(cells, ([at, cell]) => [at, cellOf(cell)])),
    ...(limits.size === 0 ? {} : { dataValidations: validations(page) }),
    ...(frozenRows + frozenColumns === 0 ? {} : { freezePane: { rows: frozenRows, columns: frozenColumns } }),
    pageSetup: {
      paperSize: sheet.head.paper === 'A4' ? 'a4' : 'letter',
      orientation: 'landscape',
      ...(widths.length > WIDEST_FITTED ? {} : { fitToPage: true, fitToWidth: 1, fitToHeight: 0 }),
    },
    headerFooter: { oddFooter: '&L&A&R&P / &N' },
  }
}

/** The day of the sheet, so that nothing in the file depends on a clock; the first day of the calendar for other words. */
function dayOf(date: string): Date {
  return new Date(/^\d{4}-\d{2}-\d{2}$/.test(date) ? `${date}T00:00:00Z` : 0)
}

export async function sheetWorkbook(sheet: Sheet, project: Project): Promise<Uint8Array> {
  const budgets = sheet.candidates.flatMap((candidate, i) => {
    const live = liveBudget(project, candidate, i + 1, neutral(candidate.name))
    return live === null ? [] : [live]
  })
  const pages = [sheetPage(sheet), ...budgets.flatMap((budget) => budget.pages)]
  const day = dayOf(sheet.head.date)
  return writeXlsx({
    sheets: pages.map((page) => writeSheet(page, sheet)),
    namedRanges: budgets.flatMap(({ names }) => names.map(({ name, at }) => ({ name, range: at }))),
    properties: {
      title: textOf(sheet.head.title),
      description: `Coupling budget, project SHA-256 ${sheet.head.checksum}`,
      creator: `Modeseam ${sheet.head.programVersion}`,
      created: day,
      modified: day,
    },
  })
}
