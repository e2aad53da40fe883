// A text table split into heading, numbers and the lines that are neither.

import { isUnitRow, roleOf, splitLabel } from './columnLabel'
import { type Dialect, findDialect, splitLine } from './dialect'
import { parseNumber, whyNotNumber } from './numberText'
import type { RefusedLine } from './scan'
import { commentText, type NumberedLine, numberedLines } from './textLines'

export interface TextTable {
  readonly dialect: Dialect
  /** One heading per column, or none. */
  readonly headings: readonly string[]
  /** The line of units under the headings, or none. */
  readonly units: readonly string[]
  readonly notes: readonly string[]
  readonly columns: readonly Float64Array[]
  readonly rowsRead: number
  readonly refusedLines: readonly RefusedLine[]
}

const SAMPLE_LINES = 200
const SHOWN_TEXT = 120
const LINES_PER_REPORT = 50_000
/** No table has longer lines; a file without line ends is a single longer one. */
const LONGEST_LINE = 100_000

/** Reads any delimited text; a text without two columns of numbers comes back with no rows. */
export function readTable(
  text: string,
  given: { delimiter?: string; decimalMark?: string } = {},
  onProgress?: (share: number) => void,
): TextTable {
  const dialect = findDialect(sampleLines(text), given)
  const notes: string[] = []
  const preamble: NumberedLine[] = []
  const refusedLines: RefusedLine[] = []
  const passed = new Set([...dialect.times, ...dialect.words])
  const row = new Float64Array(dialect.fields - passed.size)
  const columns = Array.from(row, () => new Float64Array(1024))
  let rowsRead = 0
  let charactersRead = 0
  for (const line of numberedLines(text)) {
    charactersRead += line.text.length + 1
    if (line.number % LINES_PER_REPORT === 0) onProgress?.(Math.min(1, charactersRead / text.length))
    if (line.text.trim() === '') continue
    const comment = commentText(line.text)
    if (comment !== null) {
      notes.push(comment)
      continue
    }
    const readable = dialect.rows > 0 || line.text.length > LONGEST_LINE
    const reason = readable ? readRow(line.text, dialect, passed, row) : 'not a numeric row'
    if (reason === null) {
      for (let c = 0; c < row.length; c++) {
        let column = columns[c] ?? new Float64Array(0)
        if (rowsRead === column.length) {
          const grown = new Float64Array(2 * rowsRead)
          grown.set(column)
          column = columns[c] = grown
        }
        column[rowsRead] = row[c] ?? 0
      }
      rowsRead++
    } else if (rowsRead === 0 && !hasNumber(line.text, dialect)) preamble.push(line)
    else refusedLines.push(refusal(line, reason))
  }
  if (rowsRead === 0) {
    for (const line of preamble.splice(0)) refusedLines.push(refusal(line, 'not a numeric row'))
  }
  const head = headings(preamble, notes, dialect)
  const kept = (cells: readonly string[]) => cells.filter((_, c) => !passed.has(c))
  return {
    dialect,
    headings: kept(head.headings),
    units: kept(head.units),
    notes: [
      ...notes,
      ...head.notes,
      ...dialect.times.map((columnAt) => passedOver(columnAt, 'dates or times')),
      ...dialect.words.map((columnAt) => passedOver(columnAt, 'words')),
    ],
    columns: columns.map((column) => column.slice(0, rowsRead)),
    rowsRead,
    refusedLines,
  }
}

const passedOver = (columnAt: number, what: string) => `Column ${columnAt + 1} holds ${what} and is ignored.`

/** Words after the last number may be missing. */
const fits = (cells: readonly string[], { needed, fields }: Dialect) =>
  cells.length >= needed && cells.length <= fields

function refusal(line: NumberedLine, reason: string): RefusedLine {
  return { line: line.number, text: line.text.slice(0, SHOWN_TEXT), reason }
}

/** Lines from the start and from the middle, so that a long preamble does not hide the data. */
function sampleLines(text: string): string[] {
  const lines: string[] = []
  const middle = text.indexOf('\n', Math.floor(text.length / 2)) + 1
  for (const part of [text, text.slice(middle)]) {
    let taken = 0
    for (const line of numberedLines(part)) {
      if (line.text.length > LONGEST_LINE || line.text.trim() === '' || commentText(line.text) !== null)
        continue
      lines.push(line.text)
      if (++taken === SAMPLE_LINES) break
    }
  }
  return lines
}

/** Writes the numbers of one line into `row`; returns why it cannot, or null. */
function readRow(
  line: string,
  dialect: Dialect,
  passed: ReadonlySet<number>,
  row: Float64Array,
): string | null {
  if (line.length > LONGEST_LINE) return `is ${line.length} characters long`
  const cells = splitLine(line, dialect.delimiter)
  if (!fits(cells, dialect)) return `has ${cells.length} fields where the table has ${dialect.fields}`
  let filled = 0
  for (let c = 0; c < cells.length; c++) {
    if (passed.has(c)) continue
    const value = parseNumber(cells[c] ?? '', dialect.decimalMark)
    if (Number.isNaN(value)) return `column ${c + 1} ${whyNotNumber(cells[c] ?? '')}`
    row[filled++] = value
  }
  return null
}

/** True for a line that must have been meant as data: the right number of fields and a number or NaN among them. */
function hasNumber(line: string, dialect: Dialect): boolean {
  if (line.length > LONGEST_LINE) return true
  const cells = splitLine(line, dialect.delimiter)
  const isValue = (cell: string) =>
    !Number.isNaN(parseNumber(cell, dialect.decimalMark)) || /^[+-]?(nan|inf)/i.test(cell)
  return dialect.rows > 0 && fits(cells, dialect) && cells.some(isValue)
}

interface Headings {
  readonly headings: readonly string[]
  readonly units: readonly string[]
  readonly notes: readonly string[]
}

/** The heading is the last line before the data with a cell for each column; a line of units may follow it. */
function headings(
  preamble: readonly NumberedLine[],
  comments: readonly string[],
  dialect: Dialect,
): Headings {
  const rest = preamble.map((line) => line.text)
  let units: readonly string[] = []
  const last = cellsOf(rest.at(-1), dialect)
  if (last && isUnitRow(last)) {
    units = last
    rest.pop()
  }
  const heading = cellsOf(rest.at(-1), dialect)
  const below = units.length > 0
  if (heading && (below || namesColumns(heading, dialect))) {
    return { headings: heading, units, notes: rest.slice(0, -1) }
  }
  const commented = comments
    .map((note) => cellsOf(note, dialect))
    .findLast((cells) => cells !== null && namesColumns(cells, dialect))
  return { headings: commented ?? [], units, notes: rest }
}

/** Not so for "transverse offset scan" over three columns that are set apart by blanks: that is a sentence. */
function namesColumns(cells: readonly string[], { delimiter }: Dialect): boolean {
  const named = cells.filter((cell) => roleOf(splitLabel(cell)) !== undefined)
  return delimiter !== ' ' || named.length >= 2
}

function cellsOf(line: string | undefined, dialect: Dialect): readonly string[] | null {
  if (line === undefined) return null
  const cells = splitLine(line, dialect.delimiter)
  if (fits(cells, dialect) && dialect.fields > 1) return cells
  // Headings of several words over columns that are set apart by blanks.
  const wide = line.trim().split(/\s{2,}|\t/)
  return dialect.delimiter === ' ' && wide.length === dialect.fields ? wide : null
}
