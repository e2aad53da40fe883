// Designs in their rail, requirements and parts by keys alone: the focus is always seen, also where what had it is gone.

import type { Browser, Page } from 'playwright-core'
import { beforeAll, expect, test } from 'vitest'
import { openApp, sharedBrowser } from './support/browser'
import { focused, tabTo, toRegion } from './support/keys'

let browser: Browser
beforeAll(async () => {
  browser = await sharedBrowser()
})

const LOST = /^(nothing|unseen)/

async function press(page: Page, name: string | RegExp, key = 'Enter'): Promise<void> {
  await tabTo(page, name)
  await page.keyboard.press(key)
}

/** Types into a field in place of what it holds. */
async function enter(page: Page, label: string, text: string): Promise<void> {
  await tabTo(page, label)
  await page.keyboard.press('Control+a')
  await page.keyboard.type(text)
  await page.keyboard.press('Enter')
}

/** Chooses from the menu that is open: entries have the focus by arrows, and show it by their ground. */
async function pick(page: Page, entry: string | RegExp): Promise<void> {
  await page.getByRole('menu').first().waitFor()
  const own = () => page.evaluate(() => document.activeElement?.textContent?.trim() ?? '')
  for (let i = 0; i < 20; i++) {
    const here = await own()
    if (typeof entry === 'string' ? here === entry : entry.test(here)) {
      await page.keyboard.press('Enter')
      return
    }
    await page.keyboard.press('ArrowDown')
  }
  throw new Error(`the menu has no ${entry}`)
}

async function openPage(page: Page, name: string): Promise<void> {
  await toRegion(page, '.app-pages')
  await press(page, name)
  await expect
    .poll(() => page.locator('.app-pages [aria-current="page"]').textContent(), { message: name })
    .toBe(name)
}

const seen = (page: Page, what: string) =>
  expect.poll(() => focused(page), { message: `the focus after ${what}` }).not.toMatch(LOST)

test('designs are copied, named, moved, deleted and added by keys alone, and the focus is never lost', async () => {
  const { page, complaints } = await openApp(browser, { asOpened: true })
  await page.setViewportSize({ width: 1280, height: 720 })
  await page.locator('.tolerance-map canvas').waitFor()
  const rail = () => page.locator('.design-name').allTextContents()
  const before = await rail()
  const title = (name: string) =>
    page.getByRole('heading', { level: 1, name, exact: true }).waitFor({ state: 'attached' })

  await toRegion(page, '[data-pane="Designs"]')
  await press(page, 'Actions for SSC chip')
  await pick(page, 'Duplicate')
  await title('SSC chip (copy)')
  await seen(page, 'Duplicate')

  await toRegion(page, '[data-pane="Designs"]')
  await press(page, 'Actions for SSC chip (copy)')
  await pick(page, 'Rename…')
  await expect.poll(() => focused(page)).toBe('Design name')
  await page.keyboard.press('Control+a')
  await page.keyboard.type('Second source')
  await page.keyboard.press('Enter')
  await title('Second source')
  await seen(page, 'Rename')

  await toRegion(page, '[data-pane="Designs"]')
  await press(page, 'Actions for Second source')
  await pick(page, 'Move up')
  await expect.poll(rail).toEqual([...before.slice(0, 4), 'Second source', ...before.slice(4)])
  await seen(page, 'Move up')

  await toRegion(page, '[data-pane="Designs"]')
  await press(page, 'Actions for Second source')
  await pick(page, 'Delete')
  await expect.poll(rail).toEqual(before)
  await seen(page, 'Delete')

  await toRegion(page, '[data-pane="Designs"]')
  await press(page, 'Add a design')
  await press(page, /^Add Lensed fibre/)
  await expect.poll(async () => (await rail()).length).toBe(before.length + 1)
  await seen(page, 'Add')
  await page.keyboard.press('Control+z')
  await expect.poll(rail).toEqual(before)
  expect(complaints).toEqual([])
}, 120_000)

test('requirements are stated and taken back, parts added and copied by keys alone', async () => {
  const { page, complaints } = await openApp(browser, { asOpened: true })
  await page.setViewportSize({ width: 1280, height: 720 })

  await openPage(page, 'Requirements')
  await enter(page, 'Maximum cost per channel', '40')
  await press(page, 'Add minimum return loss towards the chip')
  await expect.poll(() => focused(page)).toBe('Minimum return loss towards the chip')
  await press(page, 'Remove minimum return loss towards the chip')
  await expect.poll(() => focused(page)).toBe('Add minimum return loss towards the chip')
  await press(page, 'Add loss criterion')
  await page.getByLabel('Insertion-loss limit 2').waitFor()
  await seen(page, 'Add loss criterion')
  await press(page, 'Remove criterion 2')
  await page.getByLabel('Insertion-loss limit 2').waitFor({ state: 'detached' })
  await seen(page, 'Remove criterion')
  await tabTo(page, /^Priority: /)
  await page.keyboard.type('des')
  await expect
    .poll(() =>
      page
        .getByLabel(/^Priority: /)
        .first()
        .inputValue(),
    )
    .toBe('wish')

  await openPage(page, 'Parts')
  await press(page, 'Add part')
  await pick(page, 'Lens')
  await page.getByRole('article', { name: 'New lens' }).waitFor()
  await seen(page, 'Add part')
  await toRegion(page, '.pane')
  await press(page, 'Catalogue')
  await enter(page, 'Search the parts', 'G.652')
  await press(page, /^Copy ITU-T G\.652\.D/)
  await page.getByText(/copied to Fibres of this project/).waitFor()
  await press(page, 'In this project')
  expect(complaints).toEqual([])
}, 120_000)
