import { describe, expect, test } from 'vitest'
import type { Section } from '../../../src/report/document/blocks'
import { paperWorkbook } from '../../../src/report/workbook/paperWorkbook'
import { readBook } from '../support/recalculate'
import { HEAD } from './head'

const section = (title: string, blocks: Section['blocks'] = []): Section => ({
  id: title,
  title,
  blocks,
  remark: '',
})

const TABLE: Section['blocks'][number] = {
  kind: 'table',
  caption: 'Parts',
  columns: [{ label: 'Part' }, { label: 'Pitch', unit: 'µm' }],
  rows: [
    { cells: ['Fibre array with eight fibres', { value: 127.04, text: '127.0' }] },
    { cells: ['A'.repeat(80), { value: -3, text: '−3' }] },
  ],
}

const book = async (...sections: readonly Section[]) =>
  readBook(await paperWorkbook({ head: HEAD, sections }))

describe('a document as a workbook', () => {
  test('has columns as wide as their contents and two blanks, from 9 to 38 characters, and six of them at least', async () => {
    const [page] = (await book(section('Parts', [TABLE]))).sheets
    // 'Pitch, µm' has 9 letters; columns without a table are twice the narrowest width.
    expect(page?.columns?.map(({ width }) => width)).toEqual([38, 11, 18, 18, 18, 18])
    const [narrow] = (await book(section('Parts', [{ ...TABLE, rows: [], columns: [{ label: 'A' }] }])))
      .sheets
    expect(narrow?.columns?.[0]?.width).toBe(9)
  })

  test('lets captions and texts run over all of its columns, and no further', async () => {
    const blocks: Section['blocks'] = [
      TABLE,
      { kind: 'list', items: ['one'] },
      { kind: 'text', text: 'Text' },
    ]
    const [page] = (await book(section('Parts', blocks))).sheets
    const last = (page?.columns?.length ?? 0) - 1
    expect(page?.merges?.map(({ startCol, endCol }) => [startCol, endCol])).toEqual(
      Array.from({ length: 4 }, () => [0, last]),
    )
  })

  test('prints numbers with the decimals that they have on paper, and keeps them in full', async () => {
    const [page] = (await book(section('Parts', [TABLE]))).sheets
    const row = page?.rows.findIndex((each) => each[1] === 127.04) ?? -1
    expect(row).toBeGreaterThan(0)
    expect(page?.cells?.get(`${row},1`)?.style?.numFmt).toBe('0.0;−0.0')
    expect(page?.cells?.get(`${row + 1},1`)?.style?.numFmt).toBe('0;−0')
    expect(page?.rows[row + 1]?.[1]).toBe(-3)
  })

  test('names every page once, with at most 31 letters and none that ECMA-376 forbids', async () => {
    const { sheets } = await book(
      section('Fibre: [x/y]?'),
      section('fibre   x y'),
      section('L'.repeat(60)),
      section('L'.repeat(60)),
      section("''"),
    )
    const names = sheets.map(({ name }) => name)
    expect(new Set(names.map((name) => name.toLowerCase())).size).toBe(5)
    for (const name of names) {
      expect(name.length).toBeGreaterThan(0)
      expect(name.length).toBeLessThanOrEqual(31)
      expect(name).not.toMatch(/[[\]:*?/\\']/)
    }
  })

  test('leaves a row free below a table, a list and a paragraph, and none below a title', async () => {
    const blocks: Section['blocks'] = [
      { kind: 'title', text: 'Title' },
      TABLE,
      { kind: 'group', look: 'stack', blocks: [{ kind: 'list', items: ['one', 'two'] }] },
      { kind: 'text', text: 'Text' },
      { kind: 'text', text: 'End' },
    ]
    const [page] = (await book(section('Parts', blocks))).sheets
    const first = page?.rows.map((row) => row[0] ?? null)
    const shown = ['Parts', 'Title', 'Parts', 'Part', TABLE.rows[0]?.cells[0], TABLE.rows[1]?.cells[0]]
    expect(first).toEqual([...shown, null, '•  one', '•  two', null, 'Text', null, 'End'])
  })

  test('fits up to 60 rows to one page, and lies on its side with more than six columns', async () => {
    const rows = (count: number) => Array.from({ length: count }, () => ({ cells: ['a'] }))
    const wide = { ...TABLE, columns: Array.from({ length: 7 }, () => ({ label: 'Column' })), rows: [] }
    // Title, caption, head, and a free row below the table make four more.
    const { sheets } = await book(
      section('Short', [{ ...TABLE, rows: rows(56) }]),
      section('Long', [{ ...TABLE, rows: rows(57) }]),
      section('Wide', [wide]),
    )
    expect(sheets.map(({ pageSetup }) => pageSetup?.fitToHeight)).toEqual([1, 0, 1])
    expect(sheets.map(({ pageSetup }) => pageSetup?.orientation)).toEqual([
      'portrait',
      'portrait',
      'landscape',
    ])
  })
})
