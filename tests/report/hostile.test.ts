import { readXlsx } from 'hucre/xlsx'
import Papa from 'papaparse'
import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../src/analysis/index'
import { FONT_FACE } from '../../src/figures/render/fontFace'
import { svgFile } from '../../src/figures/render/picture'
import { unescapeFormula } from '../../src/model/parts/formulaEscape'
import type { Project } from '../../src/model/schema/project'
import { plainBlocks } from '../../src/report/document/blocks'
import { documentCellText } from '../../src/report/document/cells'
import { figuresOf } from '../../src/report/document/figureBlock'
import { FORMATS } from '../../src/report/formats'
import { PAPER_FORMATS } from '../../src/report/paperFormats'
import { PAPER_KINDS, type PaperKind } from '../../src/report/papers'
import type { Sheet } from '../../src/report/sheet'
import { HOSTILE_NAMES, hostileProject, LONG_TEXTS } from './support/hostile'
import {
  csvRows,
  expectedRows,
  expectedTexts,
  htmlTexts,
  jsonRows,
  markdownPlain,
  markdownRows,
  unescaped,
  wholeTexts,
  workbookRows,
} from './support/readBack'
import { readBook } from './support/recalculate'
import { sheetOf } from './support/sheets'

const CASES = Object.entries(HOSTILE_NAMES)
const LONG = LONG_TEXTS[1] ?? ''

/** Line breaks as every reader of text makes them. */
const broken = (text: string) => text.replace(/\r\n?/g, '\n')

const sheets = new Map<string, { readonly project: Project; readonly sheet: Sheet }>()

/** The sheet of the project with the name, made once, and its files. */
async function made(name: string) {
  const known = sheets.get(name)
  const project = known?.project ?? hostileProject(name, LONG)
  const sheet = known?.sheet ?? sheetOf(project)
  sheets.set(name, { project, sheet })
  const file = async (id: string) => FORMATS.find((each) => each.id === id)?.render(sheet, project) ?? ''
  return { sheet, file, text: async (id: string) => String(await file(id)) }
}

const markupTags = (markup: string) =>
  new Set(Array.from(markup.matchAll(/<\/?([a-z][\w-]*)/gi), (match) => match[1]?.toLowerCase()))

/** Cells of a workbook whose text begins like a formula. */
const formulaTexts = (pages: Awaited<ReturnType<typeof readXlsx>>['sheets']) =>
  pages.flatMap(({ rows }) =>
    rows.flat().filter((cell) => typeof cell === 'string' && /^[=+\-@\t\r＝＋－＠]/.test(cell)),
  )

/** Tags that the sheet itself is made of. */
const HTML_TAGS = new Set(
  'html head meta title desc style body article header h1 h2 h3 p dl div dt dd section table caption thead tbody tr th td data figure figcaption ul li bdi span wbr strong svg g path line rect circle polygon polyline text tspan'.split(
    ' ',
  ),
)

/** Throws where the elements of an XML text do not nest. */
function nested(xml: string): void {
  const open: string[] = []
  for (const [, end, name, empty] of xml.matchAll(/<(\/?)([a-zA-Z][\w:-]*)(?:\s[^<>]*?)?(\/?)>/g)) {
    if (end === '/') {
      if (open.pop() !== name) throw new Error(`</${name}> closes nothing`)
    } else if (empty !== '/') open.push(name ?? '')
  }
  if (open.length > 0) throw new Error(`<${open.join('><')}> stays open`)
}

