// The sheet as rows of cells, for formats that have nothing else. The first column says where a row belongs.

import { columnTitle } from '../../figures/figure'
import { type Cell, type PlainBlock, plainBlocks, type Section } from '../document/blocks'
import { headLines } from '../document/body'
import type { Printed } from '../sheet'

export interface SheetRow {
  readonly section: string
  readonly kind: 'head' | 'table' | 'columns' | 'row' | 'total' | 'text' | 'remark'
  readonly cells: readonly Cell[]
}

function blockRows(section: string, block: PlainBlock): readonly SheetRow[] {
  const text = (content: string): SheetRow => ({ section, kind: 'text', cells: [content] })
  switch (block.kind) {
    case 'table':
      return [
        { section, kind: 'table', cells: [block.caption] },
        { section, kind: 'columns', cells: block.columns.map(columnTitle) },
        ...block.rows.map(
          ({ cells, total }): SheetRow => ({ section, kind: total ? 'total' : 'row', cells }),
        ),
      ]
    case 'figure':
      return [text(block.caption)]
    case 'list':
      return block.items.map(text)
    case 'signatures':
      return block.roles.map((role) => text(`${role}, name, signature and date:`))
    case 'title':
    case 'text':
      return [text(block.text)]
  }
}

const sectionRows = ({ title, blocks, remark }: Section): readonly SheetRow[] => [
  ...plainBlocks(blocks).flatMap((block) => blockRows(title, block)),
  ...(remark === '' ? [] : [{ section: title, kind: 'remark' as const, cells: [remark] }]),
]

export function sheetRows({ head, sections }: Printed): readonly SheetRow[] {
  const line = (cells: readonly Cell[]): SheetRow => ({ section: 'Document', kind: 'head', cells })
  return [
    line(['Project', head.title]),
    line(['Document', head.subject]),
    ...(head.remark === '' ? [] : [line(['Remark', head.remark])]),
    ...headLines(head).map(line),
    ...sections.flatMap(sectionRows),
  ]
}
