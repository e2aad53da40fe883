// A measurement file's text becomes a scan in core units. Nothing is refused silently and nothing is guessed
// silently: lines that cannot be read are listed, and assumptions become questions.

import { type ColumnReading, readColumns } from './columnRoles'
import { unfoldedGrid } from './gridTable'
import { lineScans } from './lineScans'
import { metadataOf } from './metadata'
import { type DecimalMark, parseNumber } from './numberText'
import type { Doubt, FindingCode, Scan, ScanAnswers, ScanColumn, ScanKind } from './scan'
import { scanFindings } from './scanFindings'
import { readTable, type TextTable } from './tableText'
import { looksBinary } from './textLines'
import { toCoreUnits, unitRule } from './units'

/** Far above every reading that is allowed, and far below the point at which sums of them overflow. */
const GREATEST = 1e100

/** More columns without headings are not a scan, because their meaning would be unknown. */
const MOST_COLUMNS = 16

/**
 * Reads any delimited text (comma, semicolon, tab, bar or blanks; decimal point or comma; byte-order mark, any line
 * ends, comments, headings, unit lines or none). Never throws for the content of the text: see `findings`.
 * `answers` settles doubts of an earlier reading: `{ 'unit:0': 'deg' }`. `onProgress` receives, now and then, the share of the text
 * read so far.
 */
export function readScan(
  text: string,
  answers: ScanAnswers = {},
  onProgress?: (share: number) => void,
): Scan {
  if (looksBinary(text)) return emptyScan('binary', 'This is not text: it contains control characters.')
  const doubts: Doubt[] = []
  const given = {
    ...(answers.delimiter === undefined ? {} : { delimiter: answers.delimiter }),
    ...(answers['decimal-mark'] === undefined ? {} : { decimalMark: answers['decimal-mark'] }),
  }
  const written = readTable(text, given, onProgress)
  if (written.rowsRead === 0) return { ...unreadable(text, written), metadata: metadataOf(written.notes) }
  dialectDoubts(text, written, doubts)
  const table = unfoldedGrid(text, written, answers, doubts)
  if (table.columns.length > MOST_COLUMNS && table.headings.length === 0) {
    return { ...emptyScan('no-roles', tooManyColumns(table)), refusedLines: table.refusedLines }
  }
  const readings = readColumns(table, answers, doubts)
  const kind = kindOf(readings, table, answers, doubts)
  const columns = readings.map((reading, c) =>
    toColumn(reading, table.columns[c] ?? new Float64Array(0), kind),
  )
  return {
    kind,
    delimiter: table.dialect.delimiter,
    decimalMark: table.dialect.decimalMark,
    columns,
    metadata: { ...metadataOf([...table.notes, ...table.headings]), notes: table.notes },
    rowsRead: table.rowsRead,
    refusedLines: table.refusedLines,
    doubts,
    findings: scanFindings(kind, columns),
  }
}

/** Answers to the doubt whether two positions are a raster. */
export const LAYOUTS = { lines: 'two line scans', raster: 'a raster' } as const

function kindOf(
  readings: readonly ColumnReading[],
  table: TextTable,
  answers: ScanAnswers,
  doubts: Doubt[],
): ScanKind {
  const has = (role: string) => readings.some((reading) => reading.role === role)
  const moving = readings.filter((reading, c) => {
    const values = table.columns[c]
    return reading.role === 'position' && values?.some((value) => value !== values[0])
  })
  if (has('angle') && (has('power') || has('loss'))) return 'far-field'
  if (has('position') && (has('power') || has('loss')))
    return moving.length > 1 ? layoutOf(readings, table, answers, doubts) : 'offset'
  if (has('length') && (has('loss') || has('power'))) return 'loopback'
  return 'unknown'
}

/** Two positions that both move: points over an area, or two lines along the axes. Where they could be lines, the user is asked. */
function layoutOf(
  readings: readonly ColumnReading[],
  table: TextTable,
  answers: ScanAnswers,
  doubts: Doubt[],
): ScanKind {
  const [x, y, third] = readings.flatMap(({ role }, c) => (role === 'position' ? [table.columns[c]] : []))
  if (x === undefined || y === undefined || third !== undefined || lineScans(x, y) === null) return 'raster'
  const assumed = answers.layout === LAYOUTS.raster ? LAYOUTS.raster : LAYOUTS.lines
  doubts.push({
    id: 'layout',
    question:
      'The positions are on two lines along x and y and do not cover an area. Two line scans or a raster?',
    assumed,
    alternatives: Object.values(LAYOUTS).filter((layout) => layout !== assumed),
  })
  return assumed === LAYOUTS.raster ? 'raster' : 'offset'
}

function toColumn(reading: ColumnReading, values: Float64Array, kind: ScanKind): ScanColumn {
  const { label, unit } = reading
  const rule = unitRule(reading.assumedUnit)
  if (reading.role === 'other' || rule === undefined)
    return { label, unit, role: reading.role, coreUnit: 'none', values }
  if (reading.role === 'loss' && kind === 'loopback')
    return { label, unit, role: 'loss', coreUnit: 'dB', values }
  toCoreUnits(values, rule, reading.role)
  // A value that overflows in its unit is still refused with its row and the allowed range.
  for (let i = 0; i < values.length; i++) {
    const value = values[i] as number
    if (Math.abs(value) > GREATEST) values[i] = Math.sign(value) * GREATEST
  }
  return {
    label,
    unit,
    role: reading.role === 'loss' ? 'power' : reading.role,
    coreUnit: rule.coreUnit,
    values,
  }
}

/** "1,234" is one and a bit or over a thousand: ask where every comma could be either. */
export function dialectDoubts(text: string, table: TextTable, doubts: Doubt[]): void {
  if (table.dialect.decimalMark !== ',') return
  const commaNumbers = text.slice(0, 20_000).match(/(?<!\d)[+-]?\d+,\d+/g) ?? []
  if (commaNumbers.length > 0 && commaNumbers.every((number) => /^[+-]?[1-9]\d{0,2},\d{3}$/.test(number))) {
    doubts.push({
      id: 'decimal-mark',
      question: `Is the comma in "${commaNumbers[0]}" a decimal mark or a thousands separator?`,
      assumed: ',',
      alternatives: ['.'],
    })
  }
}

function tooManyColumns({ columns, rowsRead }: TextTable): string {
  return `There are ${columns.length} columns of numbers in ${rowsRead} rows and no heading. A raster written as a grid needs the positions along its first row and down its first column; an image needs to be PNG, TIFF or PGM.`
}

function emptyScan(code: FindingCode, message: string): Scan {
  return {
    kind: 'unknown',
    delimiter: '',
    decimalMark: '.',
    columns: [],
    metadata: { notes: [] },
    rowsRead: 0,
    refusedLines: [],
    doubts: [],
    findings: [{ code, severity: 'error', message }],
  }
}

function unreadable(text: string, table: TextTable): Scan {
  const marks: readonly DecimalMark[] = ['.', ',']
  const lines = text.slice(0, 20_000).split(/\r\n|\n|\r/)
  const numbers = lines.filter((line) => marks.some((mark) => !Number.isNaN(parseNumber(line, mark)))).length
  const scan =
    numbers > 1
      ? emptyScan(
          'one-column',
          `There is only one column of numbers (${numbers} or more rows): a scan needs a coordinate and a power.`,
        )
      : emptyScan('no-numbers', 'No line holds two numbers side by side.')
  return { ...scan, refusedLines: table.refusedLines }
}
