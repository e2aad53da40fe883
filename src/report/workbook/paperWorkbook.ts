// A printed document as a workbook: a page a section, its tables in cells.

import { columnTitle } from '../../figures/figure'
import type { Block, Cell, Section } from '../document/blocks'
import { documentCellText } from '../document/cells'
import type { Printed } from '../sheet'
import { type CellStyleName, type PageWriter, pageWriter, type WorkbookPage } from './page'
import { workbookOf } from './writePages'

const NARROWEST = 9
const WIDEST = 38
const FEWEST_COLUMNS = 6
/** So many are still read when they are fitted to one page. */
const ROWS_OF_ONE_PAGE = 60

/** Longest name of a page, and the letters it may not have (ECMA-376, 18.2.19, as programs apply it). */
const LONGEST_NAME = 31
const FORBIDDEN = /[[\]:*?/\\']/g

function pageNames(sections: readonly Section[]): readonly string[] {
  const taken = new Set<string>()
  return sections.map(({ title }, i) => {
    const plain = title
      .replace(FORBIDDEN, ' ')
      .replace(/\p{Cc}/gu, ' ')
      .trim()
      .slice(0, LONGEST_NAME - 4)
    const name = plain === '' || taken.has(plain.toLowerCase()) ? `${plain} ${i + 1}`.trim() : plain
    taken.add(name.toLowerCase())
    return name
  })
}

const tablesOf = ({ blocks }: Section) => blocks.flatMap((block) => (block.kind === 'table' ? [block] : []))

/** Wide enough for their contents; long texts wrap. */
function columnWidths(section: Section): readonly number[] {
  const widths: number[] = []
  for (const { columns, rows } of tablesOf(section)) {
    for (const cells of [columns.map(columnTitle), ...rows.map((row) => row.cells.map(documentCellText))]) {
      for (const [i, text] of cells.entries())
        widths[i] = Math.min(WIDEST, Math.max(widths[i] ?? NARROWEST, text.length + 2))
    }
  }
  while (widths.length < FEWEST_COLUMNS) widths.push(2 * NARROWEST)
  return widths
}

/** As many decimals as the number has on paper; in full where it is not printed in decimals. */
function formatOf(text: string): string | undefined {
  const decimals = /^[+−-]?\d+(?:\.(\d+))?$/.exec(text)
  if (decimals === null) return undefined
  const digits = decimals[1] === undefined ? '0' : `0.${'0'.repeat(decimals[1].length)}`
  return `${digits};−${digits}`
}

function put(writer: PageWriter, row: number, column: number, cell: Cell, style: CellStyleName): void {
  if (typeof cell === 'string') writer.text(row, column, cell, style)
  else if (Number.isFinite(cell.value))
    writer.number(row, column, cell.value, style === 'text' ? 'plain' : style, formatOf(cell.text))
  else writer.text(row, column, cell.text, style)
}

function sectionPage(name: string, section: Section): WorkbookPage {
  const writer = pageWriter(name)
  const widths = columnWidths(section)
  const spans: (readonly [number, number, number])[] = []
  let row = 0
  const line = (text: string, style: CellStyleName) => {
    writer.text(row, 0, text, style)
    spans.push([row, 0, widths.length - 1])
    row += 1
  }
  const block = (each: Block): void => {
    switch (each.kind) {
      case 'table':
        line(each.caption, 'title')
        for (const [i, column] of each.columns.entries()) writer.text(row, i, columnTitle(column), 'head')
        row += 1
        for (const { cells, total } of each.rows) {
          for (const [i, cell] of cells.entries()) put(writer, row, i, cell, total ? 'total' : 'text')
          row += 1
        }
        row += 1
        return
      case 'list':
        for (const item of each.items) line(`•  ${item}`, 'text')
        row += 1
        return
      case 'figure':
        line(each.caption, 'note')
        return
      case 'group':
        each.blocks.forEach(block)
        return
      case 'title':
        line(each.text, 'title')
        return
      case 'text':
        line(each.text, 'text')
        row += 1
    }
  }
  line(section.title, 'title')
  for (const each of section.blocks) block(each)
  return {
    ...writer.page(widths, 1),
    spans,
    print: {
      orientation: widths.length > FEWEST_COLUMNS ? 'landscape' : 'portrait',
      headingRows: [0, 0],
      ...(row <= ROWS_OF_ONE_PAGE && { pages: 1 }),
    },
  }
}

/** A page for every section; a figure is given by its sentence. */
export async function paperWorkbook({ head, sections }: Printed): Promise<Uint8Array> {
  const names = pageNames(sections)
  return workbookOf(
    head,
    sections.map((section, i) => sectionPage(names[i] ?? `Page ${i + 1}`, section)),
  )
}
