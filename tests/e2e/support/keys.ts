// The app by keys alone: what has the focus, and how it gets there.

import type { Page } from 'playwright-core'

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

export async function tabTo(page: Page, name: string | RegExp): Promise<void> {
  const seen: string[] = []
  for (let i = 0; i < 160; i++) {
    await page.keyboard.press('Tab')
    const here = await focused(page)
    seen.push(here)
    if (typeof name === 'string' ? here === name : name.test(here)) return
  }
  throw new Error(`${name} is not reached by Tab: ${seen.slice(-12).join(', ')}`)
}

/** F6 goes round the regions. */
export async function toRegion(page: Page, selector: string): Promise<void> {
  for (let i = 0; i < 12; i++) {
    await page.keyboard.press('F6')
    if (await page.evaluate((each) => document.activeElement?.closest(each) != null, selector)) return
  }
  throw new Error(`${selector} is not reached by F6`)
}
