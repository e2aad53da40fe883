// The formulas of a workbook computed by an expression reader that is not ours (mathjs), for machines without a spreadsheet
// program. Cells are looked up and computed as they are requested.

import type { CellValue } from 'hucre/xlsx'
import { all, create, type EvalFunction } from 'mathjs'
import { type NamedPosition, positionOf, readBook } from './recalculate'

const math = create(all ?? {}, { predictable: true })

const read = new Map<string, EvalFunction>()

/** A formula whose references are names; those of many rows and workbooks read alike, and are read once. */
function readFormula(text: string): EvalFunction {
  const formula = read.get(text) ?? math.compile(text)
  read.set(text, formula)
  return formula
}

const FUNCTIONS: Readonly<Record<string, (...values: readonly unknown[]) => number>> = {
  SUM: (...values) => numbers(values).reduce((sum, value) => sum + value, 0),
  SUMSQ: (...values) => numbers(values).reduce((sum, value) => sum + value * value, 0),
  MAX: (...values) => Math.max(...numbers(values)),
  MIN: (...values) => Math.min(...numbers(values)),
  IF: (condition, then, otherwise) => (condition === true ? then : otherwise) as number,
  ABS: (value) => Math.abs(Number(value)),
  SQRT: (value) => Math.sqrt(Number(value)),
  SIN: (value) => Math.sin(Number(value)),
  COS: (value) => Math.cos(Number(value)),
  ASIN: (value) => Math.asin(Number(value)),
  EXP: (value) => Math.exp(Number(value)),
  LOG10: (value) => Math.log10(Number(value)),
}

const FUNCTION_ENTRIES: readonly (readonly [string, unknown])[] = Object.entries(FUNCTIONS)

function numbers(values: readonly unknown[]): readonly number[] {
  return values.flatMap((value) => (Array.isArray(value) ? value.flat() : value)).map(Number)
}

const columnOf = (letters: string) =>
  [...letters].reduce((sum, letter) => 26 * sum + letter.charCodeAt(0) - 64, 0) - 1

/** A cell or a range of cells; not a function whose name ends in digits, nor the power of ten of a number. */
const REFERENCE = /(?:'([^']+)'!)?(?<![A-Z\d.])\$?([A-Z]{1,3})\$?(\d+)(?![\d(])(?::\$?([A-Z]{1,3})\$?(\d+))?/g

export interface ComputedWorkbook {
  readonly at: (position: NamedPosition) => number
  readonly named: (name: string) => number
  /** What a formula says that comes to a word. */
  readonly wordAt: (position: NamedPosition) => string
}

/** The workbook with some named inputs changed. */
export async function computed(
  bytes: Uint8Array,
  inputs: Readonly<Record<string, number>> = {},
): Promise<ComputedWorkbook> {
  const workbook = await readBook(bytes)
  const typed = new Map(
    Object.entries(inputs).map(([name, value]) => {
      const { sheet, key } = positionOf(workbook, name)
      return [`${sheet}|${key}`, value]
    }),
  )
  const known = new Map<string, number>()
  const plainAt = (sheet: string, key: string): CellValue => {
    const [row = 0, column = 0] = key.split(',').map(Number)
    return workbook.sheets.find((each) => each.name === sheet)?.rows[row]?.[column] ?? null
  }
  const at = ({ sheet, key }: NamedPosition): number => {
    const id = `${sheet}|${key}`
    const found = known.get(id) ?? typed.get(id)
    if (found !== undefined) return found
    const formula = workbook.sheets.find((each) => each.name === sheet)?.cells?.get(key)?.formula
    const value = formula === undefined ? Number(plainAt(sheet, key)) : Number(evaluate(sheet, formula))
    known.set(id, value)
    return value
  }
  const evaluate = (sheet: string, formula: string): unknown => {
    const scope = new Map<string, unknown>(FUNCTION_ENTRIES)
    const text = formula.replace(
      REFERENCE,
      (_, page: string | undefined, letters: string, row: string, toLetters?: string, toRow?: string) => {
        const own = page ?? sheet
        const column = columnOf(letters)
        const name = `ref${scope.size}`
        const cell = (r: number, c: number) => at({ sheet: own, key: `${r},${c}` })
        if (toLetters === undefined) {
          scope.set(name, cell(Number(row) - 1, column))
          return name
        }
        const values: number[] = []
        for (let r = Number(row) - 1; r < Number(toRow); r++) {
          for (let c = column; c <= columnOf(toLetters); c++) values.push(cell(r, c))
        }
        scope.set(name, values)
        return name
      },
    )
    return readFormula(text).evaluate(scope)
  }
  const wordAt = ({ sheet, key }: NamedPosition): string => {
    const formula = workbook.sheets.find((each) => each.name === sheet)?.cells?.get(key)?.formula
    return String(formula === undefined ? plainAt(sheet, key) : evaluate(sheet, formula))
  }
  return { at, named: (name) => at(positionOf(workbook, name)), wordAt }
}
