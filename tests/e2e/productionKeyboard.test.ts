// From a built lot back to the design, a stress test and the process sheet, by keys alone: the focus is always seen.

import { expect, test } from 'vitest'
import { openApp, sharedBrowser } from './support/browser'
import { openDepthTab, openPage, press, seen, tabTo, toRegion } from './support/keys'
import { lotText } from './support/lotText'
import { lineLoss } from './support/screen'
import { STRESS_TABLE } from './support/stressTable'

test('a lot is compared and applied, a stress test becomes a line, and the process sheet is read by keys alone', async () => {
  const { page, complaints } = await openApp(await sharedBrowser(), { asOpened: true })
  await page.setViewportSize({ width: 1280, height: 720 })
  const readTable = async (text: string) => {
    // It stays open once it is.
    if (!(await page.getByLabel('Table to read').isVisible())) await press(page, 'Paste a table')
    await tabTo(page, 'Table to read')
    await page.keyboard.insertText(text)
    await press(page, 'Read the table')
    await page.getByText('No ambiguities.').waitFor()
    await seen(page, 'Read the table')
    await press(page, 'Import')
  }

  await openPage(page, 'Measurements')
  await readTable(lotText(10))
  await page.getByRole('table', { name: 'Variance components' }).waitFor()
  await seen(page, 'Import')
  await press(page, 'Compare with design')
  await page.getByText('The lot does not agree with the prediction.').waitFor({ timeout: 240_000 })
  await seen(page, 'Compare with design')
  await press(page, /^Apply \d+ measured tolerances?$/)
  const changed = page.getByText('The project has changed since this comparison.')
  await changed.waitFor()
  await seen(page, 'Apply')
  await page.keyboard.press('Control+z')
  await expect.poll(() => changed.count()).toBe(0)

  await readTable(STRESS_TABLE)
  await page.getByRole('table', { name: 'Stress test' }).waitFor()
  await seen(page, 'Import')
  await openPage(page, 'Design')
  await openDepthTab(page, 'Build')
  await page.getByRole('group', { name: 'Build' }).waitFor()
  await press(page, 'Lifetime')
  await press(page, /^Use /)
  await seen(page, 'Use')
  await toRegion(page, '[data-pane="Depth"]')
  await press(page, 'Law and service')
  await tabTo(page, 'Law')
  await page.keyboard.type('square')
  await expect.poll(() => lineLoss(page, 'drift')).not.toBe('0.00')

  await openPage(page, 'Order')
  await tabTo(page, 'Order list')
  await page.keyboard.press('ArrowRight')
  await page.keyboard.press('ArrowRight')
  const sheet = page.getByRole('region', { name: 'Process sheet', exact: true })
  await sheet.getByText('Assembly sequence').first().waitFor()
  await seen(page, 'Process sheet')
  expect(complaints).toEqual([])
})
