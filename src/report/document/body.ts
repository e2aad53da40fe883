// The sheet as markup: what the page shows, the printer prints and the HTML file holds.

import { columnTitle } from '../../figures/figure'
import { type Child, element, type Markup, writable } from '../../figures/render/markup'
import { textWidthPx } from '../../figures/render/textWidth'
import { unbroken } from '../../numerics/numberText'
import type { Printed, SheetHead } from '../sheet'
import { cutOff, shortened } from '../summary/shorten'
import type { Block, Cell, Fit, Section, TableBlock, TableColumn } from './blocks'

/** Words longer than this may break, so that no name can push a table off the page. */
const LONGEST_WORD = 24
const LONG_WORD = new RegExp(`[^\\s-]{${LONGEST_WORD}}(?=[^\\s-])`, 'gu')

/** Text of people keeps its line breaks and its own direction. */
const own = (text: string): Markup => element('bdi', {}, breakable(text))

/** The text with places to break in its longest words. */
function breakable(text: string): readonly Child[] {
  const pieces = writable(text).replace(LONG_WORD, '$&\u0000').split('\u0000')
  return pieces.flatMap((piece, i) => (i === 0 ? [piece] : [element('wbr'), piece]))
}

/** The text shortened to its space, where it has one. */
const fittedTo = (fit: Fit | undefined, text: string): string =>
  fit === undefined ? text : (fit.cut === 'end' ? cutOff : shortened)(text, fit.widthPx, fit.sizePx)

/** Longer runs may break all the same. */
const LONGEST_HELD = 32

/** The text of a cell, in which no line ends between a number and its unit, its ± or its equals sign; the text stays as it is. */
function held(text: string): Markup {
  const tied = unbroken(text).replace(/ = (?=\d)/g, '\u00a0=\u00a0')
  const words = tied.length === text.length ? [...tied.matchAll(/[^ \n]+/g)] : []
  const runs = words.filter(([word]) => word.includes('\u00a0'))
  let from = 0
  const pieces = runs.flatMap(({ index, 0: run }) => {
    if (run.length > LONGEST_HELD) return []
    const before = breakable(text.slice(from, index))
    from = index + run.length
    return [...before, element('span', { class: 'held' }, writable(text.slice(index, from)))]
  })
  return element('bdi', {}, [...pieces, ...breakable(text.slice(from))])
}

function cell(tag: 'td' | 'th', content: Cell, numeric: boolean, scope?: string, fit?: Fit): Markup {
  const attributes = { scope, class: numeric ? 'number' : undefined }
  if (typeof content === 'string')
    return element(tag, attributes, content === '' ? null : held(fittedTo(fit, content)))
  return element(tag, attributes, element('data', { value: content.value }, content.text))
}

/** Columns of numbers are aligned right; the first names its rows, even by a number. */
const isNumeric = (table: TableBlock, column: number) =>
  column > 0 && table.rows.some(({ cells }) => typeof cells[column] === 'object')

function tableBody(table: TableBlock): Markup {
  const numeric = table.columns.map((_, i) => isNumeric(table, i))
  const head = (column: TableColumn, i: number) => cell('th', columnTitle(column), numeric[i] ?? false, 'col')
  return element(
    'table',
    { class: table.columns.length > 6 ? 'wide' : undefined, 'data-table': table.id },
    element('caption', {}, own(table.caption)),
    element('thead', {}, element('tr', {}, table.columns.map(head))),
    element(
      'tbody',
      {},
      table.rows.map(({ cells, mark, total, strong, slight }) =>
        element(
          'tr',
          { 'data-mark': mark, class: total ? 'total' : strong ? 'strong' : slight ? 'slight' : undefined },
          cells.map((content, i) =>
            i === 0
              ? cell('th', content, false, 'row', table.columns[i]?.fit)
              : cell('td', content, numeric[i] ?? false, undefined, table.columns[i]?.fit),
          ),
        ),
      ),
    ),
  )
}

function blockBody(block: Block): Markup {
  switch (block.kind) {
    case 'table':
      return tableBody(block)
    case 'figure':
      return element(
        'figure',
        { 'data-figure': block.id },
        block.drawing,
        element('figcaption', {}, own(fittedTo(block.fit, block.caption))),
      )
    case 'list':
      return element(
        'ul',
        {},
        block.items.map((item) => element('li', {}, own(fittedTo(block.fit, item)))),
      )
    case 'group':
      return element('div', { class: block.look }, block.blocks.map(blockBody))
    case 'signatures':
      return element(
        'div',
        { class: 'signatures' },
        block.roles.map((role) => element('p', {}, own(fittedTo(block.fit, role)))),
      )
    case 'title':
      return element('h3', {}, own(fittedTo(block.fit, block.text)))
    case 'text':
      return element('p', {}, own(fittedTo(block.fit, block.text)))
  }
}

/** One section of the sheet. */
export function sectionBody({ id, title, blocks, remark }: Section): Markup {
  return element(
    'section',
    { 'data-section': id },
    element('h2', {}, title),
    blocks.map(blockBody),
    remark === '' ? null : element('p', { class: 'remark' }, element('strong', {}, 'Remark: '), own(remark)),
  )
}

/** The lines of the head, in every format. */
export function headLines(head: SheetHead): readonly (readonly [label: string, text: string])[] {
  return [
    ['Revision', head.revision],
    ['Date', head.date],
    ['Program', `Modeseam ${head.programVersion}`],
    ['Project SHA-256', head.checksum],
  ]
}

/** Space for a title at its size, and for a remark of two lines, px; the remark is whole in a section of its own. */
const TITLE = { roomPx: 880, sizePx: 21 } as const
const REMARK_PX = 1200

/** A name that would need a third line is shortened in its middle; any other stays as entered. */
const fitted = (name: string): string =>
  textWidthPx(name.slice(0, 1000), TITLE.sizePx) > TITLE.roomPx
    ? shortened(name, TITLE.roomPx, TITLE.sizePx)
    : name

/** What comes before the first section. */
export function headBody(head: SheetHead): Markup {
  return element(
    'header',
    {},
    element(
      'div',
      { class: 'title' },
      element('h1', {}, own(fitted(head.title))),
      element('p', { class: 'quiet' }, own(head.subject)),
    ),
    head.remark === '' ? null : element('p', {}, own(cutOff(head.remark, REMARK_PX))),
    element(
      'dl',
      {},
      headLines(head).map(([label, text]) =>
        element('div', {}, element('dt', {}, label), element('dd', {}, own(text))),
      ),
    ),
  )
}

export function sheetBody({ head, sections }: Printed): Markup {
  return element('article', { class: 'review-sheet' }, headBody(head), sections.map(sectionBody))
}
