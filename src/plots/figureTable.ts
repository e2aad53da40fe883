// A figure's numbers as a table, for those who would rather read or copy than look.

import { neutral } from '../model/parts/neutralText'

export interface FigureTable {
  readonly head: readonly string[]
  readonly rows: readonly (readonly (string | number)[])[]
}

const DIGITS = 6

export function cellText(cell: string | number): string {
  return typeof cell === 'number' ? String(Number(cell.toPrecision(DIGITS))) : cell
}

/**
 * The table as CSV text (RFC 4180): comma, quotes where a cell needs them, CRLF. Text that a spreadsheet program would take
 * for a formula is led by an apostrophe.
 */
export function tableCsv({ head, rows }: FigureTable): string {
  const field = (cell: string | number) => {
    const text = typeof cell === 'string' ? neutral(cell) : cellText(cell)
    return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text
  }
  return [head, ...rows].map((row) => `${row.map(field).join(',')}\r\n`).join('')
}
