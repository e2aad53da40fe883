// How a text table is written: what separates its fields and what marks its decimals.
// Every likely pair is tried on a sample of lines; the pair that reads the most rows as numbers wins.

import Papa from 'papaparse'
import { type DecimalMark, parseNumber } from './numberText'

export interface Dialect {
  /** ' ' stands for any run of blanks. */
  readonly delimiter: string
  readonly decimalMark: DecimalMark
  /** Fields in a row. */
  readonly fields: number
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
    .map((part) => (part.includes('"') ? part.trim() : part))
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
  let best: Dialect = { delimiter: ',', decimalMark: '.', fields: 1, rows: 0 }
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

function tryDialect(lines: readonly string[], delimiter: string, decimalMark: DecimalMark): Dialect {
  const rowsByFields = new Map<number, number>()
  for (const line of lines) {
    const cells = splitLine(line, delimiter)
    if (cells.length < 2 || cells.some((cell) => Number.isNaN(parseNumber(cell, decimalMark)))) continue
    rowsByFields.set(cells.length, (rowsByFields.get(cells.length) ?? 0) + 1)
  }
  let fields = 1
  let rows = 0
  for (const [count, seen] of rowsByFields) {
    if (seen > rows) [fields, rows] = [count, seen]
  }
  return { delimiter, decimalMark, fields, rows }
}
