// A figure's numbers as a table, for those who would rather read or copy than look.

export interface FigureTable {
  readonly head: readonly string[]
  readonly rows: readonly (readonly (string | number)[])[]
}

const DIGITS = 6

export function cellText(cell: string | number): string {
  return typeof cell === 'number' ? String(Number(cell.toPrecision(DIGITS))) : cell
}

/** The table as CSV text (RFC 4180): comma, quotes where a cell needs them, CRLF. */
export function tableCsv({ head, rows }: FigureTable): string {
  const field = (cell: string | number) => {
    const text = cellText(cell)
    return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text
  }
  return [head, ...rows].map((row) => `${row.map(field).join(',')}\r\n`).join('')
}
