// The keyboard alone gets about: skip link, pane by pane, and one tab stop for each list.

import type { Browser } from 'playwright-core'
import { beforeAll, expect, test } from 'vitest'
import { openApp, sharedBrowser } from './support/browser'
import { arrowTo, focused } from './support/keys'
import { field, goTo, pane, type } from './support/screen'

let browser: Browser
beforeAll(async () => {
  browser = await sharedBrowser()
})

test('panes are reached by one key each, lists by arrows, and what the pointer explains the focus explains too', async () => {
  const { page, complaints } = await openApp(browser, { asOpened: true })
  await page.setViewportSize({ width: 1280, height: 720 })
  await page.locator('.tolerance-map canvas').waitFor()
  const focused = () =>
    page.evaluate(() => {
      const own = document.activeElement
      return (
        own?.closest('[data-pane], nav, section[aria-label]')?.getAttribute('aria-label') ?? own?.className
      )
    })
  const within = (selector: string) =>
    page.evaluate((each) => document.activeElement?.closest(each) !== null, selector)

  await page.keyboard.press('Tab')
  await page.getByRole('button', { name: 'Skip to content' }).waitFor()
  await expect.poll(focused).toBe('skip-link')

  // Round all regions and back to the pages, one key each.
  for (const selector of [
    '.app-pages',
    '.verdict-strip',
    '[data-pane="Designs"]',
    '[data-pane="Path"]',
    '[data-pane="Drawing"]',
    '[data-pane="Budget"]',
    '[data-pane="Depth"]',
    '[data-pane="Inspector"]',
    '.app-pages',
  ]) {
    await page.keyboard.press('F6')
    await expect.poll(() => within(selector), { message: selector }).toBe(true)
  }
  await page.keyboard.press('Shift+F6')
  await expect.poll(() => within('[data-pane="Inspector"]')).toBe(true)

  // Where what had the focus has just gone, the key goes on from its pane.
  await page.evaluate(() => {
    const brief = document.createElement('button')
    document.querySelector('[data-pane="Drawing"]')?.append(brief)
    brief.focus()
    brief.remove()
    document.body.dispatchEvent(new KeyboardEvent('keydown', { key: 'F6', bubbles: true }))
  })
  await expect.poll(() => within('[data-pane="Budget"]')).toBe(true)

  // The rail is one tab stop; arrows go to the next design, Enter chooses it.
  const rail = pane(page, 'Designs')
  await rail.locator('[aria-current="true"]').focus()
  await page.keyboard.press('ArrowDown')
  await page.keyboard.press('Enter')
  await page.getByRole('heading', { level: 1, name: 'On-chip taper, bonded' }).waitFor({ state: 'attached' })
  await expect.poll(() => rail.locator('.design-choice[tabindex="0"]').count()).toBe(1)

  // So is the budget; End goes to its last line.
  const budget = pane(page, 'Budget')
  await expect.poll(() => budget.locator('.budget [tabindex="0"]').count()).toBe(1)
  await budget.locator('.budget [tabindex="0"]').focus()
  await page.keyboard.press('End')
  await expect
    .poll(() => page.evaluate(() => document.activeElement?.closest('tr')?.dataset.line))
    .toBe('folded')
  expect(complaints).toEqual([])
})

test('a menu stays open, with its focus, where the column that it belongs to ranks anew', async () => {
  const { page, complaints } = await openApp(browser, { asOpened: true })
  await type(field(page, 'Offset x'), '2 um')
  await goTo(page, 'Compare')
  const comparison = page.getByRole('table', { name: 'Comparison' })
  const names = () => comparison.locator('.compare-name').allInnerTexts()
  await expect.poll(async () => (await names()).indexOf('SSC chip')).toBeGreaterThan(0)
  // The page moves the columns that another one overtakes.
  const [name = ''] = await names()
  await comparison.getByRole('button', { name: `Actions for ${name}`, exact: true }).focus()
  await page.keyboard.press('Enter')
  // An entry shows the focus by its ground.
  const entry = () => page.evaluate(() => document.activeElement?.textContent?.trim() ?? '')
  await arrowTo(page, 'Use as baseline', 'ArrowDown', entry)
  await page.keyboard.press('Control+z')
  await expect.poll(async () => (await names()).indexOf(name)).toBe(1)
  const menu = page.getByRole('menu', { name: `Actions for ${name}` })
  await menu.waitFor()
  await expect.poll(entry).toBe('Use as baseline')
  await page.keyboard.press('Escape')
  await menu.waitFor({ state: 'hidden' })
  await expect.poll(() => focused(page)).toBe(`Actions for ${name}`)
  expect(complaints).toEqual([])
})
