// Answers where a plausible one would mislead: a key angle that was not given, the echo of a lens defined by its spot, a cover that is
// the layer, tolerances of parts that were measured, a workbook whose worst case follows.

import { readFileSync } from 'node:fs'
import { readXlsx } from 'hucre/xlsx'
import type { Browser, Page } from 'playwright-core'
import { beforeAll, expect, test } from 'vitest'
import { demoProject } from '../../src/model/index'
import { openApp, sharedBrowser } from './support/browser'
import { ownDesign } from './support/own/design'
import { ownNominalDb, ownRssDb, ownWorstDb } from './support/own/statistics'
import { showFacetView, showPart } from './support/parts'
import { goTo, openTab, selectDesign, total } from './support/screen'

let browser: Browser
beforeAll(async () => {
  browser = await sharedBrowser()
})

const PATIENT = { timeout: 60_000 }
const chip = (page: Page, id: string) =>
  page.getByRole('region', { name: 'Verdicts' }).locator(`[data-verdict="${id}"]`)

async function type(page: Page, label: string, text: string): Promise<void> {
  const field = page.getByLabel(label, { exact: true }).first()
  await field.fill(text)
  await field.press('Enter')
}

const numberIn = (text: string | null) => Number.parseFloat((text ?? '').replace(/^\D*/, ''))

test('a key angle that was not given is not known; given, it leaves −10 log tan² of its greatest value', async () => {
  const { page, complaints } = await openApp(browser)
  const fibre = await showPart(page, 'Standard single-mode fibre')
  await fibre.getByLabel('Polarisation-maintaining', { exact: true }).selectOption('yes')
  await goTo(page, 'Requirements')
  await page.getByLabel('Polarisation', { exact: true }).selectOption('maintained')
  await page.getByRole('button', { name: 'Add minimum polarisation extinction ratio (PER)' }).click()
  await expect.poll(() => chip(page, 'extinction').getAttribute('data-status')).toBe('not known')

  await goTo(page, 'Design')
  await openTab(page, 'Polarisation')
  await page.getByText('Total not evaluated: no key angle given for').waitFor()
  await page.getByRole('button', { name: 'Add Key angle, gap' }).click()
  await type(page, 'Key angle, gap', '3 deg')
  // The angle at its limit is 3° with the 2° of tolerance that a new key angle has.
  const expectedDb = -10 * Math.log10(Math.tan((5 * Math.PI) / 180) ** 2)
  await expect
    .poll(async () => numberIn(await page.locator('[data-fact="extinction"]').textContent()))
    .toBeCloseTo(expectedDb, 1)
  // 20 dB are requested.
  await expect.poll(() => chip(page, 'extinction').getAttribute('data-status')).toBe('met')
  expect(complaints).toEqual([])
})

test('the echo of a lensed fibre known by its spot is not known, until a tip radius makes it that of a sphere', async () => {
  const { page, complaints } = await openApp(browser, { asOpened: true })
  await selectDesign(page, 'Lensed fibre')
  // As a flat face, and without it: the facet alone, by closed form (own), is above the 40 dB that are asked for.
  const verdict = chip(page, 'return-loss-fibre')
  await expect.poll(() => verdict.textContent()).toMatch(/[\d.]+ to [\d.]+/)
  await expect.poll(() => verdict.getAttribute('data-status')).toBe('not met')
  const own = ownDesign(demoProject(), 'Lensed fibre')
  const [low, high] = (/([\d.]+) to ([\d.]+)/.exec((await verdict.textContent()) ?? '') ?? [])
    .slice(1)
    .map(Number)
  expect(Math.abs((low ?? 0) - own.returnLossDb.fibre)).toBeLessThan(0.15)
  expect(high).toBeGreaterThan((low ?? 0) + 1)
  await goTo(page, 'Requirements')
  await type(page, 'Minimum return loss towards the fibre', `${((low ?? 0) + (high ?? 0)) / 2} dB`)
  await expect.poll(() => verdict.getAttribute('data-status')).toBe('not known')
  const tip = await showPart(page, 'Lensed fibre, 3.1 µm spot')
  await tip.getByRole('button', { name: 'Add Tip radius, for the back-reflection' }).click()
  await type(page, 'Tip radius, for the back-reflection', '12 um')
  await goTo(page, 'Design')
  await openTab(page, 'Reflections')
  const row = page.locator('[data-reflection$="/near"]').first()
  const shownDb = async () => numberIn(await row.locator('td').nth(1).textContent())
  // A mode of radius w with a flat phase, reflected by a sphere of radius r in glass of index n: the echo gets the phase
  // k n s²/r over the face, and couples back by 1 / (1 + (k n w² / 2 r)²). Demo: w 5.3 µm, n 1.444, 1653.7 nm.
  const [n, wUm, rUm] = [1.444, 5.3, 12]
  const k = (2 * Math.PI) / 1.6537
  const expectedDb =
    -10 * Math.log10(((n - 1) / (n + 1)) ** 2) + 10 * Math.log10(1 + ((k * n * wUm ** 2) / (2 * rUm)) ** 2)
  await expect.poll(async () => Math.abs((await shownDb()) - expectedDb)).toBeLessThan(1)
  expect(complaints).toEqual([])
})

test('a top cladding of the same material as the layer below it warns of nothing', async () => {
  const { page, complaints } = await openApp(browser, { asOpened: true })
  await showFacetView(page, 'Silicon-nitride facet', 'Waveguide cross-section')
  await page.locator('.guide-section').getByLabel('Core width at half height').first().waitFor()
  const cover = page.getByLabel(/^Top cladding/).first()
  await cover.selectOption('fused silica')
  await page.getByRole('tab', { name: 'Solved mode', exact: true }).click()
  await page.getByLabel('Grid', { exact: true }).selectOption('100x76')
  await page.getByRole('button', { name: 'Solve the mode' }).click()
  const mode = page.getByRole('region', { name: 'Solved mode' })
  await mode.getByText('Coupling loss, field overlap').waitFor(PATIENT)
  expect(await mode.getByText('upper boundary of the cladding').count()).toBe(0)
  expect(complaints).toEqual([])
})

test('RSS and worst case of the workbook are those of the screen, and of the design worked out once more', async () => {
  const { page, complaints } = await openApp(browser, { at: 'review' })
  await goTo(page, 'Review')
  await page
    .getByRole('tablist', { name: 'Review settings' })
    .getByRole('tab', { name: 'Files', exact: true })
    .click()
  const download = page.waitForEvent('download')
  await page.getByRole('button', { name: 'Spreadsheet, live formulas', exact: true }).click()
  const book = await readXlsx(readFileSync(await (await download).path()))
  await goTo(page, 'Design')
  for (const name of ['Cleaved fibre, dry', 'High-NA stub, bonded']) {
    await selectDesign(page, name)
    const rows = book.sheets.find(
      ({ name: sheet, rows: own }) => sheet.startsWith('Budget') && own[0]?.[0] === name,
    )?.rows
    const value = (label: string) => Number(rows?.find((each) => each[0] === label)?.[1])
    const own = ownDesign(demoProject(), name)
    for (const [label, ownDb] of [
      ['Nominal', ownNominalDb(own)],
      ['RSS', ownRssDb(own)],
      ['Worst case', ownWorstDb(own)],
    ] as const) {
      expect(Math.abs(value(label) - ownDb), `${name}, ${label}`).toBeLessThan(0.002)
      await expect.poll(() => total(page, label).textContent()).toBe(value(label).toFixed(2))
    }
  }
  expect(complaints).toEqual([])
})
