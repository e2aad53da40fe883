// A raster written as a grid: x along the first row, y down the first column, a power in every cell. It becomes the
// same table as a raster written point by point: one row each with x, y and power.

import { splitLabel } from './columnLabel'
import { splitLine } from './dialect'
import { parseNumber } from './numberText'
import type { Doubt, ScanAnswers } from './scan'
import type { TextTable } from './tableText'
import { type NumberedLine, numberedLines } from './textLines'

/** Fewer columns or rows are a table of signals. */
const FEWEST = 5
/** Departure of steps from their mean, as a fraction, up to which positions are treated as evenly spaced. */
const EVEN = 0.02
/** The row of positions is among the first lines. */
const LAST_HEAD_LINE = 200

interface Grid {
  readonly across: readonly number[]
  readonly corner: string
  /** Rows of the table that hold powers start here. */
  readonly firstRow: number
  /** Line of the positions, which the table has rejected or read as a note. */
  readonly head: NumberedLine | null
}

/** The unfolded table, or `table` itself where it is not a grid. The answer 'grid' says what runs along the first row. */
export function unfoldedGrid(
  text: string,
  table: TextTable,
  answers: ScanAnswers,
  doubts: Doubt[],
): TextTable {
  const [down, ...cells] = table.columns
  if (down === undefined || cells.length < FEWEST || answers.grid === 'signals') return table
  const grid = headedGrid(text, table) ?? bareGrid(table)
  if (grid === null) return table
  const positions = down.subarray(grid.firstRow)
  if (positions.length < FEWEST || !isMonotonic(positions)) return table
  const { across } = grid
  const count = across.length * positions.length
  const [alongRow, alongColumn, power] = [0, 1, 2].map(() => new Float64Array(count))
  positions.forEach((y, j) => {
    across.forEach((x, i) => {
      const k = j * across.length + i
      if (alongRow) alongRow[k] = x
      if (alongColumn) alongColumn[k] = y
      if (power) power[k] = cells[i]?.[grid.firstRow + j] ?? 0
    })
  })
  const first = firstAxis(grid.corner, answers, doubts)
  const second = first === 'x' ? 'y' : 'x'
  const unit = splitLabel(grid.corner).unit ?? ''
  return {
    ...table,
    headings: [first, second, 'power'],
    units: [unit, unit, ''],
    notes: [
      ...table.notes.filter((note) => note !== grid.head?.text),
      `Grid of ${across.length} × ${positions.length} points: ${first} along the first row, ${second} down the first column.`,
    ],
    columns: [alongRow, alongColumn, power].flatMap((column) => column ?? []),
    rowsRead: count,
    refusedLines: table.refusedLines.filter((refused) => refused.line !== grid.head?.number),
  }
}

/** Positions over the powers only, with an empty corner, a word in it, or none. */
function headedGrid(text: string, { dialect }: TextTable): Grid | null {
  for (const line of numberedLines(text)) {
    if (line.number > LAST_HEAD_LINE) return null
    const cells = splitLine(line.text, dialect.delimiter)
    const numbers = cells.map((cell) => parseNumber(cell, dialect.decimalMark))
    if (numbers.length === dialect.fields && !numbers.some(Number.isNaN)) return null
    const corner = numbers.length === dialect.fields && Number.isNaN(numbers[0]) ? 1 : 0
    const across = numbers.slice(corner)
    if (across.length === dialect.fields - 1 && isMonotonic(across)) {
      return { across, corner: corner === 1 ? (cells[0] ?? '') : '', firstRow: 0, head: line }
    }
  }
  return null
}

/** A number in the corner: the first row of the table holds the positions. Powers are never so evenly spaced. */
function bareGrid({ columns }: TextTable): Grid | null {
  const across = columns.slice(1).map((column) => column[0] ?? Number.NaN)
  return isEven(across) ? { across, corner: '', firstRow: 1, head: null } : null
}

function isMonotonic(positions: ArrayLike<number>): boolean {
  const sign = Math.sign((positions[1] ?? Number.NaN) - (positions[0] ?? Number.NaN))
  for (let i = 1; i < positions.length; i++) {
    if (!(sign * ((positions[i] ?? Number.NaN) - (positions[i - 1] ?? Number.NaN)) > 0)) return false
  }
  return true
}

function isEven(positions: ArrayLike<number>): boolean {
  const last = positions.length - 1
  const step = ((positions[last] ?? Number.NaN) - (positions[0] ?? Number.NaN)) / last
  for (let i = 1; i <= last; i++) {
    const here = (positions[i] ?? Number.NaN) - (positions[i - 1] ?? Number.NaN)
    if (!(Math.abs(here - step) <= EVEN * Math.abs(step))) return false
  }
  return step !== 0
}

/** "y\\x" and "y/x" name the axis down the column first; anything else leaves it open. */
function firstAxis(corner: string, answers: ScanAnswers, doubts: Doubt[]): 'x' | 'y' {
  const named = /\b([xy])\s*[\\/|]\s*([xy])\b/i.exec(corner)?.[2]?.toLowerCase()
  if (named === 'x' || named === 'y') return named
  const assumed = answers.grid === 'y' ? 'y' : 'x'
  doubts.push({
    id: 'grid',
    question:
      'The table is a grid of powers, with positions along the first row and down the first column. Which axis runs along the first row?',
    assumed,
    alternatives: [assumed === 'x' ? 'y' : 'x', 'signals'],
  })
  return assumed
}
