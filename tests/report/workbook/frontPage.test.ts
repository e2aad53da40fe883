import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../../src/analysis/index'
import type { LiveBudget } from '../../../src/report/workbook/budgetPage'
import { frontPage, type PlacedBudget } from '../../../src/report/workbook/frontPage'
import { pageWriter } from '../../../src/report/workbook/page'
import { literal } from '../../../src/report/workbook/term'
import { twoDesigns } from '../../support/twoDesigns'
import { sheetOf } from '../support/sheets'

const project = twoDesigns()
const sheet = sheetOf(project)

/** Budgets with easy totals, the bars of each on its own page. */
const BUDGETS: readonly PlacedBudget[] = project.candidates.map(({ name }, at) => {
  const budget: LiveBudget = {
    title: name,
    page: pageWriter(`Budget ${at + 1}`).page([], 0),
    names: [],
    totals: { nominal: literal(1), rss: literal(2), worst: literal(3), efficiency: literal(0.8) },
    verdicts: [],
    waterfall: { labels: `labels ${at}`, base: 'base', rising: 'rising', falling: 'falling', bars: 7 },
    carried: at,
  }
  return { at, budget }
})

const column = ({ cells }: ReturnType<typeof frontPage>, index: number) => {
  const last = Math.max(...[...cells.keys()].map((key) => Number.parseInt(key, 10)))
  return Array.from({ length: last + 1 }, (_, row) => cells.get(`${row},${index}`)?.value ?? '')
}

describe('the first page', () => {
  test('draws the budget of the selected design, below the text and as high as its bars', () => {
    for (const design of project.candidates) {
      const other = sheetOf({ ...project, review: { ...project.review, chosenId: design.id } })
      const page = frontPage(other, BUDGETS)
      const own = project.candidates.indexOf(design)
      const last = column(page, 0).length - 1
      expect(page.charts).toEqual([
        expect.objectContaining({ title: `Loss budget of ${design.name}, dB`, labels: `labels ${own}` }),
      ])
      const [chart] = page.charts ?? []
      expect(chart?.from[0]).toBeGreaterThan(last)
      expect((chart?.to[0] ?? 0) - (chart?.from[0] ?? 0)).toBeGreaterThanOrEqual(7)
    }
    expect(frontPage(sheet, []).charts).toBeUndefined()
  })

  test('names risks and alternatives where there are some, and no title where there are none', () => {
    const { summary } = sheet
    if (summary === null) throw new Error('the demo has a summary')
    expect(summary.risks.length).toBeGreaterThan(0)
    expect(summary.alternatives.length).toBeGreaterThan(0)
    const full = column(frontPage(sheet, BUDGETS), 0)
    // Title, what it is about, a free row, the decision, another free row, and the requirements with as many rows.
    expect(full.slice(0, 5)).toEqual([
      sheet.head.title,
      expect.stringMatching(new RegExp(`^${sheet.head.subject}\\. Revision: .*SHA-256`)),
      '',
      expect.stringMatching(/^(Selected|Proposed): /),
      '',
    ])
    const requirements = full.indexOf('Requirement')
    expect(requirements).toBe(5)
    expect([
      full[requirements + summary.verdicts.length + 1],
      full[requirements + summary.verdicts.length + 2],
    ]).toEqual(['', 'Selected design, as exported'])
    const at = full.indexOf('Main risks')
    expect(full.slice(at + 1, at + 1 + summary.risks.length)).toEqual(summary.risks.map(({ text }) => text))
    // One row free between the designs and the risks, one after them, one before the note.
    expect([full[at - 1], full[at - 2]]).toEqual(['', project.candidates.at(-1)?.name])
    const other = full.indexOf('Alternatives considered')
    expect([full[other - 1], full[other - 2]]).toEqual(['', summary.risks.at(-1)?.text])
    expect(full.slice(other + 1, other + 1 + summary.alternatives.length)).toEqual(
      summary.alternatives.map(({ name }) => name),
    )
    expect([full.at(-2), full.at(-3)]).toEqual(['', summary.alternatives.at(-1)?.name])
    expect(full[other + 1]).toBe(summary.alternatives[0]?.name)
    const bare = column(
      frontPage({ ...sheet, summary: { ...summary, risks: [], alternatives: [] } }, BUDGETS),
      0,
    )
    expect(bare).not.toContain('Main risks')
    expect(bare).not.toContain('Alternatives considered')
  })

  test('says that nothing is there, or that nothing can be evaluated', () => {
    const empty = { ...sheet, summary: null, candidates: [] }
    expect(column(frontPage(empty, []), 0)).toContain('No design yet.')
    const refused = [{ id: 'a', name: 'A', issues: [] }]
    expect(column(frontPage({ ...empty, refused }, []), 0)).toContain('No design can be evaluated.')
  })

  test('has a row for every design, with its totals and the page of its budget', () => {
    const page = frontPage(sheet, BUDGETS)
    const first = 1 + column(page, 0).indexOf('Designs, recalculated')
    for (const [i, { name }] of project.candidates.entries()) {
      const row = [0, 1, 2, 3, 4, 5].map((index) => page.cells.get(`${first + i},${index}`)?.value)
      expect(row).toEqual([name, 1, 2, 3, 0.8, i === 0 ? 'Budget 1' : 'Budget 2, partly fixed values'])
    }
  })

  test('gives the losses of the selected design as exported, and every requirement with its verdict', () => {
    const page = frontPage(sheet, BUDGETS)
    const labels = column(page, 0)
    const id = sheet.summary?.decision.designId ?? ''
    const row = labels.indexOf(sheet.summary?.losses[0]?.label ?? '')
    expect(page.cells.get(`${row},1`)?.value).toBeCloseTo(evaluateCandidate(project, id).nominalDb, 12)
    const requirements = labels.indexOf('Requirement') + 1
    for (const [i, { label, status, wish, reason }] of (sheet.summary?.verdicts ?? []).entries()) {
      const cell = (index: number) => page.cells.get(`${requirements + i},${index}`)
      expect(cell(0)?.value).toBe(wish ? `${label} (desirable)` : label)
      expect(cell(1)?.style).toBe(status === 'met' ? 'text' : 'total')
      expect(cell(4)?.value).toBe(reason)
    }
  })
})
