// The first page: every number on it is the core's, in every format, and it holds what a decision needs.

import { describe, expect, test } from 'vitest'
import { runArray } from '../../src/analysis/array/runArray'
import { checkRequirements, evaluateCandidate, runYield } from '../../src/analysis/index'
import { windowMark } from '../../src/analysis/tolerance/toleranceCurve'
import { chipJoint } from '../../src/analysis/tolerance/viewWindows'
import { demoProject } from '../../src/model/index'
import { type Cell, plainBlocks, type TableBlock } from '../../src/report/document/blocks'
import { FORMATS } from '../../src/report/formats'
import { foldedSteps } from '../../src/report/summary/foldedSteps'
import { missingText } from '../../src/report/summary/missingRuns'
import { cutOff, shortened } from '../../src/report/summary/shorten'
import { csvRows, expectedRows, htmlRows, jsonRows, markdownRows, type Row } from './support/readBack'
import { numberOf, rowOf, sheetOf } from './support/sheets'

const project = demoProject()
const ID = 'ssc-chip'
const OTHER = 'lensed'
const other = project.candidates.find(({ id }) => id !== ID)?.id ?? OTHER
const runs = {
  yields: new Map([ID, other].map((id) => [id, runYield(project, id, { samples: 1024 })] as const)),
  arrays: new Map([[ID, runArray(project, ID, { samples: 8 })]]),
}
const sheet = sheetOf(project, { runs })
const evaluation = evaluateCandidate(project, ID)
const run = runs.yields.get(ID)!
const array = runs.arrays.get(ID)!

const blocks = plainBlocks(sheet.sections.find(({ id }) => id === 'summary')?.blocks ?? [])
const tableOf = (id: string) =>
  blocks.find((block): block is TableBlock => block.kind === 'table' && block.id === `summary-${id}`)

/** What the core says, row by row: name of the row, number. Written without the code of the page. */
function coreNumbers(): readonly (readonly [string, string, number])[] {
  const aim = array.aims.find((each) => each.aim === array.aim) ?? array.aims[0]!
  const percentile = (share: number) => run.percentiles.find((each) => each.share === share)!.lossDb
  const joint = evaluation.joints.at(-1)!.joint
  return [
    ['loss', 'summary-nominal', evaluation.nominalDb],
    ['loss', 'summary-rss', evaluation.rootSumSquare.lossDb],
    ['loss', 'summary-percentile-0.95', percentile(0.95)],
    ['loss', 'summary-percentile-0.99', percentile(0.99)],
    ['loss', 'summary-worst', evaluation.worstCorner.lossDb],
    ['loss', 'summary-temperature', evaluation.temperature!.worstDb],
    ['loss', 'summary-yield', 100 * run.yield],
    ['loss', 'summary-array-yield', 100 * aim.allChannelsYield],
    ...(['offsetXUm', 'offsetYUm', 'gapUm', 'tiltXRad', 'tiltYRad'] as const).map(
      (axis): readonly [string, string, number] => {
        const perCore = axis.endsWith('Rad') ? 180 / Math.PI : 1
        const { above } = windowMark(chipJoint(joint, axis), axis, 1)
        return ['windows', `summary-window-${axis}`, (above ?? Number.NaN) * perCore]
      },
    ),
    ...project.candidates
      .filter(({ id }) => id !== ID)
      .map(({ id }): readonly [string, string, number] => [
        'alternatives',
        `summary-alternative-${id}`,
        evaluateCandidate(project, id).nominalDb,
      ]),
  ]
}

/** The cell with the number in each table. */
const COLUMN: Readonly<Record<string, number>> = { loss: 1, windows: 2, alternatives: 1 }

describe('the first page', () => {
  test('proposes the design that meets every requirement', () => {
    expect(sheet.summary?.decision).toMatchObject({ designId: ID, byEngineer: false })
    expect(sheet.sections[0]?.id).toBe('summary')
  })

  test.each(coreNumbers())('%s, %s is the number of the core', (table, mark, expected) => {
    expect(numberOf(rowOf(tableOf(table), mark)[COLUMN[table] ?? 1] as Cell)).toBeCloseTo(expected, 12)
  })

  test('carries every verdict of the core with a mark, a word and its numbers', () => {
    const marks = { met: '✓ met', 'not met': '✗ not met', 'not known': '? not evaluated' }
    const verdicts = checkRequirements(project, evaluation, run, array)
    for (const { id, status, value = '', limit = '' } of verdicts) {
      const cells = rowOf(tableOf('requirements'), `summary-${id}`)
      expect([cells[0], cells[2], cells[3]]).toEqual([marks[status], value, limit])
    }
    expect(tableOf('requirements')?.rows).toHaveLength(verdicts.length)
  })

  test('folds the budget without losing a part of it', () => {
    const steps = foldedSteps(sheet.summary!.steps, 7)
    expect(steps.length).toBeLessThanOrEqual(8)
    expect(steps.reduce((sum, { lossDb }) => sum + lossDb, 0)).toBeCloseTo(evaluation.nominalDb, 9)
  })

  test('names three risks, none twice, of more than one kind', () => {
    const found = sheet.summary?.risks ?? []
    expect(found).toHaveLength(3)
    expect(new Set(found.map(({ text }) => text)).size).toBe(3)
    expect(new Set(found.map(({ kind }) => kind)).size).toBeGreaterThan(1)
  })

  test('offers the runs that are missing, and says nothing of them once all are there', () => {
    const missing = sheet.summary?.missing ?? []
    expect(missing.map(({ kind }) => kind)).toEqual(missing.map(() => 'yield'))
    expect(missing.map(({ candidateId }) => candidateId)).toEqual(
      project.candidates.map(({ id }) => id).filter((id) => id !== ID && id !== other),
    )
    expect(missingText(missing)).toContain('Not simulated yet: 4 yield runs. "Run missing simulations"')
    expect(missingText([])).toBe('')
  })
})

