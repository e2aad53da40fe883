import { describe, expect, test } from 'vitest'
import { pageWriter, type WorkbookPage } from '../../../src/report/workbook/page'
import { literal } from '../../../src/report/workbook/term'
import { workbookOf } from '../../../src/report/workbook/writePages'
import { readBook } from '../support/recalculate'
import { HEAD } from './head'

const written = async (page: WorkbookPage, head = HEAD) =>
  (await readBook(await workbookOf(head, [page]))).sheets[0]

/** A page with a text in its first cell, 10 characters wide. */
function pageOf(text: string, more: Partial<WorkbookPage> = {}): WorkbookPage {
  const writer = pageWriter('Page')
  writer.text(0, 0, text)
  return { ...writer.page([10, 15], 0), ...more }
}

describe('a page as it is written', () => {
  test('has texts, numbers, formulas with what they come to, and formats of its own', async () => {
    const writer = pageWriter('Page')
    writer.text(0, 0, 'text')
    writer.number(1, 0, 0.25)
    writer.number(1, 1, 0.25, 'plain', '0.0')
    writer.formula(2, 0, literal(0.5))
    writer.word(3, 0, 'IF(1>0,"met","not met")', 'met')
    const sheet = await written(writer.page([10, 10], 0))
    expect(sheet?.cells?.get('0,0')?.formula).toBeUndefined()
    expect(sheet?.rows[0]?.[0]).toBe('text')
    expect(sheet?.rows[1]).toEqual([0.25, 0.25])
    expect(sheet?.cells?.get('1,1')?.style?.numFmt).toBe('0.0')
    expect(sheet?.cells?.get('2,0')).toMatchObject({ formula: '0.5', formulaResult: 0.5 })
    expect(sheet?.cells?.get('3,0')).toMatchObject({ formula: 'IF(1>0,"met","not met")', value: 'met' })
  })

  // 15 points a line of 11 point text; no program makes a row higher than 409 points.
  test.each([
    ['a line', 'a'.repeat(10), undefined],
    ['one letter more', 'a'.repeat(11), 30],
    ['three lines', 'a\nb\nc', 45],
    ['an empty line between', 'a\n\nc', 45],
    ['more than a row can hold', 'a\n'.repeat(40), 409],
  ])('has rows high enough for %s', async (_, text, height) => {
    const sheet = await written(pageOf(text))
    expect(sheet?.rowDefs?.get(0)?.height).toBe(height)
  })

  test('has texts that run over several columns in fewer lines', async () => {
    const sheet = await written(pageOf('a'.repeat(26), { spans: [[0, 0, 1]] }))
    expect(sheet?.rowDefs?.get(0)?.height).toBe(30)
    expect(sheet?.merges).toEqual([{ startRow: 0, endRow: 0, startCol: 0, endCol: 1 }])
    expect((await written(pageOf('a'.repeat(25), { spans: [[0, 0, 1]] })))?.rowDefs?.get(0)).toBeUndefined()
  })

  test('folds its groups from their first row to their last', async () => {
    const writer = pageWriter('Page')
    for (let row = 0; row < 7; row++) writer.text(row, 0, 'text')
    const sheet = await written({ ...writer.page([10], 0), groups: [[2, 4]] })
    const folded = [...(sheet?.rowDefs ?? [])].filter(([, { outlineLevel }]) => outlineLevel === 1)
    expect(folded.map(([row]) => row)).toEqual([2, 3, 4])
  })

  test('is printed from its first cell to its last, charts and texts over several columns included', async () => {
    const areaOf = async (more: Partial<WorkbookPage>) =>
      (await written(pageOf('text', more)))?.pageSetup?.printArea
    const chart = {
      title: 'Chart',
      labels: "'Page'!$A$1",
      base: "'Page'!$A$1",
      rising: "'Page'!$A$1",
      falling: "'Page'!$A$1",
    }
    expect(await areaOf({})).toMatch(/\$A\$1:\$A\$1$/)
    expect(await areaOf({ spans: [[3, 0, 5]] })).toMatch(/\$A\$1:\$F\$4$/)
    expect(await areaOf({ charts: [{ ...chart, from: [1, 2], to: [9, 6] }] })).toMatch(/\$A\$1:\$G\$10$/)
    expect(await areaOf({ spans: [[3, 0, 5]], print: { orientation: 'portrait', lastColumn: 1 } })).toMatch(
      /\$A\$1:\$B\$4$/,
    )
  })

  test('is fitted to the width of the paper unless it has more than 20 columns and no wish of its own', async () => {
    const setup = async (columns: number, more: Partial<WorkbookPage> = {}) =>
      (await written(pageOf('text', { widths: Array.from({ length: columns }, () => 10), ...more })))
        ?.pageSetup
    expect(await setup(20)).toMatchObject({ fitToWidth: 1, paperSize: 'a4', orientation: 'landscape' })
    expect((await setup(21))?.fitToWidth).toBeUndefined()
    const print = { orientation: 'portrait', pages: 3 } as const
    expect(await setup(21, { print })).toMatchObject({
      fitToWidth: 1,
      fitToHeight: 3,
      orientation: 'portrait',
    })
    const letter = await written(pageOf('text'), { ...HEAD, paper: 'Letter' })
    expect(letter?.pageSetup?.paperSize).toBe('letter')
  })

  test('keeps rows and columns in sight where it has some', async () => {
    expect((await written(pageOf('text')))?.freezePane).toBeUndefined()
    expect((await written(pageOf('text', { frozenRows: 1 })))?.freezePane).toMatchObject({ rows: 1 })
    expect((await written(pageOf('text', { frozenColumns: 2 })))?.freezePane).toMatchObject({ columns: 2 })
  })

  test('cuts a text that no cell can hold, and only that', async () => {
    const text = async (length: number) => (await written(pageOf('a'.repeat(length))))?.rows[0]?.[0]
    expect(await text(32_767)).toBe('a'.repeat(32_767))
    expect(await text(32_768)).toBe(`${'a'.repeat(32_766)}…`)
  })
})

test('the same pages give the same bytes, dated by the document', async () => {
  const [one, two] = [await workbookOf(HEAD, [pageOf('text')]), await workbookOf(HEAD, [pageOf('text')])]
  expect(Buffer.from(one).equals(Buffer.from(two))).toBe(true)
  const dayOf = async (date: string) =>
    (await readBook(await workbookOf({ ...HEAD, date }, [pageOf('text')]))).properties?.created
  expect(await dayOf('2026-11-25')).toEqual(new Date('2026-11-25T00:00:00Z'))
  expect(await dayOf('someday')).toEqual(new Date(0))
})
