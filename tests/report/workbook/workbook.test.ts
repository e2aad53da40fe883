// The pages of a whole workbook and the names of their cells; its formulas are computed in tests/report/workbook.reference.test.ts.

import type { Workbook } from 'hucre/xlsx'
import { beforeAll, describe, expect, test } from 'vitest'
import type { LiveBudget } from '../../../src/report/workbook/budgetPage'
import { whatIf } from '../../../src/report/workbook/whatIfPage'
import { sheetWorkbook } from '../../../src/report/workbook/workbook'
import { twoDesigns } from '../../support/twoDesigns'
import { positionOf, readBook } from '../support/recalculate'
import { sheetOf } from '../support/sheets'

describe('the workbook of two designs', () => {
  let book: Workbook
  beforeAll(async () => {
    const project = twoDesigns()
    book = await readBook(await sheetWorkbook({ ...sheetOf(project), sections: [] }, project))
  })

  test('has a budget for each, numbered from 1 as the cells that it names', () => {
    const names = book.sheets.map(({ name }) => name)
    expect(names).toEqual(['Summary', 'What if', 'Budget 1', 'Budget 2', 'Joints', 'Document'])
    for (const number of [1, 2]) {
      for (const total of ['nominal', 'worst_corner', 'root_sum_square', 'gap'])
        expect(positionOf(book, `budget${number}_${total}`).sheet).toBe(`Budget ${number}`)
    }
    expect(book.sheets[2]?.rows[0]?.[0]).toBe('Cleaved fibre, dry')
  })

  test('puts what both designs read on What if, and leaves to each what it alone reads', () => {
    const names = (book.namedRanges ?? []).map(({ name }) => name)
    const shared = names.filter((name) => name.startsWith('what_if_'))
    // Both end at the same facet; each has a gap and a fibre of its own.
    expect(shared).toContain('what_if_mfd_x_of_silicon_nitride_facet')
    expect(shared.filter((name) => /gap|offset|fibre/.test(name))).toEqual([])
  })
})

test('What if says of a design how many of its lines follow no input, and nothing of one whose lines all do', () => {
  const total = (value: number) => ({ text: '1', value })
  const budgetOf = (carried: number) =>
    ({
      title: 'A design',
      totals: { nominal: total(1), rss: total(2), worst: total(3) },
      verdicts: [{ label: 'Loss', cell: "'Budget 1'!$F$9", word: 'not met' }],
      carried,
    }) as unknown as LiveBudget
  const { cells } = whatIf(2, () => false).page([budgetOf(0), budgetOf(3)])
  const row = (at: number) =>
    Array.from({ length: 12 }, (_, column) => cells.get(`${at},${column}`)?.value).filter(
      (each) => each !== undefined,
    )
  expect(row(4)).toEqual(['A design', 1, 1, 0, 2, 2, 0, 3, 3, 0, 'not met'])
  expect(row(5).slice(0, 11)).toEqual(row(4))
  expect([...cells.values()].filter(({ value }) => /do not follow the inputs/.test(String(value)))).toEqual([
    expect.objectContaining({ value: expect.stringMatching(/^3 lines are fixed values/) }),
  ])
})

test('a project without designs has the first page and the document alone', async () => {
  const project = { ...twoDesigns(), candidates: [] }
  const { sheets } = await readBook(await sheetWorkbook(sheetOf(project), project))
  expect(sheets.map(({ name }) => name)).toEqual(['Summary', 'Document'])
})
