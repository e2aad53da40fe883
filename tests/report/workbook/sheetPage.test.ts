import { expect, test } from 'vitest'
import type { Section } from '../../../src/report/document/blocks'
import type { Sheet } from '../../../src/report/sheet'
import { sheetPage } from '../../../src/report/workbook/sheetPage'
import { HEAD } from './head'

const SECTION: Section = {
  id: 'budget',
  title: 'Budget',
  remark: 'Checked',
  blocks: [
    {
      kind: 'table',
      caption: 'Lines',
      columns: [{ label: 'Line' }, { label: 'Loss', unit: 'dB' }],
      rows: [
        { cells: ['Splice', { value: 0.125, text: '0.13' }] },
        { cells: ['Without limit', { value: Number.POSITIVE_INFINITY, text: 'no limit' }] },
        { cells: ['Sum', { value: 2, text: '2.00' }], total: true },
      ],
    },
  ],
}

test('the page of the document has a row for every line, under its heads, with section and kind in front', () => {
  const sheet: Sheet = {
    head: HEAD,
    sections: [SECTION],
    chosen: null,
    summary: null,
    candidates: [],
    refused: [],
  }
  const { cells, frozenRows, frozenColumns } = sheetPage(sheet)
  const row = (at: number) => [0, 1, 2, 3].map((column) => cells.get(`${at},${column}`)?.value)
  const rows = Array.from(
    { length: 1 + Math.max(...[...cells.keys()].map((key) => Number.parseInt(key, 10))) },
    (_, at) => row(at),
  )
  expect(rows[0]).toEqual(['Section', 'Kind', undefined, undefined])
  expect(rows[1]).toEqual(['Document', 'head', 'Project', 'Two designs'])
  const first = rows.findIndex(([section]) => section === 'Budget')
  expect(rows.slice(first)).toEqual([
    ['Budget', 'table', 'Lines', undefined],
    ['Budget', 'columns', 'Line', 'Loss, dB'],
    ['Budget', 'row', 'Splice', 0.125],
    ['Budget', 'row', 'Without limit', 'no limit'],
    ['Budget', 'total', 'Sum', 2],
    ['Budget', 'remark', 'Checked', undefined],
  ])
  // A number keeps its digits, a whole one is printed whole, that of a total as totals are.
  expect([2, 3, 4].map((at) => cells.get(`${first + at},3`)?.style)).toEqual(
    ['result', undefined, 'total'].map((style) => style ?? 'text'),
  )
  expect([frozenRows, frozenColumns]).toEqual([1, 2])
})
