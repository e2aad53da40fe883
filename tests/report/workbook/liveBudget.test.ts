import { beforeAll, describe, expect, test } from 'vitest'
import { checkRequirements, evaluateCandidate } from '../../../src/analysis/index'
import { compileCandidate } from '../../../src/analysis/path/compileCandidate'
import { demoProject } from '../../../src/model/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import { type JointSheet, type LiveBudget, liveBudget } from '../../../src/report/workbook/budgetPage'
import { pageWriter, type WorkbookPage } from '../../../src/report/workbook/page'
import { workbookOf } from '../../../src/report/workbook/writePages'
import { twoDesigns } from '../../support/twoDesigns'
import { type ComputedWorkbook, computed } from '../support/evaluateCells'
import { formulas, readBook } from '../support/recalculate'
import { HEAD } from './head'

/** Turned guides, so that every field of the joint and inputs in degrees and milliradians take part; one coated face. */
function project() {
  const made = twoDesigns()
  for (const { chain } of made.candidates) {
    for (const element of chain) {
      if (element.kind !== 'gap') continue
      element.roll = quantityOf(20, 'deg', 'estimate', 1)
      element.tiltX = quantityOf(2, 'mrad', 'estimate', 3)
    }
  }
  const coated = made.candidates[0]?.chain.find((element) => element.kind === 'gap')
  if (coated?.kind === 'gap')
    coated.nearCoating = { kind: 'reflectance', reflectance: quantityOf(0.2, '%', 'data sheet') }
  return made
}

/** The text of column `column` of a page, row by row. */
const columnOf = ({ cells }: WorkbookPage, column: number) => {
  const last = Math.max(...[...cells.keys()].map((key) => Number(key.split(',')[0])))
  return Array.from({ length: last + 1 }, (_, row) => cells.get(`${row},${column}`)?.value ?? null)
}

