// From a built lot back to the design, a stress test and the process sheet, by keys alone: the focus is always seen.

import { expect, test } from 'vitest'
import { openApp, sharedBrowser } from './support/browser'
import { focused, tabTo, toRegion } from './support/keys'
import { lotText } from './support/lotText'
import { lineLoss } from './support/screen'
import { STRESS_TABLE } from './support/stressTable'

test('a lot is compared and applied, a stress test becomes a line, and the process sheet is read by keys alone', async () => {
  const { page, complaints } = await openApp(await sharedBrowser(), { asOpened: true })
  await page.setViewportSize({ width: 1280, height: 720 })
  const press = async (name: string | RegExp, key = 'Enter') => {
    await tabTo(page, name)
    await page.keyboard.press(key)
  }
  const openPage = async (name: string) => {
    await toRegion(page, '.app-pages')
    await press(name)
    const current = page.locator('.app-pages [aria-current="page"]')
    await expect.poll(() => current.textContent()).toBe(name)
  }
  const seen = (what: string) =>
    expect.poll(() => focused(page), { message: `the focus after ${what}` }).not.toMatch(/^(nothing|unseen)/)
  const readTable = async (text: string) => {
    // It stays open once it is.
    if (!(await page.getByLabel('Table to read').isVisible())) await press('Paste a table')
    await tabTo(page, 'Table to read')
    await page.keyboard.insertText(text)
    await press('Read the table')
    await page.getByText('No ambiguities.').waitFor()
    await seen('Read the table')
    await press('Import')
  }

  await openPage('Measurements')
  await readTable(lotText(20))
  await page.getByRole('table', { name: 'Variance components' }).waitFor()
  await seen('Import')
  await press('Compare with design')
  await page.getByText('The lot does not agree with the prediction.').waitFor({ timeout: 240_000 })
  await seen('Compare with design')
  await press(/^Apply \d+ measured tolerances?$/)
  const changed = page.getByText('The project has changed since this comparison.')
  await changed.waitFor()
  await seen('Apply')
  await page.keyboard.press('Control+z')
  await expect.poll(() => changed.count()).toBe(0)

  await readTable(STRESS_TABLE)
  await page.getByRole('table', { name: 'Stress test' }).waitFor()
  await seen('Import')
  await openPage('Design')
  await toRegion(page, '[data-pane="Depth"]')
  const isOnTab = () => page.evaluate(() => document.activeElement?.getAttribute('role') === 'tab')
  for (let i = 0; i < 5 && !(await isOnTab()); i++) await page.keyboard.press('Tab')
  for (let i = 0; i < 12 && (await focused(page)) !== 'Build'; i++) await page.keyboard.press('ArrowRight')
  await page.getByRole('group', { name: 'Build' }).waitFor()
  await press('Lifetime')
  await press(/^Use /)
  await seen('Use')
  await toRegion(page, '[data-pane="Depth"]')
  await press('Law and service')
  await tabTo(page, 'Law')
  await page.keyboard.type('square')
  await expect.poll(() => lineLoss(page, 'drift')).not.toBe('0.00')

  await openPage('Order')
  await tabTo(page, 'Order list')
  await page.keyboard.press('ArrowRight')
  await page.keyboard.press('ArrowRight')
  const sheet = page.getByRole('region', { name: 'Process sheet', exact: true })
  await sheet.getByText('Assembly sequence').first().waitFor()
  await seen('Process sheet')
  expect(complaints).toEqual([])
})