describe.each(CASES)('%s in names and remarks', (_, name) => {
  test('comes back from CSV as it was, and no field begins like a formula', async () => {
    const { sheet, text } = await made(name)
    const csv = await text('csv')
    expect(csvRows(csv, sheet)).toEqual(expectedRows(sheet))
    expect(csv).not.toMatch(/(?:^|,|\n)"?[=+@\t＝＋－＠]/)
    // A minus leads only numbers.
    expect(csv).not.toMatch(/(?:^|,|\n)"?-(?![\d.])/)
  })

  test('comes back from the workbook as it was, and is part of no formula', async () => {
    const { sheet, file } = await made(name)
    const bytes = (await file('xlsx')) as Uint8Array
    const expected = expectedRows(sheet).map((row) =>
      row.map((cell) => (typeof cell === 'string' ? broken(cell) : cell)),
    )
    const rows = (await workbookRows(bytes)).map((row) =>
      row.map((cell) => (typeof cell === 'string' ? broken(cell) : cell)),
    )
    expect(rows).toEqual(expected)
    const { sheets, namedRanges } = await readBook(bytes)
    expect(formulaTexts(sheets)).toEqual([])
    const formulas = sheets.flatMap(({ cells }) =>
      Array.from(cells?.values() ?? [], ({ formula }) => formula),
    )
    // Only what the formulas are made of: references, functions, numbers, signs.
    const allowed = /^(?:'(?:Budget \d+|Joints|What if)'!|"(?:not )?met"|[A-Z0-9$.,:+\-*/()E<>=])+$/
    expect(formulas.filter((each) => each !== undefined && !allowed.test(each))).toEqual([])
    expect(formulas.filter((each) => each !== undefined).length).toBeGreaterThan(100)
    for (const range of namedRanges ?? []) expect(range.name).toMatch(/^(?:budget\d+|what_if)_[a-z0-9_]*$/)
    const whole = sheets.find((page) => page.name === 'Document')
    expect(broken(unescapeFormula(String(whole?.rows[1]?.[3])))).toBe(expected[0]?.[1])
  })

  test('comes back from JSON as it was', async () => {
    const { sheet, text } = await made(name)
    const json = await text('json')
    expect((JSON.parse(json) as { title: string }).title).toBe(name)
    expect(jsonRows(json).flat()).toContain(sheet.chosen?.candidate.name)
  })

  test('stays text in HTML: no element but the sheet’s own, and every cell as it was', async () => {
    const { sheet, text } = await made(name)
    const html = await text('html')
    for (const tag of markupTags(html.replace(/<style>.*?<\/style>/s, ''))) expect(HTML_TAGS).toContain(tag)
    expect(html.match(/<\/style>/g)).toHaveLength(1)
    expect(html).not.toMatch(/<[^>]*\son\w+=/i)
    expect(wholeTexts(htmlTexts(html), sheet)).toEqual(expectedTexts(sheet))
    expect(unescaped(html.replaceAll('<wbr>', ''))).toContain(LONG)
  })

  test('stays text in Markdown: every row has its cells, and every cell is as it was', async () => {
    const { sheet, text } = await made(name)
    const markdown = await text('md')
    const expected = expectedTexts(sheet).map((row) => row.map(broken))
    expect(markdownRows(markdown)).toEqual(expected)
    expect(markdown.replaceAll('<br>', '')).not.toMatch(/<[a-z/!]/i)
    expect(markdown).not.toMatch(/(^|[^\\])\]\(/)
    expect(markdownPlain(markdown)).toContain(LONG)
  })

  test('leaves every figure a well-formed drawing', async () => {
    const { sheet } = await made(name)
    const drawings = figuresOf(sheet.sections).map(({ drawing }) => svgFile(drawing, ''))
    expect(drawings.length).toBeGreaterThan(0)
    for (const drawing of drawings) {
      nested(drawing.replace(/<style>.*?<\/style>/s, ''))
      expect(drawing).not.toMatch(/<script|<foreignObject|<[^>]*\sonerror/i)
      expect(drawing.isWellFormed?.() ?? true).toBe(true)
    }
  })
})

const FORMULAS = CASES.filter(([, name]) => /^[=+\-@\t＝＋－＠]/.test(name))

describe.each(FORMULAS)('%s in the names of what is ordered', (_, name) => {
  const project = hostileProject(name, LONG)
  const candidate = project.candidates[0]
  if (candidate === undefined) throw new Error('no design')
  const evaluation = evaluateCandidate(project, candidate.id)
  const request = { project, candidate, evaluation, date: '2026-03-14' }
  const file = async (id: string, kind: PaperKind) =>
    (await PAPER_FORMATS.find((each) => each.id === id)?.render(kind, request)) ?? ''

  test.each(PAPER_KINDS)('begins no cell of the %s like a formula', async (kind) => {
    const fields = Papa.parse<string[]>(String(await file('csv', kind)).replace('\ufeff', '')).data.flat()
    expect(fields.filter((field) => /^[=+@\t\r＝＋－＠]|^-(?![\d.])/.test(field))).toEqual([])
    expect(fields.some((field) => field.startsWith(`'${name}`))).toBe(true)
    const { sheets } = await readXlsx((await file('xlsx', kind)) as Uint8Array)
    expect(formulaTexts(sheets)).toEqual([])
  })
})

test('a text of 10 000 letters without a space may break on paper, and is whole in every cell', async () => {
  const [letters = ''] = LONG_TEXTS
  const project = hostileProject('plain', letters)
  const sheet = sheetOf(project)
  const html = String(await FORMATS.find(({ id }) => id === 'html')?.render(sheet, project))
  const longest = Math.max(
    ...html
      .replace(FONT_FACE, '')
      .split(/<[^>]*>|\s/)
      .map((piece) => piece.length),
  )
  expect(longest).toBeLessThanOrEqual(64) // the checksum of the head
  expect(html.replaceAll('<wbr>', '')).toContain(letters)
  const texts = sheet.sections.flatMap(({ blocks }) =>
    plainBlocks(blocks).flatMap((block) =>
      block.kind === 'table' ? block.rows.flatMap(({ cells }) => cells.map(documentCellText)) : [],
    ),
  )
  expect(texts).toContain(letters)
})
