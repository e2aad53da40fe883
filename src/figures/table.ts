// A figure's numbers as text: cells as they are read, the whole as CSV.

import { escapeFormula } from '../model/parts/formulaEscape'
import { rounded } from '../numerics/numberText'
import { columnTitle, type FigureCell, type FigureTable } from './figure'

const DIGITS = 6

export function cellText(cell: FigureCell): string {
  return typeof cell === 'number' ? String(rounded(cell, DIGITS)) : cell
}

/**
 * The table as CSV text (RFC 4180): comma, quotes where a cell needs them, CRLF. Text that a spreadsheet program would read
 * as a formula is led by an apostrophe.
 */
export function tableCsv({ columns, rows }: FigureTable): string {
  const field = (cell: FigureCell) => {
    const text = typeof cell === 'string' ? escapeFormula(cell) : cellText(cell)
    return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text
  }
  return [columns.map(columnTitle), ...rows].map((row) => `${row.map(field).join(',')}\r\n`).join('')
}