describe('every number of the first page is the core’s in every format', () => {
  const text = async (id: string) =>
    String(await FORMATS.find((each) => each.id === id)?.render(sheet, project))
  const found = (rows: readonly Row[], value: number | string) => rows.some((row) => row.includes(value))
  const expected = coreNumbers().map(
    ([table, mark]) => rowOf(tableOf(table), mark)[COLUMN[table] ?? 1] as Cell,
  )
  const values = expected.map((cell) => numberOf(cell))

  test.each([
    ['CSV', async () => csvRows(await text('csv'), sheet)],
    ['HTML', async () => htmlRows(await text('html'))],
    ['JSON', async () => jsonRows(await text('json'))],
    ['the rows of the workbook', async () => expectedRows(sheet)],
  ] as const)('%s', async (_, read) => {
    const rows = await read()
    for (const value of values) expect(found(rows, value), String(value)).toBe(true)
  })

  test('Markdown, as it is shown', async () => {
    const rows = markdownRows(await text('md'))
    for (const cell of expected) expect(found(rows, typeof cell === 'string' ? cell : cell.text)).toBe(true)
  })
})

describe('texts on one line', () => {
  test('texts go on in a second line where the page has lines free, and are shortened where it has none', () => {
    const name = 'On-chip taper with widened mode, bonded, polished'
    const named = (count: number) => {
      const [first] = project.candidates
      const others = Array.from({ length: count }, (_, at) => ({
        ...first!,
        id: `other-${at}`,
        name: `${name} ${at}`,
      }))
      const own = project.candidates.filter(({ id }) => id === ID)
      const page = sheetOf({ ...project, candidates: [...own, ...others] }).sections.find(
        ({ id }) => id === 'summary',
      )
      return plainBlocks(page?.blocks ?? [])
        .filter((block): block is TableBlock => block.kind === 'table' && block.id === 'summary-alternatives')
        .flatMap(({ rows, columns: [names] }) =>
          rows.map(({ cells }) => shortened(String(cells[0]), names?.fit?.widthPx ?? 0, names?.fit?.sizePx)),
        )
    }
    expect(named(2)).toEqual([`${name} 0`, `${name} 1`])
    for (const each of named(8)) expect(each).toMatch(/^On-chip.*…/)
  })

  test('a basis has up to three lines on a page with few rows', () => {
    const widthOf = (requirements: number) => {
      const [first] = project.requirements.losses
      const losses = Array.from({ length: requirements }, (_, at) => ({ ...first!, id: `loss-${at}` }))
      const own = project.candidates.filter(({ id }) => id === ID)
      const sections = sheetOf({
        ...project,
        requirements: { ...project.requirements, losses },
        candidates: own,
      }).sections
      return plainBlocks(sections.find(({ id }) => id === 'summary')?.blocks ?? [])
        .filter((block): block is TableBlock => block.kind === 'table')
        .find(({ id }) => id === 'summary-requirements')?.columns[4]?.fit?.widthPx
    }
    expect((widthOf(1) ?? 0) / (widthOf(12) ?? 0)).toBeGreaterThan(2.5)
  })

  test('names are shortened in their middle, sentences at their end, and neither where it fits', () => {
    expect(shortened('Short name', 200)).toBe('Short name')
    const name = shortened(`first ${'W'.repeat(10_000)} last`, 200)
    expect(name).toMatch(/^first W+…W+ last$/)
    expect(name.length).toBeLessThan(40)
    expect(cutOff('A sentence that says most at its beginning', 120)).toMatch(/^A sentence.*…$/)
    expect(shortened('one\n two\t three', 500)).toBe('one two three')
    // No word or number is cut, as long as most of the space is used.
    const words = 'Isolator 2.5 mm long, clear aperture 0.9 mm, isolation at least 30 dB'
    const [start = '', end = ''] = shortened(words, 200).split('…')
    expect(words).toMatch(new RegExp(`^${start}\\b`))
    expect(words).toMatch(new RegExp(`\\b${end}$`))
    for (let widthPx = 120; widthPx < 300; widthPx += 7)
      expect(`${words} `).toContain(`${cutOff(words, widthPx).slice(0, -1)}`)
    expect(words.split(/[ ,]+/)).toContain(cutOff(words, 200).slice(0, -1).split(' ').at(-1))
  })
})
