// A whole job from an empty project, by keyboard alone: parts, candidate, gap, loss, undo.

import type { Browser, Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { openApp } from './support/browser'
import { launchBrowser } from './support/launch'
import { partRow, showPart } from './support/parts'

let browser: Browser

beforeAll(async () => {
  browser = await launchBrowser()
})
afterAll(() => browser?.close())

const MOST_TABS = 80

/** Walks there with the Tab key, as somebody without a mouse does. */
async function tabTo(page: Page, target: Locator): Promise<void> {
  for (let i = 0; i < MOST_TABS; i++) {
    if (await target.evaluate((element) => element === document.activeElement)) return
    await page.keyboard.press('Tab')
  }
  throw new Error(`no way by Tab to ${target}`)
}

async function press(page: Page, name: string): Promise<void> {
  await tabTo(page, page.getByRole('button', { name, exact: true }).first())
  await page.keyboard.press('Enter')
}

async function type(page: Page, field: Locator, text: string): Promise<void> {
  await tabTo(page, field)
  await page.keyboard.press('Control+a')
  await page.keyboard.type(text)
  await page.keyboard.press('Enter')
}

describe('from an empty project, by keyboard alone', () => {
  test('a round 5.2 um fibre at a 2.8 x 8 um facet shows the Gaussian 1.17 dB of the published case', async () => {
    const { page, complaints } = await openApp(browser)
    await press(page, 'New')
    await page.getByText('No candidate yet').waitFor()
    await press(page, 'Parts')
    await press(page, 'Add fibre')
    await press(page, 'Add facet')
    const fibre = page.getByRole('group', { name: /New fibre/ })
    const facet = page.getByRole('group', { name: /New facet/ })
    await type(page, fibre.getByLabel('MFD x'), '5.2')
    await type(page, facet.getByLabel('MFD x'), '2.8')
    await type(page, facet.getByLabel('MFD y'), '8 um')
    await press(page, 'Candidate')
    await press(page, 'Add fibre at the facet')
    await type(page, page.getByLabel('Gap', { exact: true }), '0')
    const mismatch = page.locator('tr[data-line="gap/mode mismatch"] td').first()
    // Separable Gaussian overlap, 1.174940 dB; the measured joint of that paper lost 2.1 dB, which no Gaussian explains.
    await expect.poll(() => mismatch.textContent()).toBe('1.17')
    await page.getByRole('heading', { level: 1 }).click()
    await page.keyboard.press('Control+z')
    await expect.poll(() => page.getByLabel('Gap', { exact: true }).inputValue()).toBe('3 µm')
    expect(complaints).toEqual([])
  })

  test('a part in use says by whom and cannot be deleted; one that is not can, and comes back by undo', async () => {
    const { page } = await openApp(browser)
    const adhesive = await showPart(page, 'UV-cured adhesive')
    await adhesive.getByText('Used in High-NA stub, bonded; cannot be deleted.').waitFor()
    expect(await adhesive.getByRole('button', { name: 'Delete UV-cured adhesive' }).isDisabled()).toBe(true)
    const gel = await showPart(page, 'Index gel')
    await gel.getByRole('button', { name: 'Delete Index gel' }).click()
    await expect.poll(() => partRow(page, 'Index gel').count()).toBe(0)
    await page.keyboard.press('Control+z')
    await partRow(page, 'Index gel').waitFor()
  })
})
