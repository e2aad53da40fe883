// Tab, pressed until the focus is back where it began: what it stopped at, and what a user without a pointer would miss.

import type { Page } from 'playwright-core'

/** More stops than any screen has; a walk that needs them all does not come back. */
const MOST_STOPS = 400
const PRESSES_AT_ONCE = 10

declare global {
  interface Window {
    tabWalk:
      | {
          /** Where it has been, in the order of the first round. */
          readonly seen: Set<Element>
          /** What a user would not see or not expect at a stop. */
          readonly faults: string[]
          /** What Tab reaches as the page is when the walk begins. */
          readonly wanted: readonly HTMLElement[]
          returned: boolean
        }
      | undefined
  }
}

/**
 * Listens to Tab from now on. The key's release comes to the element that the key has focused, once it is scrolled into view,
 * so that each stop is examined as a user sees it.
 */
async function listen(page: Page): Promise<void> {
  await page.evaluate(() => {
    const nameOf = (element: Element) =>
      `${element.tagName.toLowerCase()} "${(element.getAttribute('aria-label') ?? element.textContent ?? '').trim().slice(0, 40)}"` +
      ` of ${element.closest('[data-pane], dialog, header, .verdict-strip')?.getAttribute('data-pane') ?? element.closest('dialog, header')?.tagName.toLowerCase() ?? 'the page'}`
    /** The focus may be shown on the element or by what follows it: a row of a list, the line of a divider. */
    const isMarked = (element: Element) =>
      element.matches('.pane-divider, [role^="menuitem"]') ||
      isOutlined(element) ||
      [...element.querySelectorAll('*')].some(isOutlined)
    const isOutlined = (element: Element) =>
      [null, '::after', '::before'].some((part) => {
        const { outlineStyle, outlineWidth } = getComputedStyle(element, part)
        return outlineStyle !== 'none' && Number.parseFloat(outlineWidth) >= 1
      })
    const faultsOf = (element: Element): readonly string[] => {
      const faults: string[] = []
      if (element instanceof HTMLElement && element.tabIndex > 0) faults.push('is taken out of the order')
      if (!element.matches(':focus-visible')) faults.push('is not focused as by a key')
      if (!isMarked(element)) faults.push('does not show the focus')
      const box = element.getBoundingClientRect()
      const shown = {
        left: Math.max(0, box.left),
        right: Math.min(innerWidth, box.right),
        top: Math.max(0, box.top),
        bottom: Math.min(innerHeight, box.bottom),
      }
      if (shown.right - shown.left < 1 || shown.bottom - shown.top < 1)
        return [...faults, 'is outside of the window']
      const hit = document.elementFromPoint((shown.left + shown.right) / 2, (shown.top + shown.bottom) / 2)
      const label = element instanceof HTMLInputElement ? element.labels?.[0] : undefined
      const own =
        hit !== null && (element.contains(hit) || hit.contains(element) || label?.contains(hit) === true)
      if (!own) faults.push(`is covered by ${hit === null ? 'nothing' : nameOf(hit)}`)
      return faults
    }
    const listening = window.tabWalk !== undefined
    const within = document.querySelector('dialog:modal') ?? document.body
    const wanted = [
      ...within.querySelectorAll<HTMLElement>(
        'button, input:not([type="radio"], [type="file"]), select, textarea, summary, a[href], [tabindex]',
      ),
    ].filter(
      (each) =>
        each.tabIndex >= 0 &&
        !each.matches(':disabled') &&
        each.checkVisibility({ visibilityProperty: true }),
    )
    window.tabWalk = { seen: new Set(), faults: [], wanted, returned: false }
    if (listening) return
    window.addEventListener(
      'keyup',
      (event) => {
        const walk = window.tabWalk
        const own = document.activeElement
        if (event.key !== 'Tab' || walk === undefined || walk.returned || own === null) return
        if (own === document.body) return
        if (walk.seen.has(own)) {
          walk.returned = true
          return
        }
        walk.seen.add(own)
        walk.faults.push(...faultsOf(own).map((each) => `${nameOf(own)} ${each}`))
      },
      { capture: true },
    )
  })
}

/** Presses Tab until a stop comes again; what a user without a pointer would miss on the way. */
export async function faultsByTab(page: Page): Promise<readonly string[]> {
  await listen(page)
  for (let pressed = 0; pressed < MOST_STOPS; pressed += PRESSES_AT_ONCE) {
    // Sent in turn without waiting for each: a key goes up before it goes down again.
    const sent: Promise<void>[] = []
    for (let i = 0; i < PRESSES_AT_ONCE; i++) sent.push(page.keyboard.down('Tab'), page.keyboard.up('Tab'))
    await Promise.all(sent)
    if (await page.evaluate(() => window.tabWalk?.returned === true)) break
  }
  return page.evaluate(() => {
    const walk = window.tabWalk
    if (walk === undefined) throw new Error('the walk has not begun')
    // What came or went during the walk belongs to another state.
    const missed = walk.wanted.filter(
      (each) => each.isConnected && each.checkVisibility() && !walk.seen.has(each),
    )
    return [
      ...(walk.returned ? [] : [`Tab does not come back after ${walk.seen.size} stops`]),
      ...walk.faults,
      ...missed.map(
        (each) =>
          `Tab misses ${each.tagName.toLowerCase()} "${(each.getAttribute('aria-label') ?? each.textContent ?? '').slice(0, 40)}"`,
      ),
    ]
  })
}
