// The sheet as Markdown with tables (CommonMark 0.31 with the table extension). Text of people is escaped, so that it stays
// text in whatever renders the file.

import { columnTitle } from '../../figures/figure'
import { writable } from '../../figures/render/markup'
import { type Cell, type PlainBlock, plainBlocks, type Section, type TableBlock } from '../document/blocks'
import { headLines } from '../document/body'
import { documentCellText } from '../document/cells'
import type { FiguresBeside } from '../formats'
import type { Printed } from '../sheet'

/** Has a meaning at any place of a line. */
const MARKUP = /[\\`*_{}[\]|~$@]|!(?=\[)|:(?=\/\/|[a-z0-9_+-]+:)/gi
/** Means something at the start of a line only. Elsewhere it stays as it is: people read the file without a renderer too. */
const AT_START = /^([#>+=-])|^(\d+)([.)])(?=\s|$)/
const ENTITIES: Readonly<Record<string, string>> = { '<': '&lt;', '&': '&amp;' }

/** One line of text: breaks become `<br>`, spaces in front stay, and an address is not a link. */
export function markdownText(text: string): string {
  return writable(text)
    .replace(/\r\n?/g, '\n')
    .split('\n')
    .map((line) =>
      line
        .replace(MARKUP, (letter) => `\\${letter}`)
        .replace(/[<&]/g, (letter) => ENTITIES[letter] ?? letter)
        .replace(AT_START, (_, sign: string | undefined, digits = '', mark = '') =>
          sign === undefined ? `${digits}\\${mark}` : `\\${sign}`,
        )
        .replace(/\bwww\./gi, (start) => `${start.slice(0, -1)}\\.`)
        .replace(/^[ \t]+/, (spaces) => [...spaces].map((each) => `&#${each.charCodeAt(0)};`).join('')),
    )
    .join('<br>')
}

const row = (cells: readonly string[]) => `| ${cells.join(' | ')} |`

function tableText(table: TableBlock): string {
  const numeric = (i: number) => table.rows.some(({ cells }) => typeof cells[i] === 'object')
  const text = (cell: Cell) => markdownText(documentCellText(cell))
  return [
    `**${markdownText(table.caption)}**`,
    '',
    row(table.columns.map((column) => markdownText(columnTitle(column)))),
    row(table.columns.map((_, i) => (numeric(i) ? '---:' : '---'))),
    ...table.rows.map(({ cells, total }) =>
      row(cells.map((cell) => (total && documentCellText(cell) !== '' ? `**${text(cell)}**` : text(cell)))),
    ),
  ].join('\n')
}

function blockText(block: PlainBlock, beside: FiguresBeside | undefined): string {
  switch (block.kind) {
    case 'table':
      return tableText(block)
    case 'figure':
      return beside === undefined
        ? `*Figure:* ${markdownText(block.caption)}`
        : `![${markdownText(block.caption)}](${beside(block)})`
    case 'list':
      return block.items.map((item) => `- ${markdownText(item)}`).join('\n')
    case 'signatures':
      return block.roles.map((role) => `- ${markdownText(role)}, name, signature and date:`).join('\n')
    case 'title':
      return `### ${markdownText(block.text)}`
    case 'text':
      return markdownText(block.text)
  }
}

function sectionText({ title, blocks, remark }: Section, beside: FiguresBeside | undefined): string {
  return [
    `## ${title}`,
    ...plainBlocks(blocks).map((block) => blockText(block, beside)),
    ...(remark === '' ? [] : [`**Remark:** ${markdownText(remark)}`]),
  ].join('\n\n')
}

/** With `beside`, figures are links to the files that were written next to the document. */
export function sheetMarkdown({ head, sections }: Printed, beside?: FiguresBeside): string {
  const top = [
    `# ${markdownText(head.title)}`,
    markdownText(head.subject),
    ...(head.remark === '' ? [] : [markdownText(head.remark)]),
    headLines(head)
      .map(([label, text]) => `- ${label}: ${markdownText(text)}`)
      .join('\n'),
  ]
  return `${[...top, ...sections.map((section) => sectionText(section, beside))].join('\n\n')}\n`
}
