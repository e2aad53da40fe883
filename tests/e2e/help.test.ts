// Help: what a label means, by pointer and by keyboard; guide, glossary, shortcuts; the guided tour.

import type { Browser, Page } from 'playwright-core'
import { beforeAll, describe, expect, test } from 'vitest'
import { openApp, sharedBrowser } from './support/browser'
import { showPart } from './support/parts'
import { goTo } from './support/screen'

let browser: Browser

beforeAll(async () => {
  browser = await sharedBrowser()
})

const tip = (page: Page) => page.getByRole('tooltip').filter({ has: page.locator('.term-definition') })

/** The glossary is there: it comes a moment after the first picture. */
const marked = (page: Page) => page.locator('[data-asks]').first().waitFor()

async function helpMenu(page: Page, entry: string): Promise<void> {
  await page.getByRole('button', { name: 'Help', exact: true }).click()
  await page.getByRole('menuitem', { name: entry }).click()
}

describe('a label', () => {
  test('is explained with F1 in its field: definition, unit, symbol; Escape closes it and leaves the field', async () => {
    const { page, complaints } = await openApp(browser, { at: 'parts' })
    const part = await showPart(page, 'Silicon-nitride facet')
    const field = part.getByLabel('MFD x', { exact: true })
    await marked(page)
    await field.focus()
    await page.keyboard.press('F1')
    await tip(page)
      .getByText('Mode-field diameter along the chip surface (x) and normal to it (y).')
      .waitFor()
    await expect.poll(() => tip(page).textContent()).toMatch(/Unit µm/)
    await page.keyboard.press('Escape')
    await tip(page).waitFor({ state: 'hidden' })
    await expect.poll(() => field.evaluate((element) => element === document.activeElement)).toBe(true)
    await expect.poll(() => field.inputValue()).toBe('3.4 µm')
    expect(complaints).toEqual([])
  })

  test('is explained under a resting pointer on every screen, and marked', async () => {
    const { page, complaints } = await openApp(browser, { at: 'requirements' })
    for (const [name, label] of [
      ['Requirements', 'Channel pitch'],
      ['Design', 'RSS'],
      ['Sizing', 'Difficulty'],
    ] as const) {
      await goTo(page, name)
      const target = page.locator('[data-asks]').filter({ hasText: label }).first()
      // What still moves under the pointer ends its rest.
      await expect
        .poll(
          async () => {
            await page.mouse.move(2, 2)
            await target.hover()
            return tip(page)
              .waitFor({ timeout: 5000 })
              .then(() => true)
              .catch(() => false)
          },
          { interval: 0 },
        )
        .toBe(true)
      await page.mouse.move(2, 2)
      await tip(page).waitFor({ state: 'hidden' })
    }
    expect(complaints).toEqual([])
  })

  test('that nobody has focused opens the glossary', async () => {
    const { page } = await openApp(browser, { at: 'requirements' })
    await marked(page)
    await page.keyboard.press('F1')
    const glossary = page.getByRole('dialog', { name: 'Glossary' })
    await glossary.getByLabel('Search the glossary').fill('snell')
    await glossary.getByText('Pointing angle').waitFor()
    await expect.poll(() => glossary.locator('.glossary-entry').count()).toBe(1)
  })
})

describe('the help menu', () => {
  test('has the guide, a page beside the list of pages, with the text of docs/guide', async () => {
    const { page, complaints } = await openApp(browser, { at: 'requirements' })
    await helpMenu(page, 'First ten minutes')
    const guide = page.getByRole('dialog', { name: 'Guide' })
    await guide.getByRole('heading', { name: 'First ten minutes' }).waitFor()
    for (const name of ['Parts', 'Measurements', 'Projects, files and links']) {
      await guide.getByRole('button', { name, exact: true }).click()
      await guide.getByRole('heading', { name, exact: true }).waitFor()
    }
    await page.keyboard.press('Escape')
    await guide.waitFor({ state: 'hidden' })
    expect(complaints).toEqual([])
  })

  test('has the shortcuts of the command list, and ? opens them', async () => {
    const { page } = await openApp(browser, { at: 'requirements' })
    await page.keyboard.press('?')
    const shortcuts = page.getByRole('dialog', { name: 'Keyboard shortcuts' })
    await shortcuts.getByText('Ctrl+Shift+Z or Ctrl+Y').waitFor()
  })
})

describe('the guided tour', () => {
  test('is offered at first, goes round by the keyboard and points at a region on every step, can be skipped and called again', async () => {
    const { page, complaints } = await openApp(browser)
    await page.getByRole('button', { name: 'Take the tour' }).click()
    const card = page.getByRole('dialog', { name: 'Guided tour' })
    const seen: string[] = []
    for (let step = 0; step < 20; step++) {
      const position = (await card.getByText(/^\d+ of \d+$/).textContent()) ?? ''
      seen.push((await card.getByRole('heading').textContent()) ?? '')
      await page.locator('.tour-frame').waitFor()
      const box = await card.boundingBox()
      expect(box!.x >= 0 && box!.y >= 0 && box!.x + box!.width <= 1280 && box!.y + box!.height <= 800).toBe(
        true,
      )
      const [at, of] = position.split(' of ')
      if (at === of) break
      await expect.poll(() => page.evaluate(() => document.activeElement?.textContent)).toBe('Next')
      await page.keyboard.press('Enter')
      await expect.poll(() => card.getByText(/^\d+ of \d+$/).textContent()).not.toBe(position)
    }
    expect(seen).toEqual([
      'Designs',
      'Verdicts',
      'Path',
      'Drawing',
      'Inspector',
      'Budget',
      'Parts',
      'Measurements',
      'Review',
    ])
    await page.keyboard.press('Enter')
    await card.waitFor({ state: 'hidden' })
    await expect.poll(() => page.getByRole('button', { name: 'Take the tour' }).count()).toBe(0)
    await helpMenu(page, 'Guided tour')
    await card.waitFor()
    await page.keyboard.press('Escape')
    await card.waitFor({ state: 'hidden' })
    expect(complaints).toEqual([])
  })
})
