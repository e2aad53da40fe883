// Pages as the bytes of a workbook: looks, column widths, row heights, validation, printing, charts. Text of people is never written where
// a program would compute it.

import { type CellStyle, type SheetChart, type WriteOptions, type WriteSheet, writeXlsx } from 'hucre/xlsx'
import { writable } from '../../figures/render/markup'
import { PALETTES, type Tone } from '../../figures/render/palette'
import type { SheetHead } from '../sheet'
import {
  type CellName,
  type CellStyleName,
  columnLetters,
  type PageCell,
  type PageChart,
  SIGN_FORMAT,
  type WorkbookPage,
} from './page'

/** A colour of the palette for paper, as a workbook writes it. */
const colour = (tone: Tone) => ({ rgb: PALETTES.paper[tone].slice(1).toUpperCase() })
const INK = colour('ink')
const thin = { style: 'thin', color: colour('rule') } as const
const solid = (tone: Tone) => ({ type: 'pattern', pattern: 'solid', fgColor: colour(tone) }) as const
/** Everything is aligned to the top of its row, so that a number is level with its text where that takes several lines. */
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
  plain: { font, numFmt: 'General', alignment: { ...top, horizontal: 'left' } },
  head: { font: bold, border: { bottom: thin }, alignment: wrapped },
  numberHead: { font: bold, border: { bottom: thin }, alignment: { ...wrapped, horizontal: 'right' } },
  unitHead: {
    font: bold,
    border: { bottom: thin },
    alignment: { ...wrapped, horizontal: 'left', indent: 1 },
  },
  title: { font: { ...bold, size: 12 }, alignment: top },
  unit: { font: { ...font, color: QUIET }, alignment: { ...top, horizontal: 'left', indent: 1 } },
  input,
  computed: { ...input, numFmt: '0.0000' },
  result: { font, numFmt: '0.0000', alignment: top },
  sign: { font, numFmt: SIGN_FORMAT, alignment: top },
  total: { font: bold, border: { top: thin }, numFmt: '0.0000', alignment: wrapped },
  verdict: { font: bold, alignment: { ...wrapped, horizontal: 'left', indent: 1 } },
  carried: { font: { ...font, italic: true, color: QUIET }, numFmt: '0.0000', alignment: top },
  linked: { font, numFmt: 'General', border: { bottom: thin }, alignment: top },
  note: { font: { ...font, color: QUIET }, alignment: wrapped },
}

const DEFAULT_WIDTH = 10
/** Pages with more columns would be too small to read on one width of paper. */
const WIDEST_FITTED = 20

/** Longest text that a cell of a workbook holds (ECMA-376 names no limit; programs stop here). */
const LONGEST_TEXT = 32_767

/** `_x0041_` represents a letter in a workbook, and itself only when its first character is written so (ECMA-376, 22.9.2.19). */
const ESCAPE = /_(?=x[0-9a-f]{4}_)/gi

function textOf(content: string): string {
  const text = writable(content).replace(ESCAPE, '_x005F_')
  return text.length > LONGEST_TEXT ? `${text.slice(0, LONGEST_TEXT - 1)}…` : text
}

