// The sheet as JSON: the same sections, tables and numbers, in full; figures as the numbers behind them.

import {
  type Cell,
  columnTitle,
  type PlainBlock,
  plainBlocks,
  type Section,
  type TableBlock,
} from '../document/blocks'
import type { Printed } from '../sheet'

export const SHEET_FORMAT = 'modeseam-review-sheet'
export const SHEET_FORMAT_VERSION = 1

/** JSON has no infinities; such a number is told as its text. */
const plain = (cell: Cell) =>
  typeof cell === 'string' ? cell : Number.isFinite(cell.value) ? cell.value : cell.text

const tableJson = ({ caption, columns, rows }: TableBlock) => ({
  caption,
  columns: columns.map(columnTitle),
  rows: rows.map(({ cells, mark, total }) => ({
    ...(mark === undefined ? {} : { id: mark }),
    ...(total ? { total } : {}),
    cells: cells.map(plain),
  })),
})

function blockJson(block: PlainBlock) {
  switch (block.kind) {
    case 'table':
      return { table: tableJson(block) }
    case 'figure':
      return { figure: { id: block.id, caption: block.caption, numbers: tableJson(block.table) } }
    case 'list':
      return { list: block.items }
    case 'signatures':
      return { signatures: block.roles }
    case 'title':
      return { title: block.text }
    case 'text':
      return { text: block.text }
  }
}

const sectionJson = ({ id, title, blocks, remark }: Section) => ({
  id,
  title,
  blocks: plainBlocks(blocks).map(blockJson),
  ...(remark === '' ? {} : { remark }),
})

export function sheetJson({ head, sections }: Printed): string {
  const { paper: _, ...about } = head
  const content = {
    format: SHEET_FORMAT,
    version: SHEET_FORMAT_VERSION,
    ...about,
    sections: sections.map(sectionJson),
  }
  return `${JSON.stringify(content, null, 2)}\n`
}
