// What a section of the sheet is made of. Every format renders these blocks and knows nothing of what they mean.

import type { Markup } from '../../figures/render/markup'

/** A number as it is read, and in full. */
export interface NumberCell {
  readonly value: number
  readonly text: string
}

export type Cell = string | NumberCell

/** Space for a text on paper and page, where it is shortened to it; other formats hold it whole. */
export interface Fit {
  readonly widthPx: number
  readonly sizePx: number
  /** Names are cut in the middle, because they differ at both ends; sentences at the end. */
  readonly cut: 'middle' | 'end'
}

export interface TableColumn {
  readonly label: string
  /** Of every text in the column. */
  readonly fit?: Fit
  /** Of every number in the column; empty where they have none or each its own. */
  readonly unit?: string
}

export interface TableRow {
  readonly cells: readonly Cell[]
  /** A name for the row that no wording changes. */
  readonly mark?: string
  /** True for sums and totals, which are highlighted. */
  readonly total?: boolean
  /** True for what must be seen, such as a requirement that is not met: heavier, on a ground of its own. */
  readonly strong?: boolean
  /** True for what rounds to nothing: in every file, but not on paper. */
  readonly slight?: boolean
}

export interface TableBlock {
  readonly kind: 'table'
  /** A name that no wording changes, where paper gives the table columns of its own. */
  readonly id?: string
  readonly caption: string
  readonly columns: readonly TableColumn[]
  readonly rows: readonly TableRow[]
}

export interface FigureBlock {
  readonly kind: 'figure'
  /** Also the name of its file. */
  readonly id: string
  /** The result in one sentence, for those who do not see the drawing. */
  readonly caption: string
  readonly fit?: Fit
  readonly drawing: Markup
  /** The numbers behind the drawing. */
  readonly table: TableBlock
}

interface TextBlock {
  readonly kind: 'text'
  readonly text: string
  readonly fit?: Fit
}

interface ListBlock {
  readonly kind: 'list'
  readonly items: readonly string[]
  /** Of every item. */
  readonly fit?: Fit
}

/** A title within a section. */
interface TitleBlock {
  readonly kind: 'title'
  readonly text: string
  readonly fit?: Fit
}

/** Who signs: a line for each role, with space for a name and a date. */
interface SignaturesBlock {
  readonly kind: 'signatures'
  readonly roles: readonly string[]
  /** Of every role. */
  readonly fit?: Fit
}

/** Blocks that belong together. How they lie matters to paper and page only; other formats read one after the other. */
interface GroupBlock {
  readonly kind: 'group'
  /** A framed statement; blocks side by side; a stack; blocks that flow in two narrow columns. */
  readonly look: 'decision' | 'beside' | 'stack' | 'columns'
  readonly blocks: readonly Block[]
}

/** A block that holds no others. */
export type PlainBlock = TableBlock | FigureBlock | TextBlock | ListBlock | TitleBlock | SignaturesBlock
export type Block = PlainBlock | GroupBlock

export interface Section {
  readonly id: string
  readonly title: string
  readonly blocks: readonly Block[]
  /** What the engineer has to say about the section; empty where nothing. */
  readonly remark: string
}

const fitting = (fit: Fit | undefined) => (fit === undefined ? {} : { fit })

export const text = (content: string, fit?: Fit): TextBlock => ({
  kind: 'text',
  text: content,
  ...fitting(fit),
})
export const title = (content: string, fit?: Fit): TitleBlock => ({
  kind: 'title',
  text: content,
  ...fitting(fit),
})
export const list = (items: readonly string[], fit?: Fit): ListBlock => ({
  kind: 'list',
  items,
  ...fitting(fit),
})

export const group = (look: GroupBlock['look'], ...blocks: readonly Block[]): GroupBlock => ({
  kind: 'group',
  look,
  blocks,
})

/** The blocks in their order, without groups. */
export function plainBlocks(blocks: readonly Block[]): readonly PlainBlock[] {
  return blocks.flatMap((block) => (block.kind === 'group' ? plainBlocks(block.blocks) : [block]))
}

export function table(
  caption: string,
  columns: readonly (string | TableColumn)[],
  rows: readonly (TableRow | readonly Cell[])[],
  id?: string,
): TableBlock {
  return {
    kind: 'table',
    ...(id !== undefined && { id }),
    caption,
    columns: columns.map((column) => (typeof column === 'string' ? { label: column } : column)),
    rows: rows.map((row) => ('cells' in row ? row : { cells: row })),
  }
}