describe('the budget pages of two designs', () => {
  const joints: JointSheet = { writer: pageWriter('Joints'), row: 0, widths: [], groups: [] }
  const budgets: LiveBudget[] = []
  let bytes: Uint8Array
  let book: ComputedWorkbook
  beforeAll(async () => {
    const own = project()
    for (const [i, { id, name }] of own.candidates.entries()) {
      const evaluation = evaluateCandidate(own, id)
      const verdicts = checkRequirements(own, evaluation)
      const budget = liveBudget(own, { evaluation, verdicts }, i + 1, name, joints, () => null)
      if (budget !== null) budgets.push(budget)
    }
    const pages = [...budgets.map(({ page }) => page), joints.writer.page(joints.widths, 0)]
    bytes = await workbookOf(
      HEAD,
      pages,
      budgets.flatMap(({ names }) => names),
    )
    book = await computed(bytes)
  })

  test('come to the core’s totals and to the values that the file keeps, by a reader that is not ours', async () => {
    const own = project()
    for (const [i, { id }] of own.candidates.entries()) {
      const { nominalDb, worstCorner, rootSumSquare } = evaluateCandidate(own, id)
      expect(book.named(`budget${i + 1}_nominal`)).toBeCloseTo(nominalDb, 9)
      expect(book.named(`budget${i + 1}_root_sum_square`)).toBeCloseTo(rootSumSquare.lossDb, 9)
      expect(book.named(`budget${i + 1}_worst_corner`)).toBeCloseTo(worstCorner.lossDb, 9)
    }
    const all = formulas(await readBook(bytes))
    expect(all.length).toBeGreaterThan(500)
    for (const { sheet, key, kept, formula } of all)
      expect(Math.abs(book.at({ sheet, key }) - kept), `${sheet} ${key} ${formula}`).toBeLessThan(1e-9)
  })

  test('take the transmission of a coated face as a number, and that of the others from the indices', () => {
    const transmissions = budgets.map(({ page }) =>
      columnOf(page, 0).filter((label) => /^transmission of the .* face/i.test(String(label))),
    )
    expect(transmissions[0]).toEqual([expect.stringMatching(/fibre-side/)])
    expect(transmissions[1]).toEqual([])
  })

  test('list the scenarios of a joint, then each kind of misalignment alone, with a row free between joints', () => {
    const titles = columnOf(joints.writer.page([], 0), 0)
    const own = project()
    const expected = own.candidates.flatMap(({ id, name }) => {
      const compiled = compileCandidate(own, id)
      const ends = (compiled.ok ? compiled.value.variables : [])
        .filter(({ spread }) => spread.halfWidth > 0)
        .flatMap(({ label }) => [`${label}, lower limit`, `${label}, upper limit`])
      const kinds = ['mode mismatch', 'gap', 'lateral offset', 'tilt', 'roll']
      return [
        `${name}, joint 1`,
        'Scenario',
        'Nominal',
        'Worst case, signs as exported',
        ...ends,
        'Worst case, signs of the single tolerances',
        null,
        ...kinds.map((kind) => `Nominal, ${kind} only`),
        null,
      ]
    })
    expect(titles).toEqual(expected.slice(0, -1))
    const folded = joints.groups.map(([first, last]) => [titles[first], titles[last]])
    expect(folded).toEqual([
      ['Scenario', 'Nominal, roll only'],
      ['Scenario', 'Nominal, roll only'],
    ])
  })

  test('take the signs of the last scenario from the cells of the tolerances, and those of all others as they are', () => {
    const { cells } = joints.writer.page([], 0)
    const titles = columnOf(joints.writer.page([], 0), 0)
    const formulasOf = (title: string) =>
      [...cells]
        .flatMap(([key, { formula }]) =>
          Number(key.split(',')[0]) === titles.indexOf(title) ? [formula ?? ''] : [],
        )
        .join()
    const signs = (title: string) => new Set(formulasOf(title).match(/'Budget 1'!\$?F\$?\d+/g) ?? [])
    const compiled = compileCandidate(project(), project().candidates[0]!.id)
    const toleranced = (compiled.ok ? compiled.value.variables : []).filter(
      ({ spread }) => spread.halfWidth > 0,
    )
    expect(signs('Worst case, signs of the single tolerances').size).toBeGreaterThan(toleranced.length / 2)
    expect(signs('Worst case, signs as exported').size).toBe(0)
    expect(signs('Nominal').size).toBe(0)
  })

  test('recalculate every line of a joint from its cells; only what has no closed form is a fixed value', () => {
    for (const [i, { id }] of project().candidates.entries()) {
      const { page, carried } = budgets[i]!
      const { lines } = evaluateCandidate(project(), id)
      const first = 1 + columnOf(page, 0).indexOf('Line')
      const fixed = lines.filter((_, n) => page.cells.get(`${first + n},1`)?.style === 'carried')
      expect(fixed.map(({ kind }) => kind).filter((kind) => kind !== 'combined')).toEqual([])
      expect(carried).toBe(fixed.length)
    }
  })

  test('draw bars that begin where the one before ends, and end at the nominal loss', () => {
    for (const [i, { id }] of project().candidates.entries()) {
      const { lines } = evaluateCandidate(project(), id)
      const first = 1 + columnOf(budgets[i]!.page, 0).indexOf('Line')
      const bar = (row: number) =>
        [18, 19, 20].map((column) => book.at({ sheet: `Budget ${i + 1}`, key: `${row},${column}` }))
      let sum = 0
      for (const [n, { lossDb }] of lines.entries()) {
        expect(bar(first + n)[0]).toBeCloseTo(Math.min(sum, sum + lossDb), 9)
        sum += lossDb
      }
      expect(bar(first + lines.length)).toEqual([0, expect.closeTo(sum, 9), 0])
    }
  })

  test('name the cells of a relay that are recalculated, and no relay where there is none', () => {
    const notesOf = (id: string) => {
      const own = demoProject()
      const page: JointSheet = { writer: pageWriter('Joints'), row: 0, widths: [], groups: [] }
      const evaluation = evaluateCandidate(own, id)
      const found = liveBudget(own, { evaluation, verdicts: [] }, 1, 'Relay', page, () => null)
      return found === null
        ? []
        : columnOf(found.page, 0).filter((each) => String(each).startsWith('Relay, '))
    }
    const [note, ...more] = notesOf('relay')
    expect(more).toEqual([])
    const own = compileCandidate(demoProject(), 'relay')
    const relay = demoProject().candidates.find(({ id }) => id === 'relay')?.chain[1]
    const device = own.ok
      ? own.value.lines.find(({ elementId, kind }) => elementId === relay?.id && kind === 'device')
      : null
    expect(note).toMatch(/^Relay, fibre to facet: recalculated cells: /)
    expect(note).toContain(device?.label)
    expect(note).not.toMatch(/taper/i)
    expect(notesOf('cleaved-dry')).toEqual([])
  })

  test('refuse a roll beyond half a turn and a tilt beyond 45°, in the units of their cells', () => {
    const { cells, limits } = budgets[0]!.page
    const limitOf = (name: string) => {
      const [key = ''] = [...cells].find(([, { value }]) => value === name) ?? []
      return limits.get(`B${Number(key.split(',')[0]) + 1}`)
    }
    expect(limitOf('budget1_roll')).toMatchObject({ from: -180, to: 180 })
    // 45° in milliradians.
    expect(limitOf('budget1_tilt_x')?.to).toBeCloseTo((1000 * Math.PI) / 4, 5)
    expect(limitOf('budget1_tilt_x')?.from).toBeCloseTo((-1000 * Math.PI) / 4, 5)
  })

  test('print the note of a line where it has one', () => {
    for (const [i, { id }] of project().candidates.entries()) {
      const { lines } = evaluateCandidate(project(), id)
      const { page } = budgets[i]!
      const first = 1 + columnOf(page, 0).indexOf('Line')
      const notes = columnOf(page, 5).slice(first, first + lines.length)
      const carried = (n: number) => page.cells.get(`${first + n},1`)?.style === 'carried'
      for (const [n, { note, label }] of lines.entries())
        if (!carried(n)) expect(notes[n], label).toBe(note ?? '')
    }
  })

  test('have each table directly under its head, and the heads of tolerances over the first of them', () => {
    const own = project()
    for (const [i, { id }] of own.candidates.entries()) {
      const compiled = compileCandidate(own, id)
      const labels = (compiled.ok ? compiled.value.variables : [])
        .filter(({ spread }) => spread.halfWidth > 0)
        .map(({ label }) => label)
      const { page } = budgets[i]!
      const column = columnOf(page, 0)
      const head = column.indexOf('Tolerance, alone')
      expect(column.slice(head + 1, head + 1 + labels.length)).toEqual(labels)
      expect(column[head - 2]).toBe('Tolerances, each alone')
      expect(column[head - 1]).toMatch(/^Every sign follows from the two losses of its row/)
      expect(column[head + 1 + labels.length] ?? '').toBe('')
      expect(page.cells.get(`${head},3`)?.value).toBe('Loss at lower limit')
      const line = column.indexOf('Line')
      expect(column[line + 1]).toBe(evaluateCandidate(own, id).lines[0]?.label)
      expect(column[column.indexOf('Result') + 1]).toBe('Nominal')
    }
  })

  test('have heads of numbers to the right and heads of words to the left', () => {
    const { cells } = budgets[0]!.page
    const row = columnOf(budgets[0]!.page, 0).indexOf('Line')
    const styles = [0, 1, 2, 5].map((column) => cells.get(`${row},${column}`)?.style)
    expect(styles).toEqual(['head', 'numberHead', 'unitHead', 'head'])
  })
})
