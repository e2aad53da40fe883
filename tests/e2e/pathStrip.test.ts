// The Path strip in a real browser: select, insert, move, remove, by pointer and keyboard.

import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { openApp } from './support/browser'
import { launchBrowser } from './support/launch'

let browser: Browser
beforeAll(async () => {
  browser = await launchBrowser()
})
afterAll(() => browser.close())

test('elements are selected, inserted, moved and removed in the strip; what cannot be built says why', async () => {
  const { page, complaints } = await openApp(browser)
  const strip = page.getByRole('region', { name: 'Path', exact: true })
  const stops = strip.locator('button[aria-pressed]')
  await expect.poll(() => stops.count()).toBe(3)

  // The fibre: its removal is shown with the reason.
  await stops.nth(0).click()
  await expect.poll(() => stops.nth(0).getAttribute('aria-pressed')).toBe('true')
  const change = strip.getByRole('button', { name: /^Insert, move, remove/ })
  await change.click()
  const refused = page.getByRole('menuitem', { name: /Remove fibre/ })
  await expect.poll(() => refused.getAttribute('aria-disabled')).toBe('true')
  await expect.poll(() => refused.textContent()).toContain('A path starts with a fibre.')
  await page.getByRole('menuitem', { name: 'Add spliced stub' }).click()
  await expect.poll(() => stops.count()).toBe(5)
  await change.click()
  await page.getByRole('menuitem', { name: 'Add spliced stub' }).click()
  await expect.poll(() => stops.count()).toBe(7)

  // By keyboard: to the second stub, towards the fibre, and away.
  const ids = () => stops.evaluateAll((all) => all.map((each) => each.getAttribute('aria-label')))
  await stops.nth(0).focus()
  for (let i = 0; i < 4; i++) await page.keyboard.press('ArrowRight')
  await expect.poll(() => stops.nth(4).getAttribute('aria-pressed')).toBe('true')
  await page.keyboard.press('Alt+ArrowLeft')
  await expect.poll(() => stops.nth(2).getAttribute('aria-pressed')).toBe('true')
  await stops.nth(2).focus()
  await page.keyboard.press('Delete')
  await expect.poll(() => stops.count()).toBe(5)
  expect((await ids())[0]).toContain('MFD')
  expect(complaints).toEqual([])
})
