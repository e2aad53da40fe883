// Every format read back by an independent reader, or by a few lines that know nothing of the writer, into rows of cells.

import Papa from 'papaparse'
import { unescapeFormula } from '../../../src/model/parts/formulaEscape'
import { plainBlocks } from '../../../src/report/document/blocks'
import { documentCellText } from '../../../src/report/document/cells'
import { sheetRows } from '../../../src/report/formats/sheetRows'
import type { Sheet } from '../../../src/report/sheet'
import { readBook } from './recalculate'

export type Row = readonly (string | number)[]

/** What the sheet says, without empty cells at the end of a row. */
export function expectedRows(sheet: Sheet): readonly Row[] {
  return sheetRows(sheet).map(({ cells }) =>
    trimmed(cells.map((cell) => (typeof cell === 'string' ? cell : cell.value))),
  )
}

export function expectedTexts(sheet: Sheet): readonly (readonly string[])[] {
  return sheetRows(sheet)
    .filter(({ kind }) => kind === 'row' || kind === 'total')
    .map(({ cells }) => cells.map(documentCellText))
}

/** Texts of the page; those of columns that it shortens, to one line, a beginning or both ends, as they are in whole. */
export function wholeTexts(
  shown: readonly (readonly string[])[],
  sheet: Sheet,
): readonly (readonly string[])[] {
  const whole = expectedTexts(sheet)
  const fits = sheet.sections
    .flatMap(({ blocks }) => plainBlocks(blocks))
    .flatMap((block) =>
      block.kind === 'table' ? block.rows.map(() => block.columns.map(({ fit }) => fit)) : [],
    )
  return shown.map((cells, row) =>
    cells.map((cell, column) => {
      const full = whole[row]?.[column] ?? ''
      if (fits[row]?.[column] === undefined) return cell
      const line = full.replace(/\s+/g, ' ').trim()
      const [start = '', end] = cell.split('…')
      const isCut = end !== undefined && line.startsWith(start) && line.endsWith(end)
      return cell === line || isCut ? full : cell
    }),
  )
}

export function trimmed(row: Row): Row {
  const last = row.findLastIndex((cell) => cell !== '')
  return row.slice(0, last + 1)
}

/** Rows of the CSV file without its first two columns; a field is a number where the sheet has one. */
export function csvRows(text: string, sheet: Sheet): readonly Row[] {
  const { data, errors } = Papa.parse<string[]>(text.replace(/^\ufeff/, ''), { skipEmptyLines: true })
  if (errors.length > 0) throw new Error(errors[0]?.message)
  const expected = expectedRows(sheet)
  return data
    .slice(1)
    .map((fields, i) =>
      trimmed(
        fields
          .slice(2)
          .map((field, column) =>
            typeof expected[i]?.[column] === 'number'
              ? Number(field.replace('Infinity', '1e999'))
              : unescapeFormula(field),
          ),
      ),
    )
}

/** Tables of the JSON file, row by row. */
export function jsonRows(text: string): readonly Row[] {
  const { sections } = JSON.parse(text) as {
    sections: { tables: { rows: { cells: Row }[] }[] }[]
  }
  return sections.flatMap(({ tables }) => tables.flatMap(({ rows }) => rows.map(({ cells }) => cells)))
}

const ENTITIES: Readonly<Record<string, string>> = {
  '&lt;': '<',
  '&gt;': '>',
  '&quot;': '"',
  '&#39;': "'",
  '&amp;': '&',
  '&#32;': ' ',
  '&#9;': '\t',
}

export const unescaped = (text: string) =>
  text.replace(/&(?:lt|gt|quot|#39|#32|#9|amp);/g, (each) => ENTITIES[each] ?? each)

/** Rows of all tables of the HTML file: numbers from the value of their data element, text from what is between the tags. */
export function htmlRows(text: string): readonly Row[] {
  return Array.from(text.matchAll(/<tbody>(.*?)<\/tbody>/gs)).flatMap(([, body = '']) =>
    Array.from(body.matchAll(/<tr[^>]*>(.*?)<\/tr>/gs)).map(([, row = '']) =>
      Array.from(row.matchAll(/<t[hd][^>]*>(.*?)<\/t[hd]>/gs)).map(([, cell = '']) => {
        const number = /<data value="([^"]*)">/.exec(cell)
        return number === null ? unescaped(cell.replace(/<[^>]*>/g, '')) : Number(number[1])
      }),
    ),
  )
}

/** The texts of the numbers in the HTML file, as they are read. */
export function htmlTexts(text: string): readonly (readonly string[])[] {
  return Array.from(text.matchAll(/<tbody>(.*?)<\/tbody>/gs)).flatMap(([, body = '']) =>
    Array.from(body.matchAll(/<tr[^>]*>(.*?)<\/tr>/gs)).map(([, row = '']) =>
      Array.from(row.matchAll(/<t[hd][^>]*>(.*?)<\/t[hd]>/gs)).map(([, cell = '']) =>
        unescaped(cell.replace(/<[^>]*>/g, '')),
      ),
    ),
  )
}

/** Text as a reader of the Markdown file sees it. */
export function markdownPlain(text: string): string {
  return unescaped(text.replaceAll('<br>', '\n').replace(/\\([!-/:-@[-`{-~])/g, '$1'))
}

/** Rows of all tables of the Markdown file, without their heads. */
export function markdownRows(text: string): readonly (readonly string[])[] {
  const lines = text.split('\n')
  return lines.flatMap((line, i) => {
    const isHead = lines[i + 1]?.startsWith('| ---') || /^\| ---/.test(line)
    if (!line.startsWith('| ') || isHead) return []
    return [
      line
        .slice(2, -2)
        .split(/ \| /)
        .map((cell) => markdownPlain(cell.replace(/^\*\*(.*)\*\*$/s, '$1'))),
    ]
  })
}

/** Rows of the page of the workbook that holds the sheet, without its first two columns. */
export async function workbookRows(bytes: Uint8Array): Promise<readonly Row[]> {
  const { sheets } = await readBook(bytes)
  const rows = sheets.find(({ name }) => name === 'Document')?.rows ?? []
  return rows.slice(1).map((row) =>
    trimmed(
      row.slice(2).map((cell) => {
        if (typeof cell === 'number') return cell
        return cell === null ? '' : unescapeFormula(String(cell))
      }),
    ),
  )
}
