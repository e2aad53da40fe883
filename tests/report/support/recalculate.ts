// A workbook opened in a spreadsheet program without a window, as a reviewer would: an input is changed, everything is
// computed anew. The values that the file keeps for viewers are taken out first, so that none can pass for a result.

import { execFileSync } from 'node:child_process'
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { type Cell, type CellValue, readXlsx, type Workbook, writeXlsx } from 'hucre/xlsx'

const PLACES = [
  '/usr/bin/soffice',
  '/usr/bin/libreoffice',
  '/Applications/LibreOffice.app/Contents/MacOS/soffice',
]

/** Null where the machine has no such program. */
export const SOFFICE = [process.env.SOFFICE_PATH ?? '', ...PLACES].find(
  (path) => path !== '' && existsSync(path),
)

export interface NamedPosition {
  readonly sheet: string
  readonly key: string
}

const books = new WeakMap<Uint8Array, Promise<Workbook>>()

/** A workbook read with its styles, once; nothing may change what it gives. */
export function readBook(bytes: Uint8Array): Promise<Workbook> {
  const book = books.get(bytes) ?? readXlsx(bytes, { readStyles: true })
  books.set(bytes, book)
  return book
}

export function positionOf(workbook: Workbook, name: string): NamedPosition {
  const found = workbook.namedRanges?.find((each) => each.name === name)
  const match = /^'?([^']+)'?!\$([A-Z]+)\$(\d+)$/.exec(found?.range ?? '')
  if (match === null) throw new Error(`no cell is named ${name}`)
  const [, sheet = '', letters = '', row = ''] = match
  const column = [...letters].reduce((sum, letter) => 26 * sum + letter.charCodeAt(0) - 64, 0) - 1
  return { sheet, key: `${Number(row) - 1},${column}` }
}

/** What the cell shows. */
export function valueAt(workbook: Workbook, { sheet, key }: NamedPosition): CellValue {
  const page = workbook.sheets.find((each) => each.name === sheet)
  const [row = 0, column = 0] = key.split(',').map(Number)
  return page?.cells?.get(key)?.formulaResult ?? page?.rows[row]?.[column] ?? null
}

export function numberAt(workbook: Workbook, name: string): number {
  return Number(valueAt(workbook, positionOf(workbook, name)))
}

/** A verdict that a cell shows as another page's has no quotes in its formula. */
const isWord = (value: unknown): boolean => typeof value === 'string' && Number.isNaN(Number(value))

/** Every formula of the workbook that comes to a number, with the value that the file keeps for it. */
export function formulas(workbook: Workbook) {
  return workbook.sheets.flatMap((page) =>
    Array.from(page.cells ?? []).flatMap(([key, { formula, formulaResult }]) =>
      formula === undefined ||
      typeof valueAt(workbook, { sheet: page.name, key }) === 'string' ||
      isWord(formulaResult)
        ? []
        : [{ sheet: page.name, key, formula, kept: Number(formulaResult) }],
    ),
  )
}

/** The workbook with some named inputs changed and every formula without its kept value. */
export async function changed(
  bytes: Uint8Array,
  inputs: Readonly<Record<string, number>>,
): Promise<Uint8Array> {
  const workbook = await readBook(bytes)
  const positions = Object.entries(inputs).map(([name, value]) => ({ ...positionOf(workbook, name), value }))
  return writeXlsx({
    sheets: workbook.sheets.map(({ name, cells, rows }) => ({
      name,
      rows: rows.map((row, i) =>
        row.map(
          (value, column) =>
            positions.find((each) => each.sheet === name && each.key === `${i},${column}`)?.value ?? value,
        ),
      ),
      cells: new Map(
        Array.from(cells ?? []).flatMap(([key, { formula }]): [string, Partial<Cell>][] =>
          formula === undefined || positions.some((each) => each.sheet === name && each.key === key)
            ? []
            : [[key, { value: null, type: 'formula', formula }]],
        ),
      ),
    })),
    namedRanges: workbook.namedRanges ?? [],
  })
}

export async function recalculated(bytes: Uint8Array, soffice: string): Promise<Workbook> {
  const folder = mkdtempSync(join(tmpdir(), 'workbook-'))
  try {
    const file = join(folder, 'in.xlsx')
    writeFileSync(file, bytes)
    execFileSync(
      soffice,
      [
        `-env:UserInstallation=file://${folder}/profile`,
        '--headless',
        '--convert-to',
        'xlsx:Calc MS Excel 2007 XML',
        '--outdir',
        join(folder, 'out'),
        file,
      ],
      { stdio: 'ignore', timeout: 120_000 },
    )
    return await readXlsx(readFileSync(join(folder, 'out', 'in.xlsx')))
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}
