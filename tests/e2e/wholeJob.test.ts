// The whole job beyond Gaussians in a real browser: a tip's cross-section entered and solved, included in the budget next to the
// Gaussian result, its tolerances by fields, the best width found and taken, the project saved, opened again: the same numbers.

import { readFile } from 'node:fs/promises'
import type { Browser, Page } from 'playwright-core'
import { beforeAll, expect, test } from 'vitest'
import { sectionSolver } from '../../src/analysis/field/solvedSections'
import { evaluateCandidate } from '../../src/analysis/index'
import { parseProject } from '../../src/model/index'
import { lossText } from '../../src/model/quantity/lossText'
import { sharedBrowser } from './support/browser'
import { drop, textFile } from './support/drop'
import { showFacetView } from './support/parts'
import { openPlainDemo } from './support/plainDemo'
import { goTo, newEmpty } from './support/screen'

let browser: Browser

beforeAll(async () => {
  browser = await sharedBrowser()
})

const PATIENT = { timeout: 60_000 }
const CANDIDATE = 'cleaved-dry'

const FACET = 'Silicon-nitride facet'

const view = (page: Page, name: string) => page.getByRole('tab', { name, exact: true }).click()
const nominal = (page: Page) => page.locator('tr[data-total="Nominal"] td').first().textContent()
const shapeLine = (page: Page) => page.locator('tr[data-line$="/mode shape"]')
const exactLosses = (page: Page) =>
  page
    .locator('table[data-table="field-losses"] tr', { hasText: 'exact over the gap' })
    .locator('td')
    .allTextContents()

async function type(page: Page, label: string, text: string): Promise<void> {
  const field = page.locator('.guide-section').getByLabel(label, { exact: true }).first()
  await field.fill(text)
  await field.press('Enter')
}

const digits = (db: number) => db.toFixed(3).replace('-', '−')

/** Waits for budget and panel to show what the core says: nominal loss, losses by Gaussians and by fields, their difference. */
async function expectShown(page: Page, core: ReturnType<typeof byCore>): Promise<void> {
  await expect.poll(() => nominal(page), PATIENT).toBe(lossText(core.nominalDb))
  const difference = core.fieldDb - core.gaussianDb
  await expect
    .poll(async () => (await exactLosses(page)).slice(0, 3), PATIENT)
    .toEqual([digits(core.gaussianDb), digits(core.fieldDb), digits(difference)])
  await expect.poll(() => shapeLine(page).locator('td').first().textContent()).toBe(lossText(difference))
  await expect
    .poll(() => shapeLine(page).locator('[role="tooltip"]').first().textContent())
    .toContain(
      `${core.gaussianDb.toFixed(3)} dB for Gaussian modes, ${core.fieldDb.toFixed(3)} dB by field overlap`,
    )
}

const openFields = async (page: Page) => {
  await goTo(page, 'Design')
  await page.getByRole('tab', { name: 'Fields', exact: true }).click()
}

async function saved(page: Page): Promise<string> {
  const [download] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Control+s')])
  return readFile(await download.path(), 'utf8')
}

/** What the core says of the saved file, all of it computed anew. */
function byCore(text: string) {
  const refused: string[] = []
  const project = sectionSolver((_, reason) => refused.push(reason))(parseProject(JSON.parse(text)))
  expect(refused).toEqual([])
  const evaluation = evaluateCandidate(project, CANDIDATE)
  const loss = evaluation.joints[0]?.field?.loss
  if (loss === undefined || 'refusal' in loss) throw new Error('no loss by fields')
  return { ...loss, nominalDb: evaluation.nominalDb }
}

test('from a cross-section to a chosen tip width, by fields, saved and opened again with the same numbers', async () => {
  const { page, complaints } = await openPlainDemo(browser)
  await showFacetView(page, FACET, 'Waveguide cross-section')
  await page.getByRole('button', { name: 'Define cross-section' }).click()
  await type(page, 'Core width at half height', '600 nm')
  await view(page, 'Solved mode')
  await page.getByLabel('Grid', { exact: true }).selectOption('100x76')
  await page.getByRole('button', { name: 'Solve the mode' }).click()
  const mode = page.getByRole('region', { name: 'Solved mode' })
  await mode.getByText('Coupling loss, field overlap').waitFor(PATIENT)

  // The budget takes the field, and shows the Gaussian result and the difference next to it.
  await openFields(page)
  await page.getByLabel(/^Mode shape of Standard/).selectOption('core')
  await page.getByLabel(/^Mode shape of Silicon/).selectOption('cross-section')
  const wide = byCore(await saved(page))
  await expectShown(page, wide)

  // Tolerances by the field, over the Gaussians' contours.
  await page.getByRole('tab', { name: 'Tolerance' }).click()
  await page.locator('.tolerance[aria-busy="false"] table[data-table="windows"]').waitFor(PATIENT)
  await page
    .getByText(/Dotted: for Gaussian modes/)
    .first()
    .waitFor(PATIENT)

  // A narrower tip couples better, until it lets go of the mode: a sweep finds it, one step takes it over.
  await showFacetView(page, FACET, 'Sweep')
  await page.getByLabel('Grid', { exact: true }).selectOption('100x76')
  for (const [label, text] of [
    ['From, µm', '0.42'],
    ['To, µm', '0.52'],
    ['Number of points', '3'],
  ] as const) {
    await page.getByLabel(label, { exact: true }).fill(text)
    await page.getByLabel(label, { exact: true }).press('Enter')
  }
  await page.getByRole('button', { name: 'Run the sweep' }).click()
  const sentence = page.getByText(/Sweep of the .*: minimum loss \d/).first()
  await sentence.waitFor(PATIENT)
  const bestUm = /dB at ([\d.]+)\sµm/.exec((await sentence.textContent()) ?? '')?.[1]
  expect(bestUm).toBeDefined()
  const best = `${bestUm} µm`
  await page.getByRole('button', { name: `Select optimum (${best})` }).click()
  await page.getByRole('button', { name: `Apply ${best} and its mode to ${FACET}` }).click()

  await openFields(page)
  const text = await saved(page)
  const narrow = byCore(text)
  expect(narrow.nominalDb).toBeLessThan(wide.nominalDb - 2)
  await expectShown(page, narrow)
  // Geometry is saved, not samples.
  expect(text.length).toBeLessThan(60_000)

  await newEmpty(page)
  await drop(page, textFile('project.json', text))
  await openFields(page)
  await expectShown(page, narrow)
  expect(complaints).toEqual([])
})
