// How a text table is written: what separates its fields and what marks its decimals.
// Every likely pair is tried on a sample of lines; the pair that reads the most rows as numbers wins.

import Papa from 'papaparse'
import { type DecimalMark, parseNumber } from './numberText'

export interface Dialect {
  /** ' ' represents any run of blanks. */
  readonly delimiter: string
  readonly decimalMark: DecimalMark
  /** Fields in a row. */
  readonly fields: number
  /** Fields that every row has; only words after them may be missing. */
  readonly needed: number
  /** Positions of fields that hold dates or times of day, which are ignored. */
  readonly times: readonly number[]
  /** Positions of fields that hold words in every row, such as a remark or a status, which are ignored. */
  readonly words: readonly number[]
  /** Sample lines that read as rows of that many numbers. */
  readonly rows: number
}

const DELIMITERS = ['\t', ';', ',', '|', ' '] as const
const MARKS: readonly DecimalMark[] = ['.', ',']

/** One line as trimmed fields. Quoted fields may hold the delimiter. */
export function splitLine(line: string, delimiter: string): string[] {
  if (line.includes('"')) {
    const row =
      Papa.parse<string[]>(withoutBlanksAtQuotes(line.trim(), delimiter), { delimiter }).data[0] ?? []
    return trimRow(delimiter === ' ' ? row.filter((cell) => cell !== '') : row)
  }
  if (delimiter === ' ') return line.trim().split(/\s+/)
  return trimRow(line.split(delimiter))
}

/** `"1" ; "2"` is two quoted fields to whoever wrote it, but none to a strict reader. */
function withoutBlanksAtQuotes(line: string, delimiter: string): string {
  if (delimiter === ' ' || delimiter === '\t') return line
  return line
    .split(delimiter)
    .map((part) => part.replace(/^\s+(?=")|(?<=")\s+$/g, ''))
    .join(delimiter)
}

/** Trims cells and drops empty ones at the end, which spreadsheets leave behind. */
function trimRow(cells: readonly string[]): string[] {
  const row = cells.map((cell) => cell.trim())
  while (row.length > 1 && row.at(-1) === '') row.pop()
  return row
}

/** The best dialect for `lines`; `rows` is 0 if no line has two numbers. */
export function findDialect(
  lines: readonly string[],
  given: { delimiter?: string; decimalMark?: string } = {},
): Dialect {
  let best: Dialect = {
    delimiter: ',',
    decimalMark: '.',
    fields: 1,
    needed: 1,
    times: [],
    words: [],
    rows: 0,
  }
  for (const delimiter of DELIMITERS) {
    if (given.delimiter !== undefined && given.delimiter !== delimiter) continue
    for (const decimalMark of MARKS) {
      if (decimalMark === delimiter || (given.decimalMark !== undefined && given.decimalMark !== decimalMark))
        continue
      const candidate = tryDialect(lines, delimiter, decimalMark)
      if (candidate.rows > best.rows) best = candidate
    }
  }
  return best
}

/** "2026-03-14", "14.03.2026 12:33:01.5", "2026-03-14T12:33:01Z", "12:33": as loggers write them with every reading. */
const TIME = /^(\d{1,4}([-./])\d{1,2}\2\d{1,4}([T ]+\d{1,2}:\d{2}\S*)?|\d{1,2}:\d{2}(:\d{2})?([.,]\d+)?)Z?$/

/** A remark, a status, a unit: begins with a letter or a bracket, and is not a word for a missing number. */
const WORDS = /^(?!nan|inf|over|under|ovf|err|n\/?a$|null|none|---)["'([]?\p{L}/iu

/** One letter per field: n for a number, t for a time, w for words; null for a line of anything else or of fewer than two numbers. */
function patternOf(line: string, delimiter: string, decimalMark: DecimalMark): string | null {
  let pattern = ''
  let numbers = 0
  for (const cell of splitLine(line, delimiter)) {
    const isNumber = !Number.isNaN(parseNumber(cell, decimalMark))
    const isTime = !isNumber && TIME.test(cell)
    if (!isNumber && !isTime && !WORDS.test(cell)) return null
    pattern += isNumber ? 'n' : isTime ? 't' : 'w'
    if (isNumber) numbers++
  }
  return numbers >= 2 ? pattern : null
}

const columnsOf = (letter: string, pattern: string): number[] =>
  [...pattern].flatMap((each, column) => (each === letter ? [column] : []))

/** Words are a column of their own only where no other row has a number there: "overload" among readings is not a column. */
function isTable(pattern: string, rowsByPattern: ReadonlyMap<string, number>): boolean {
  const words = columnsOf('w', pattern)
  if (words.length === 0) return true
  return [...rowsByPattern.keys()].every(
    (other) => other.length !== pattern.length || words.every((column) => other[column] !== 'n'),
  )
}

function tryDialect(lines: readonly string[], delimiter: string, decimalMark: DecimalMark): Dialect {
  const rowsByPattern = new Map<string, number>()
  for (const line of lines) {
    const pattern = patternOf(line, delimiter, decimalMark)
    if (pattern !== null) rowsByPattern.set(pattern, (rowsByPattern.get(pattern) ?? 0) + 1)
  }
  const tables = [...rowsByPattern.keys()].filter((pattern) => isTable(pattern, rowsByPattern))
  const seen = (pattern: string) => rowsByPattern.get(pattern) ?? 0
  const most = tables.reduce((best, pattern) => (seen(pattern) > seen(best) ? pattern : best), '')
  // Rows with and without a remark after them form one table.
  const whole = (pattern: string) => pattern.replace(/w+$/, '')
  const alike = tables.filter((pattern) => whole(pattern) === whole(most))
  const best = alike.reduce((longest, pattern) => (pattern.length > longest.length ? pattern : longest), most)
  return {
    delimiter,
    decimalMark,
    fields: Math.max(1, best.length),
    needed: Math.max(1, whole(best).length),
    times: columnsOf('t', best),
    words: columnsOf('w', best),
    rows: alike.reduce((sum, pattern) => sum + seen(pattern), 0),
  }
}
