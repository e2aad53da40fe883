// The app by keys alone: what has the focus, and how it gets there.

import type { Locator, Page } from 'playwright-core'
import { expect } from 'vitest'

/** The name of what has the focus; an invisible focus is an error. */
export const focused = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const own = document.activeElement
    if (own === null || own === document.body) return 'nothing'
    // A list with one tab stop shows the focus at its row.
    const row = document.getElementById(own.getAttribute('aria-activedescendant') ?? '')
    const { outlineStyle, outlineWidth } = getComputedStyle(row ?? own)
    const isSeen = own.matches(':focus-visible') && outlineStyle !== 'none' && outlineWidth !== '0px'
    const labels = own instanceof HTMLInputElement || own instanceof HTMLSelectElement ? own.labels : null
    const name = own.getAttribute('aria-label') ?? labels?.[0]?.textContent ?? own.textContent ?? ''
    return isSeen ? name.trim() : `unseen: ${name}`
  })

/** Goes on with Tab until `name` has the focus: what is still being loaded comes in a later round. */
export async function tabTo(page: Page, name: string | RegExp): Promise<void> {
  const seen: string[] = []
  const step = async () => {
    await page.keyboard.press('Tab')
    const here = await focused(page)
    seen.push(here)
    return typeof name === 'string' ? here === name : name.test(here)
  }
  const message = () => `${name} is reached by Tab; last: ${seen.slice(-12).join(', ')}`
  for (let i = 0; i < 160; i++) if (await step()) return
  await expect.poll(step, { message: message(), interval: 0 }).toBe(true)
}

/** Goes on with Tab, or another key, until the target itself has the focus. */
export async function tabToTarget(page: Page, target: Locator, key = 'Tab'): Promise<void> {
  await target.waitFor({ state: 'attached' })
  // Asked for by its name once: on a large page that takes longer than the key.
  let own = await target.elementHandle()
  const isThere = async () => {
    const there = await own?.evaluate((element) => element.isConnected && element === document.activeElement)
    if (there !== true) await page.keyboard.press(key)
    return there
  }
  for (let i = 0; i < 160; i++) if (await isThere()) return
  const step = async () => {
    own = await target.elementHandle()
    return isThere()
  }
  await expect.poll(step, { message: `${target} is reached by ${key}`, interval: 0 }).toBe(true)
}

/** A key that goes to the end of what it goes through leaves the focus where it is: that long it may take to move. */
const MOVED_WITHIN_MS = 1000
/** Presses until a key has gone round everything several times. */
const MOST_PRESSES = 160

/** Presses a key, and returns once the focus has moved, or does not. */
async function moveFocus(page: Page, key: string): Promise<void> {
  const before = await page.evaluateHandle(() => {
    const own = document.activeElement
    return { own, row: own?.getAttribute('aria-activedescendant') ?? '' }
  })
  await page.keyboard.press(key)
  const hasMoved = ({ own, row }: { own: Element | null; row: string }) =>
    document.activeElement !== own || (own?.getAttribute('aria-activedescendant') ?? '') !== row
  await page.waitForFunction(hasMoved, before, { timeout: MOVED_WITHIN_MS }).catch(() => undefined)
  await before.dispose()
}

/** Goes on with an arrow key, or another one, round and round until what has the focus has that name. */
export async function arrowTo(
  page: Page,
  name: string | RegExp,
  key: string,
  own: (page: Page) => Promise<string> = focused,
): Promise<void> {
  const seen: string[] = []
  for (let presses = 0; presses < MOST_PRESSES; presses++) {
    const here = await own(page)
    if (typeof name === 'string' ? here === name : name.test(here)) return
    seen.push(here)
    await moveFocus(page, key)
  }
  throw new Error(`${name} is not reached by ${key}; last: ${seen.slice(-12).join(', ')}`)
}

/** Chooses from the menu that is open: entries have the focus by arrows, and show it by their ground. */
export async function pick(page: Page, entry: string | RegExp): Promise<void> {
  await page.getByRole('menu').first().waitFor()
  await expect
    .poll(() => page.evaluate(() => document.activeElement?.closest('[role="menu"]') != null))
    .toBe(true)
  const text = () => page.evaluate(() => document.activeElement?.textContent?.trim() ?? '')
  await arrowTo(page, entry, 'ArrowDown', text)
  await page.keyboard.press('Enter')
}

/** F6 goes round the regions; one that is still being loaded comes in a later round. */
export async function toRegion(page: Page, selector: string): Promise<void> {
  const step = async () => {
    await page.keyboard.press('F6')
    return page.evaluate((each) => document.activeElement?.closest(each) != null, selector)
  }
  await expect.poll(step, { message: `${selector} by F6`, interval: 20 }).toBe(true)
}

export async function press(page: Page, name: string | RegExp, key = 'Enter'): Promise<void> {
  await tabTo(page, name)
  await page.keyboard.press(key)
}

/** Types into a field in place of what it holds. */
export async function enter(page: Page, label: string, text: string): Promise<void> {
  await tabTo(page, label)
  await page.keyboard.press('Control+a')
  await page.keyboard.type(text)
  await page.keyboard.press('Enter')
}

export async function openPage(page: Page, name: string): Promise<void> {
  await toRegion(page, '.app-pages')
  await press(page, name)
  await expect
    .poll(() => page.locator('.app-pages [aria-current="page"]').textContent(), { message: name })
    .toBe(name)
}

/** The focus is neither lost nor invisible. */
export const seen = (page: Page, what: string) =>
  expect.poll(() => focused(page), { message: `the focus after ${what}` }).not.toMatch(/^(nothing|unseen)/)

/** Opens a tab of the depth pane. */
export async function openDepthTab(page: Page, name: string): Promise<void> {
  await toRegion(page, '[data-pane="Depth"]')
  const role = () => page.evaluate(() => document.activeElement?.getAttribute('role') ?? '')
  await arrowTo(page, 'tab', 'Tab', role)
  await arrowTo(page, name, 'ArrowRight')
}