function cellOf({ value, formula, style, format }: PageCell) {
  const look = format === undefined ? STYLES[style] : { ...STYLES[style], numFmt: format }
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
function rowHeights({ cells, widths, spans }: WorkbookPage): ReadonlyMap<number, number> {
  const lines = new Map<number, number>()
  const wide = new Map((spans ?? []).map(([row, from, to]) => [`${row},${from}`, to]))
  for (const [at, { value, style }] of cells) {
    const last = wide.get(at)
    if (typeof value !== 'string' || (STYLES[style].alignment?.wrapText !== true && last === undefined))
      continue
    const [row = 0, column = 0] = at.split(',').map(Number)
    const width = widths.slice(column, (last ?? column) + 1).reduce((sum, each) => sum + each, 0)
    lines.set(row, Math.max(lines.get(row) ?? 1, linesOf(value, width || DEFAULT_WIDTH)))
  }
  return new Map(
    Array.from(lines)
      .filter(([, count]) => count > 1)
      .map(([row, count]) => [row, Math.min(HIGHEST_POINTS, LINE_POINTS * count)]),
  )
}

type RowDefs = NonNullable<WriteSheet['rowDefs']>

function rowDefs(page: WorkbookPage): RowDefs {
  const heights = rowHeights(page)
  const defs = new Map<number, { height?: number; outlineLevel?: number }>(
    Array.from(heights, ([row, height]) => [row, { height }]),
  )
  for (const [first, last] of page.groups ?? []) {
    for (let row = first; row <= last; row++) defs.set(row, { ...defs.get(row), outlineLevel: 1 })
  }
  return defs
}

/** A number outside the limits is refused by the spreadsheet program, with the reason. */
function validations({ limits }: WorkbookPage): NonNullable<WriteSheet['dataValidations']> {
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

/** Bars that begin where the one before ends: stacked on a series without colour. */
function chartOf({ title, labels, base, rising, falling, from, to }: PageChart): SheetChart {
  const series = (name: string, values: string, tone: Tone) => ({
    name,
    values,
    categories: labels,
    color: colour(tone).rgb,
  })
  return {
    type: 'bar',
    title,
    barGrouping: 'stacked',
    overlap: 100,
    gapWidth: 40,
    legend: false,
    axes: { x: { reverse: true }, y: { numberFormat: { formatCode: '0.0' } } },
    series: [
      { ...series('Base', base, 'paper'), dataLabels: false },
      series('Loss, dB', rising, 'accent'),
      series('Gain, dB', falling, 'quiet'),
    ],
    anchor: { from: { row: from[0], col: from[1] }, to: { row: to[0], col: to[1] } },
  }
}

function lastCell({ cells, charts, spans }: WorkbookPage): readonly [row: number, column: number] {
  const positions = [...cells.keys()].map((key) => key.split(',').map(Number))
  const corners = [
    ...(charts ?? []).map(({ to }) => to),
    ...(spans ?? []).map(([row, , to]) => [row, to] as const),
  ]
  const most = (axis: 0 | 1) =>
    [...positions, ...corners].reduce((max, position) => Math.max(max, position[axis] ?? 0), 0)
  return [most(0), most(1)]
}

function pageSetup(page: WorkbookPage, head: SheetHead): NonNullable<WriteSheet['pageSetup']> {
  const { print, widths } = page
  return {
    paperSize: head.paper === 'A4' ? 'a4' : 'letter',
    orientation: print?.orientation ?? 'landscape',
    ...(print === undefined && widths.length > WIDEST_FITTED
      ? {}
      : { fitToPage: true, fitToWidth: 1, fitToHeight: print?.pages ?? 0 }),
    margins: { left: 0.5, right: 0.5, top: 0.5, bottom: 0.6, header: 0.3, footer: 0.3 },
  }
}

/**
 * What is printed of a page, and the rows repeated, as the reserved names of ECMA-376, 18.2.5: written here, because the library
 * leaves out the quotes that a page's name with a space needs. A page without an area is not printed.
 */
function printNames(page: WorkbookPage): NonNullable<WriteOptions['namedRanges']> {
  const { name, print, hidden } = page
  if (hidden) return []
  const [row, column] = lastCell(page)
  const area = `'${name}'!$A$1:$${columnLetters(print?.lastColumn ?? column)}$${row + 1}`
  const heading = print?.headingRows
  return [
    { name: '_xlnm.Print_Area', range: area, scope: name },
    ...(heading === undefined
      ? []
      : [
          {
            name: '_xlnm.Print_Titles',
            range: `'${name}'!$${heading[0] + 1}:$${heading[1] + 1}`,
            scope: name,
          },
        ]),
  ]
}

/** A text in a header or footer, where & begins a code. */
const literally = (text: string) => text.replaceAll('&', '&&')

const LONGEST_FOOT = 60

function writeSheet(page: WorkbookPage, head: SheetHead): WriteSheet {
  const { name, cells, widths, frozenRows, frozenColumns, charts, spans } = page
  const checked = validations(page)
  const foot = literally(`${head.title}, ${head.revision}, ${head.date}`.slice(0, LONGEST_FOOT))
  return {
    name,
    columns: widths.map((width) => ({ width })),
    rowDefs: rowDefs(page),
    cells: new Map(Array.from(cells, ([at, cell]) => [at, cellOf(cell)])),
    ...(checked.length === 0 ? {} : { dataValidations: checked }),
    ...(frozenRows + frozenColumns === 0 ? {} : { freezePane: { rows: frozenRows, columns: frozenColumns } }),
    ...(spans === undefined
      ? {}
      : {
          merges: spans.map(([row, from, to]) => ({
            startRow: row,
            endRow: row,
            startCol: from,
            endCol: to,
          })),
        }),
    ...(charts === undefined ? {} : { charts: charts.map(chartOf) }),
    ...(page.hidden ? { hidden: true } : {}),
    outlineProperties: { summaryBelow: false },
    pageSetup: pageSetup(page, head),
    headerFooter: { oddFooter: `&L&8 ${foot}&C&8 ${head.checksum.slice(0, 8)} · &A&R&8 &P / &N` },
  }
}

/** The day of the sheet, so that nothing in the file depends on a clock; the first day of the calendar for other words. */
function dayOf(date: string): Date {
  return new Date(/^\d{4}-\d{2}-\d{2}$/.test(date) ? `${date}T00:00:00Z` : 0)
}

/** The workbook of some pages; the same pages and head give the same bytes. */
export async function workbookOf(
  head: SheetHead,
  pages: readonly WorkbookPage[],
  names: readonly CellName[] = [],
): Promise<Uint8Array> {
  const day = dayOf(head.date)
  return writeXlsx({
    sheets: pages.map((page) => writeSheet(page, head)),
    namedRanges: [...names.map(({ name, at }) => ({ name, range: at })), ...pages.flatMap(printNames)],
    properties: {
      title: textOf(head.title),
      description: `${head.subject}, project SHA-256 ${head.checksum}`,
      creator: `Modeseam ${head.programVersion}`,
      created: day,
      modified: day,
    },
  })
}
