// A page of the workbook while it is filled: cells by row and column, both from 0.

import { escapeFormula } from '../../model/parts/formulaEscape'
import type { FormulaTerm } from './term'

/** `computed` is an input whose value the app has found, and which may be overwritten; `linked` one that follows a cell shared by designs. */
const CELL_STYLES = [
  'text',
  'plain',
  'head',
  'numberHead',
  'unitHead',
  'title',
  'unit',
  'input',
  'computed',
  'result',
  'sign',
  'total',
  'verdict',
  'carried',
  'linked',
  'note',
] as const
export type CellStyleName = (typeof CELL_STYLES)[number]

export interface PageCell {
  readonly value: string | number
  /** Absent for a plain value. */
  readonly formula?: string
  readonly style: CellStyleName
  /** How the number is printed, as a workbook writes it; that of the style where absent. */
  readonly format?: string
}

/** A sign, or a whole number with its sign. */
export const SIGN_FORMAT = '+0;−0;0'

/** What the user may type into a cell. */
export interface CellLimits {
  readonly from: number
  readonly to: number
  readonly message: string
}

export interface WorkbookPage {
  readonly name: string
  readonly cells: ReadonlyMap<string, PageCell>
  /** By address. */
  readonly limits: ReadonlyMap<string, CellLimits>
  /** Widths of the columns in characters. */
  readonly widths: readonly number[]
  /** Rows and columns that stay in sight. */
  readonly frozenRows: number
  readonly frozenColumns: number
  readonly print?: PagePrint
  readonly charts?: readonly PageChart[]
  /** Texts that run over several columns: row, first and last column. */
  readonly spans?: readonly (readonly [row: number, from: number, to: number])[]
  /** Rows that can be folded away, first and last. */
  readonly groups?: readonly (readonly [first: number, last: number])[]
  /** Hidden until the user unhides it, and not printed. */
  readonly hidden?: boolean
}

/** How a page is printed: always as wide as the paper. */
interface PagePrint {
  readonly orientation: 'portrait' | 'landscape'
  /** Most pages it may take; as many as it needs where absent. */
  readonly pages?: number
  /** Rows repeated on every page, from 0; none where absent. */
  readonly headingRows?: readonly [first: number, last: number]
  /** The last column that is printed; all where absent. */
  readonly lastColumn?: number
}

/** Stacked bars next to cells: an invisible base and what is added to it. Addresses of one row or column, on any page. */
export interface PageChart {
  readonly title: string
  readonly labels: string
  readonly base: string
  readonly rising: string
  readonly falling: string
  /** Corners, row and column from 0. */
  readonly from: readonly [row: number, column: number]
  readonly to: readonly [row: number, column: number]
}

/** Name of a cell, of the whole workbook. */
export interface CellName {
  readonly name: string
  readonly at: string
}

export function columnLetters(column: number): string {
  const rest = Math.floor(column / 26)
  return `${rest > 0 ? columnLetters(rest - 1) : ''}${String.fromCharCode(65 + (column % 26))}`
}

/** `C7`, or with a page `'Budget 1'!$C$7`. */
export function address(row: number, column: number, page?: string): string {
  return page === undefined
    ? `${columnLetters(column)}${row + 1}`
    : `'${page}'!$${columnLetters(column)}$${row + 1}`
}

export interface PageWriter {
  readonly name: string
  /** A text; one that a spreadsheet program could take for a formula is led by an apostrophe. */
  readonly text: (row: number, column: number, content: string, style?: CellStyleName) => void
  /** A plain number; returns the reference to its cell. */
  readonly number: (
    row: number,
    column: number,
    value: number,
    style?: CellStyleName,
    format?: string,
  ) => FormulaTerm
  /** A formula; returns the reference to its cell. */
  readonly formula: (
    row: number,
    column: number,
    term: FormulaTerm,
    style?: CellStyleName,
    format?: string,
  ) => FormulaTerm
  /** A formula that comes to a word. */
  readonly word: (row: number, column: number, formula: string, value: string, style?: CellStyleName) => void
  readonly limit: (row: number, column: number, limits: CellLimits) => void
  readonly page: (widths: readonly number[], frozenRows: number, frozenColumns?: number) => WorkbookPage
}

/** References name their page, so that they hold from every other one; on their own page they need not. */
export function pageWriter(name: string): PageWriter {
  const cells = new Map<string, PageCell>()
  const limits = new Map<string, CellLimits>()
  const put = (row: number, column: number, cell: PageCell) => cells.set(`${row},${column}`, cell)
  const at = (row: number, column: number, value: number): FormulaTerm => ({
    text: address(row, column, name),
    value,
  })
  const own = new RegExp(`'${name.replace(/[\\^$.*+?()[\]{}|]/g, '\\$&')}'!\\$([A-Z]+)\\$`, 'g')
  return {
    name,
    text: (row, column, content, style = 'text') => {
      put(row, column, { value: escapeFormula(content), style })
    },
    number: (row, column, value, style = 'input', format) => {
      put(row, column, { value, style, ...(format !== undefined && { format }) })
      return at(row, column, value)
    },
    formula: (row, column, term, style = 'result', format) => {
      const formula = term.text.replace(own, '$1')
      put(row, column, { value: term.value, formula, style, ...(format !== undefined && { format }) })
      return at(row, column, term.value)
    },
    word: (row, column, formula, value, style = 'result') => {
      put(row, column, { value, formula: formula.replace(own, '$1'), style })
    },
    limit: (row, column, of) => {
      limits.set(address(row, column), of)
    },
    page: (widths, frozenRows, frozenColumns = 0) => ({
      name,
      cells,
      limits,
      widths,
      frozenRows,
      frozenColumns,
    }),
  }
}

/** The same page with its rows counted from `first`. */
export function below(writer: PageWriter, first: number): PageWriter {
  return {
    name: writer.name,
    text: (row, ...rest) => writer.text(first + row, ...rest),
    number: (row, ...rest) => writer.number(first + row, ...rest),
    formula: (row, ...rest) => writer.formula(first + row, ...rest),
    word: (row, ...rest) => writer.word(first + row, ...rest),
    limit: (row, ...rest) => writer.limit(first + row, ...rest),
    page: writer.page,
  }
}
