// Mode shapes in a real browser: the exact mode of a fibre core, a field brought as a table, and back to Gaussians.

import axe from 'axe-core'
import type { Browser, Page } from 'playwright-core'
import { beforeAll, describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../src/analysis/index'
import { demoProject } from '../../src/model/index'
import { lossText } from '../../src/model/quantity/lossText'
import type { Project } from '../../src/model/schema/project'
import { sharedBrowser } from './support/browser'
import { clickOnceShown } from './support/clickOnceShown'
import { showFacetView } from './support/parts'
import { openPlainDemo } from './support/plainDemo'
import { goTo, showView } from './support/screen'

let browser: Browser

beforeAll(async () => {
  browser = await sharedBrowser()
})

const PATIENT = { timeout: 60_000 }

async function openFields(page: Page): Promise<void> {
  await page.getByRole('tab', { name: 'Fields', exact: true }).click()
  await page.getByRole('heading', { name: 'Mode fields' }).waitFor()
}

const nominal = (page: Page) => page.locator('tr[data-total="Nominal"] td').first().textContent()
const shapeLine = (page: Page) => page.locator('tr[data-line$="/mode shape"]')

/** The demo with its first fibre changed by the argument. */
function shaped(change: (fibre: Project['fibres'][number]) => void): Project {
  const project = structuredClone(demoProject())
  const first = project.candidates[0]?.chain[0]
  const fibre = project.fibres.find((each) => first?.kind === 'fibre' && each.id === first.fibreId)
  if (fibre === undefined) throw new Error('the demo begins without a fibre')
  change(fibre)
  return project
}

/** A Gaussian of 9 um as a table of amplitudes, 1 um apart. */
function fieldTable(half = 20): string {
  const rows = ['x [um],y [um],amplitude']
  for (let iy = -half; iy <= half; iy++) {
    for (let ix = -half; ix <= half; ix++) {
      rows.push(`${ix},${iy},${Math.exp(-(ix * ix + iy * iy) / 4.5 ** 2).toExponential(6)}`)
    }
  }
  return rows.join('\n')
}

async function choose(page: Page, text: string): Promise<void> {
  const chooser = page.waitForEvent('filechooser')
  await page.getByRole('button', { name: /Open field table|Replace with a table/ }).click()
  await (await chooser).setFiles({ name: 'mode.csv', mimeType: 'text/csv', buffer: Buffer.from(text) })
}

describe('the shape of a mode', () => {
  test('the exact mode of the core becomes a line of the budget, pictures and tolerances; undo takes it back', async () => {
    const { page, complaints } = await openPlainDemo(browser)
    await goTo(page, 'Design')
    const before = await nominal(page)
    await openFields(page)
    await page.getByText('All modes of this design are Gaussian').waitFor()
    await page.getByLabel(/^Mode shape of Standard/).selectOption('core')
    const id = demoProject().candidates[0]?.id ?? ''
    const expected = evaluateCandidate(
      shaped((fibre) => {
        fibre.modeShape = { kind: 'core' }
      }),
      id,
    )
    const line = expected.lines.find((each) => each.kind === 'mode shape')
    await expect.poll(() => nominal(page), PATIENT).toBe(lossText(expected.nominalDb))
    await expect
      .poll(() => shapeLine(page).locator('td').first().textContent())
      .toBe(lossText(line?.lossDb ?? 0))

    await page.locator('table[data-table="field-losses"]').waitFor(PATIENT)
    const loss = expected.joints[0]?.field?.loss
    if (loss === undefined || 'refusal' in loss) throw new Error('no loss by fields')
    const exact = page
      .locator('table[data-table="field-losses"] tr', { hasText: 'exact over the gap' })
      .locator('td')
    await expect.poll(() => exact.nth(0).textContent()).toBe(loss.gaussianDb.toFixed(3))
    await expect.poll(() => exact.nth(1).textContent()).toBe(loss.fieldDb.toFixed(3))
    for (const shown of ['Phase', 'Cuts']) {
      await showView(page, shown)
      await page
        .getByText(shown === 'Cuts' ? /Cuts along x/ : /phase relative to its axis/)
        .first()
        .waitFor()
    }

    await page.getByRole('tab', { name: 'Tolerance' }).click()
    await page.locator('table[data-table="windows"]').waitFor(PATIENT)
    await page
      .getByText(/Dotted: for Gaussian modes/)
      .first()
      .waitFor(PATIENT)

    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur())
    await page.keyboard.press('Control+z')
    await expect.poll(() => nominal(page), PATIENT).toBe(before)
    await expect.poll(() => shapeLine(page).count()).toBe(0)
    expect(complaints).toEqual([])
  })

  test('a field imported as a table is used; a table that is not a field is refused with a message', async () => {
    const { page, complaints } = await openPlainDemo(browser)
    await goTo(page, 'Design')
    await openFields(page)
    await page.getByLabel(/^Mode shape of Standard/).selectOption('imported')
    await choose(page, 'a,b\n1,2\n3,4\n')
    await page
      .getByRole('alert')
      .getByText(/heading row is/)
      .waitFor(PATIENT)
    await expect.poll(() => shapeLine(page).count()).toBe(0)
    await choose(page, fieldTable())
    await shapeLine(page).waitFor(PATIENT)
    const cancelled = await clickOnceShown(page, 'Reading the field', 'Cancel')
    await choose(page, fieldTable(400))
    await cancelled()
    await page.getByText('Reading the field').waitFor({ state: 'detached' })
    await expect.poll(() => page.getByRole('alert').count()).toBe(0)
    await page.getByText('mode.csv', { exact: true }).click()
    await page.getByText('The file gives no phase; a flat phase is assumed.').waitFor()
    await page.locator('table[data-table="field-losses"]').waitFor(PATIENT)
    // A Gaussian of 9 um instead of the fibre's own 10.4 um: nearer to the small facet, so less is lost.
    await expect.poll(() => shapeLine(page).locator('td').first().textContent()).toMatch(/^−/)
    expect(complaints).toEqual([])
  })

  test('the mode of a defined taper tip is used once it is solved; another width solves again; undo brings the Gaussians back', async () => {
    const { page, complaints } = await openPlainDemo(browser)
    await goTo(page, 'Design')
    const before = await nominal(page)
    await showFacetView(page, 'Silicon-nitride facet', 'Waveguide cross-section')
    await page.getByRole('button', { name: 'Define cross-section' }).click()
    const width = page
      .locator('.guide-section')
      .getByLabel('Core width at half height', { exact: true })
      .first()
    await width.fill('600 nm')
    await width.press('Enter')
    await goTo(page, 'Design')
    await openFields(page)
    await page.getByLabel(/^Mode shape of Silicon/).selectOption('cross-section')
    await shapeLine(page).waitFor(PATIENT)
    await page.locator('table[data-table="field-losses"]').waitFor(PATIENT)
    const exact = page
      .locator('table[data-table="field-losses"] tr', { hasText: 'exact over the gap' })
      .locator('td')
    const [gaussianDb, fieldDb] = [0, 1].map(async (at) => Number(await exact.nth(at).textContent()))
    const difference = ((await fieldDb) ?? 0) - ((await gaussianDb) ?? 0)
    await expect.poll(() => shapeLine(page).locator('td').first().textContent()).toBe(lossText(difference))
    const first = await nominal(page)
    expect(first).not.toBe(before)
    // The list of designs uses the solved mode as the budget does.
    await expect
      .poll(() => page.locator('.design-choice[aria-current="true"] .design-loss').textContent())
      .toBe(first)

    await showFacetView(page, 'Silicon-nitride facet', 'Waveguide cross-section')
    await width.fill('700 nm')
    await width.press('Enter')
    await goTo(page, 'Design')
    await shapeLine(page).waitFor(PATIENT)
    await expect.poll(() => nominal(page), PATIENT).not.toBe(first)
    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur())
    for (let i = 0; i < 2; i++) await page.keyboard.press('Control+z')
    await expect.poll(() => nominal(page), PATIENT).toBe(before)
    await expect.poll(() => shapeLine(page).count()).toBe(0)
    expect(complaints).toEqual([])
  })

  test('the tab passes an accessibility check', async () => {
    const { page } = await openPlainDemo(browser)
    await goTo(page, 'Design')
    await openFields(page)
    await page.getByLabel(/^Mode shape of Standard/).selectOption('core')
    await page.locator('table[data-table="field-losses"]').waitFor(PATIENT)
    await page.evaluate(axe.source)
    const violations = await page.evaluate(async () => {
      const result = await (window as unknown as { axe: typeof axe }).axe.run('.mode-fields', {
        runOnly: ['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa'],
      })
      return result.violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(' ')}`)
    })
    expect(violations).toEqual([])
  })
})
