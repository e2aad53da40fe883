// Station dialog, sizing, order of alignment and kind of a measurement by keys alone: everything is reached, the focus is always
// seen, and it is never lost where a dialog closes, a button comes to its end or a question is answered.

import type { Browser } from 'playwright-core'
import { beforeAll, expect, test } from 'vitest'
import { openApp, sharedBrowser } from './support/browser'
import { arrowTo, focused, openPage, pick, tabTo, toRegion } from './support/keys'

let browser: Browser
beforeAll(async () => {
  browser = await sharedBrowser()
})

test('a relay is inserted by keys alone; Escape closes the menu and leaves the focus where it was opened', async () => {
  const { page, complaints } = await openApp(browser)
  await page.setViewportSize({ width: 1280, height: 720 })
  await toRegion(page, '[data-pane="Path"]')
  await tabTo(page, /gap/i)
  await page.keyboard.press('Enter')
  const menu = /^Insert, move, remove, replace/
  await arrowTo(page, menu, 'Shift+Tab')
  await page.keyboard.press('Enter')
  await page.getByRole('menuitem', { name: 'Insert two-lens relay' }).waitFor()
  await page.keyboard.press('Escape')
  await page.getByRole('menuitem', { name: 'Insert two-lens relay' }).waitFor({ state: 'hidden' })
  await expect.poll(() => focused(page)).toMatch(menu)
  await page.keyboard.press('Enter')
  await pick(page, 'Insert two-lens relay')
  await page.getByRole('combobox', { name: 'Lens 1', exact: true }).waitFor({ timeout: 60_000 })
  await expect.poll(() => focused(page)).not.toMatch(/^(nothing|unseen)/)
  await page.keyboard.press('Control+z')
  await page.getByRole('combobox', { name: 'Lens 1', exact: true }).waitFor({ state: 'detached' })
  await expect.poll(() => focused(page)).not.toMatch(/^(nothing|unseen)/)
  expect(complaints).toEqual([])
})

test('tolerances of the station, sizing, the order of alignment and the kind of a measurement are set by keys alone', async () => {
  const { page, complaints } = await openApp(browser, { asOpened: true })
  await page.setViewportSize({ width: 1280, height: 720 })

  await tabTo(page, 'Requirements')
  await page.keyboard.press('Enter')
  await tabTo(page, 'Alignment-station accuracy, lateral (±)')
  await page.keyboard.press('Control+a')
  await page.keyboard.type('0.3 um')
  await page.keyboard.press('Enter')
  await tabTo(page, 'Update designs…')
  await page.keyboard.press('Enter')
  const dialog = page.getByRole('dialog', { name: 'Update designs to match the alignment station' })
  await dialog.waitFor()
  const update = dialog.getByRole('button', { name: /^Update \d+ tolerances$/ })
  const count = async () => Number(/\d+/.exec((await update.textContent()) ?? '')?.[0])
  const all = await count()
  const ofFirst = (await dialog.locator('tbody').first().locator('tr').count()) - 1
  await tabTo(page, 'Cleaved fibre, dry')
  await page.keyboard.press('Space')
  await expect.poll(count).toBe(all - ofFirst)
  await page.keyboard.press('Escape')
  await dialog.waitFor({ state: 'hidden' })
  await expect.poll(() => focused(page)).toBe('Update designs…')
  await page.keyboard.press('Enter')
  await dialog.waitFor()
  await tabTo(page, /^Update \d+ tolerances$/)
  await page.keyboard.press('Enter')
  await expect.poll(() => focused(page)).toBe('All positioned axes of the designs have these tolerances.')

  await openPage(page, 'Sizing')
  await tabTo(page, 'Criterion')
  await page.keyboard.press('ArrowDown')
  await page.getByText(/Worst case: [\d.]+ dB now/).waitFor()
  await expect.poll(() => focused(page)).toBe('Criterion')
  await tabTo(page, 'Apply allocated tolerances')

  await openPage(page, 'Design')
  await toRegion(page, '[data-pane="Designs"]')
  await arrowTo(page, /^Two-lens relay/, 'ArrowUp')
  await page.keyboard.press('Enter')
  await toRegion(page, '[data-pane="Inspector"]')
  await tabTo(page, /^Alignment and holder drift/)
  await page.keyboard.press('Enter')
  await tabTo(page, 'Lens 2 decentre x, active alignment')
  await page.keyboard.press('Space')
  await tabTo(page, 'Align fibre side earlier')
  const order = () =>
    page
      .locator('.relay-alignment li')
      .evaluateAll((rows) => rows.map((row) => row.getAttribute('aria-label')))
  // Once more than possible: at the top the button does nothing, and is still there.
  for (let i = 0; i < 3; i++) await page.keyboard.press('Enter')
  await expect.poll(order).toEqual(['Fibre side', 'Lens 1', 'Lens 2'])
  await expect.poll(() => focused(page)).toBe('Align fibre side earlier')
  await page.getByText('Aligned: fibre side, then lens 2').waitFor()
  await page.keyboard.press('Control+z')
  await expect.poll(order).toEqual(['Lens 1', 'Fibre side', 'Lens 2'])

  await openPage(page, 'Measurements')
  await tabTo(page, 'Offset scan over the facet')
  await page.keyboard.press('Enter')
  await page.getByRole('button', { name: 'Import' }).waitFor()
  await tabTo(page, 'Import')
  await page.keyboard.press('Enter')
  await page.getByText('Uncertainty budget').waitFor()
  const kind = page.getByLabel('Kind', { exact: true })
  await tabTo(page, 'Kind')
  const before = await kind.inputValue()
  await page.keyboard.press('ArrowUp')
  await tabTo(page, 'Change kind')
  await page.keyboard.press('Enter')
  await expect.poll(() => focused(page)).toBe('Kind')
  await expect.poll(() => kind.inputValue()).toBe('far-field')
  await page.keyboard.press('Control+z')
  await expect.poll(() => kind.inputValue()).toBe(before)
  expect(complaints).toEqual([])
})
