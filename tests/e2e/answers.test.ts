// Answers an engineer can sign: what the requirements ask, what the strip answers, and what the core says on its own.

import type { Browser, Page } from 'playwright-core'
import { beforeAll, describe, expect, test } from 'vitest'
import { evaluateCandidate, runYield } from '../../src/analysis/index'
import { demoProject } from '../../src/model/index'
import { askLoss } from '../support/askLoss'
import { openApp, sharedBrowser } from './support/browser'

let browser: Browser
beforeAll(async () => {
  browser = await sharedBrowser()
})

const PATIENT = { timeout: 30_000 }
const strip = (page: Page) => page.getByRole('region', { name: 'Verdicts' })
const chip = (page: Page, id: string) => strip(page).locator(`[data-verdict="${id}"]`)
const goTo = (page: Page, name: string) => page.getByRole('button', { name, exact: true }).first().click()

async function type(page: Page, label: string, text: string): Promise<void> {
  const field = page.getByLabel(label, { exact: true })
  await field.fill(text)
  await field.press('Enter')
}

describe('requirements', () => {
  test('hold several loss criteria, each judged by its own figure', async () => {
    const { page, complaints } = await openApp(browser)
    await goTo(page, 'Requirements')
    await page.getByLabel('Limit applies to').selectOption('nominal')
    await type(page, 'Insertion-loss limit', '1 dB')
    await page.getByRole('button', { name: 'Add loss criterion' }).click()
    await page.getByLabel('Limit applies to 2').selectOption('worst case')
    await type(page, 'Insertion-loss limit 2', '9 dB')
    const { nominalDb, worstCorner } = evaluateCandidate(demoProject(), 'cleaved-dry')
    await expect.poll(() => chip(page, 'loss').textContent()).toContain(nominalDb.toFixed(2))
    await expect
      .poll(() => chip(page, 'loss').getAttribute('data-status'))
      .toBe(nominalDb <= 1 ? 'met' : 'not met')
    await expect.poll(() => chip(page, 'loss-2').textContent()).toContain(worstCorner.lossDb.toFixed(2))
    await expect
      .poll(() => chip(page, 'loss-2').getAttribute('data-status'))
      .toBe(worstCorner.lossDb <= 9 ? 'met' : 'not met')
    expect(complaints).toEqual([])
  })

  test('ask for the return loss at both ends, as the core counts it', async () => {
    const { page, complaints } = await openApp(browser)
    await goTo(page, 'Requirements')
    await page.getByRole('button', { name: 'Add minimum return loss towards the chip' }).click()
    const { returnLoss } = evaluateCandidate(demoProject(), 'cleaved-dry')
    await expect
      .poll(() => chip(page, 'return-loss-chip').textContent())
      .toContain(returnLoss.chip.incoherentDb?.toFixed(1) ?? '')
    await expect
      .poll(() => chip(page, 'return-loss-fibre').textContent())
      .toContain(returnLoss.fibre.incoherentDb?.toFixed(1) ?? '')
    expect(complaints).toEqual([])
  })

  test('of which one suffices are one verdict, and a wish says that it is one', async () => {
    const { page, complaints } = await openApp(browser)
    await goTo(page, 'Requirements')
    await page.getByRole('button', { name: 'Add isolator' }).click()
    await page.getByRole('button', { name: 'Add minimum polarisation extinction ratio (PER)' }).click()
    const row = page.locator('[data-requirement="isolator"]')
    await row.getByLabel(/^Instead of/).selectOption('extinction')
    await expect.poll(() => chip(page, 'either-1').textContent()).toContain('Isolator or PER')
    await expect.poll(() => chip(page, 'isolator').count()).toBe(0)
    await page
      .locator('[data-requirement="band"]')
      .getByLabel(/^Must or wish/)
      .selectOption('wish')
    await expect.poll(() => chip(page, 'band').textContent()).toContain('Wish: Band')
    expect(complaints).toEqual([])
  })

  test('assume no irradiance limit: the field is empty until somebody gives one', async () => {
    const { page, complaints } = await openApp(browser)
    await goTo(page, 'Requirements')
    await page.getByRole('button', { name: 'Add irradiance limit of end faces and coatings' }).click()
    const field = page.getByLabel('Irradiance limit of end faces and coatings', { exact: true })
    await expect.poll(() => field.inputValue()).toBe('')
    await field.fill('2 MW/cm^2')
    await field.press('Enter')
    await expect.poll(() => field.inputValue()).toBe('2 MW/cm²')
    expect(complaints).toEqual([])
  })
})

describe('a percentile', () => {
  test('is run from the strip, and a changed value makes it out of date until it is run again by itself', async () => {
    const { page, complaints } = await openApp(browser, { rerun: true })
    await goTo(page, 'Requirements')
    await page.getByLabel('Limit applies to').selectOption('percentile')
    const run = strip(page).getByRole('button', { name: /^Run yield for Loss/ })
    await run.click()
    const expected = runYield(askLoss(demoProject(), { basis: 'percentile' }), 'cleaved-dry', {})
    await expect.poll(() => chip(page, 'loss').textContent(), PATIENT).toContain(expected.p95Db.toFixed(2))
    await type(page, 'Insertion-loss limit', '40 dB')
    await expect.poll(() => chip(page, 'loss').getAttribute('data-status'), PATIENT).toBe('met')
    expect(complaints).toEqual([])
  })

  test('that fails where RSS passes is said in the strip', async () => {
    const { page, complaints } = await openApp(browser)
    await page.getByText('High-NA stub, bonded').first().click()
    await expect.poll(() => chip(page, 'loss').getAttribute('data-status')).toBe('met')
    await expect.poll(() => chip(page, 'loss').textContent()).not.toContain('P99')
    await goTo(page, 'Requirements')
    await page.getByRole('button', { name: 'Add loss criterion' }).click()
    await page.getByLabel('Limit applies to 2').selectOption('percentile')
    await strip(page)
      .getByRole('button', { name: /^Run yield for Loss/ })
      .click()
    const project = demoProject()
    const { p99Db } = runYield(project, 'high-na-bonded', {})
    expect(p99Db).toBeGreaterThan(2)
    await expect
      .poll(() => chip(page, 'loss').textContent(), PATIENT)
      .toContain(`P99 is ${p99Db.toFixed(2)} dB`)
    await expect.poll(() => chip(page, 'loss-2').getAttribute('data-status')).toBe('not met')
    expect(complaints).toEqual([])
  })
})
