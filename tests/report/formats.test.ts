import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../src/analysis/index'
import { FONT_FACE } from '../../src/figures/render/fontFace'
import { plainBlocks } from '../../src/report/document/blocks'
import { figuresOf } from '../../src/report/document/figureBlock'
import { FORMATS } from '../../src/report/formats'
import type { Sheet } from '../../src/report/sheet'
import { twoDesigns } from '../support/twoDesigns'
import {
  csvRows,
  expectedRows,
  expectedTexts,
  htmlRows,
  htmlTexts,
  jsonRows,
  markdownRows,
  type Row,
  trimmed,
  wholeTexts,
  workbookRows,
} from './support/readBack'
import { CHOSEN, demoRuns, sheetOf } from './support/sheets'

const project = twoDesigns()
const sheet = sheetOf(project, { runs: demoRuns(project) })

const file = async (id: string, of: Sheet = sheet) => {
  const format = FORMATS.find((each) => each.id === id)
  if (format === undefined) throw new Error(`no format ${id}`)
  return format.render(of, project)
}
const text = async (id: string) => String(await file(id))

/** Only what tables hold; infinities are words in JSON. */
const tableRows = () => {
  const all = sheet.sections.flatMap(({ blocks }) =>
    plainBlocks(blocks).flatMap((block) => (block.kind === 'table' ? block.rows : [])),
  )
  return all.map(({ cells }) => cells.map((cell) => (typeof cell === 'string' ? cell : cell.value)))
}

describe('every number of the sheet is the same in every format, to the last digit', () => {
  test('CSV', async () => {
    expect(csvRows(await text('csv'), sheet)).toEqual(expectedRows(sheet))
  })
  test('the workbook’s page of the sheet', async () => {
    expect(await workbookRows((await file('xlsx')) as Uint8Array)).toEqual(expectedRows(sheet))
  })
  test('JSON', async () => {
    expect(jsonRows(await text('json'))).toEqual(tableRows())
  })
  test('HTML, with the shown text beside the full value', async () => {
    const html = await text('html')
    expect(htmlRows(html)).toEqual(tableRows())
    expect(wholeTexts(htmlTexts(html), sheet)).toEqual(expectedTexts(sheet))
  })
  test('Markdown, as it is shown', async () => {
    expect(markdownRows(await text('md'))).toEqual(expectedTexts(sheet))
  })
})

describe('the lines of the budget add up to the core’s total in every format', () => {
  const { lines, nominalDb } = evaluateCandidate(project, CHOSEN)
  const sumOf = (rows: readonly Row[]) => {
    const first = rows.findIndex((row) => row[0] === lines[0]?.label)
    const own = rows.slice(first, first + lines.length)
    expect(own.map((row) => row[0])).toEqual(lines.map(({ label }) => label))
    const total = rows[first + lines.length]
    expect(total?.[0]).toBe('Nominal')
    expect(Number(total?.[1])).toBe(nominalDb)
    return own.reduce((sum, row) => sum + Number(row[1]), 0)
  }
  test.each([
    ['CSV', async () => csvRows(await text('csv'), sheet)],
    ['JSON', async () => jsonRows(await text('json'))],
    ['HTML', async () => htmlRows(await text('html'))],
    ['the workbook', async () => workbookRows((await file('xlsx')) as Uint8Array)],
  ] as const)('%s', async (_, read) => {
    const rows = (await read()).map(trimmed)
    expect(sumOf(rows.slice(rows.findIndex((row) => row[0] === lines[0]?.label)))).toBeCloseTo(nominalDb, 9)
  })
})

describe('every format', () => {
  const again = sheetOf(twoDesigns(), { runs: demoRuns() })
  test.each(FORMATS.map(({ id }) => id))('%s: the same sheet gives the same bytes', async (id) => {
    expect(await file(id, again)).toEqual(await file(id))
  })

  test.each(FORMATS.map(({ id }) => id).filter((id) => id !== 'xlsx'))(
    '%s carries title, revision, date, program version and checksum',
    async (id) => {
      const content = (await text(id)).replaceAll('\\', '').replace(/<wbr>/g, '')
      const { title, revision, date, programVersion, checksum } = sheet.head
      for (const word of [title, revision, date, programVersion, checksum]) expect(content).toContain(word)
    },
  )

  test('no cell of the HTML file breaks between a number and its unit or its ±, and its text stays as it is', async () => {
    const html = await text('html')
    expect(html).toMatch(/<td><bdi><span class="held">± [\d.]+ µm,<\/span> uniform<\/bdi><\/td>/)
    expect(html).not.toContain('\u00a0')
  })

  test('the HTML file asks for nothing from outside and runs nothing', async () => {
    const html = await text('html')
    // The typeface is inside, as the only address of the file.
    expect(html.replace(FONT_FACE, '')).not.toMatch(/<script|<link|<img|<iframe|@import|url\(/)
    expect(html.match(/(?:href|src)="/g)).toBeNull()
    expect(html).toContain(
      `content="default-src &#39;none&#39;; style-src &#39;unsafe-inline&#39;; font-src data:"`,
    )
  })

  test('figures are vectors in the HTML file, and every figure of the sheet is there', async () => {
    const html = await text('html')
    const figures = figuresOf(sheet.sections)
    expect(figures.length).toBeGreaterThanOrEqual(7)
    expect(html.match(/<figure[^>]*><svg /g)).toHaveLength(figures.length)
  })
})
