// Every screen, in one walk: nothing scrolls as a page, nothing is clipped, no scroll within a scroll, no tab taller than the
// window, one column without sideways scroll at 1024 px and at 400 %, no fault that axe-core finds, in light or dark. By Tab
// alone, a screen comes round to where it began, past every control, each time with the focus in sight; dialogs keep it inside,
// and give it back when they are closed. The walk finds pictures of the guide that are older than their screen, and writes them
// with GUIDE_PICTURES set.

import type { Browser, Page } from 'playwright-core'
import { beforeAll, expect, test } from 'vitest'
import { openApp, sharedBrowser } from './support/browser'
import { outdatedPicture, untakenPictures, writeGuidePicture } from './support/guidePicture'
import { OVERLAYS } from './support/overlays'
import { faultsOf, lasting } from './support/screen'
import { STATES } from './support/states'
import { faultsByTab } from './support/tabWalk'

let browser: Browser

beforeAll(async () => {
  browser = await sharedBrowser()
})

const WALK_MS = 900_000
/** Tab closes a menu; its entries are reached by arrows (shell.test.ts). */
const MENU = 'the menu of the project'
const SMALL = { width: 1280, height: 720 }
const LARGE = { width: 1920, height: 1080 }
/** 400 % of 1280 px. */
const ZOOMED = { width: 320, height: 640 }
const ONE_COLUMN = { width: 1024, height: 768 }

/** What does not fit: a page that scrolls, a pane outside of the window, a scroll within a scroll, an expanded tab that scrolls. */
function misfits(page: Page): Promise<readonly string[]> {
  return page.evaluate(() => {
    const found: string[] = []
    const root = document.documentElement
    if (root.scrollHeight > innerHeight || root.scrollWidth > innerWidth) found.push('the page scrolls')
    const name = (element: Element) => element.getAttribute('aria-label') ?? element.className
    for (const pane of document.querySelectorAll('.pane')) {
      const box = pane.getBoundingClientRect()
      const inside =
        box.top >= 0 && box.left >= 0 && box.bottom <= innerHeight + 1 && box.right <= innerWidth + 1
      if (!inside) found.push(`${name(pane)} leaves the window`)
      if (box.height < 60) found.push(`${name(pane)} is ${box.height} px high`)
    }
    const scrolls = (element: Element) =>
      /auto|scroll/.test(getComputedStyle(element).overflowY) &&
      element.scrollHeight > element.clientHeight + 1
    for (const body of document.querySelectorAll('.pane-body, .tab-panel')) {
      for (const inner of body.querySelectorAll('*')) {
        if (!(inner instanceof HTMLTextAreaElement) && scrolls(inner))
          found.push(`${name(inner)} scrolls in its pane`)
      }
      if (body.scrollWidth > body.clientWidth + 1)
        found.push(`${name(body.closest('.pane') ?? body)} scrolls sideways`)
    }
    // What is said of a loss or of a figure is seen whole.
    for (const words of document.querySelectorAll<HTMLElement>('figcaption, .budget :is(th, td, button)')) {
      const isCut =
        getComputedStyle(words).overflow !== 'visible' &&
        (words.scrollWidth > words.clientWidth + 1 || words.scrollHeight > words.clientHeight + 2)
      if (isCut) found.push(`"${words.textContent}" is cut`)
    }
    const expanded = document.querySelector('[data-pane="Depth"] button[aria-pressed="true"].subtle')
    const panel = document.querySelector('[data-pane="Depth"] .tab-panel')
    if (expanded?.textContent === 'Restore' && panel !== null && scrolls(panel)) {
      found.push(`the tab is ${panel.scrollHeight} px high, its pane ${panel.clientHeight}`)
    }
    return found
  })
}

/** Waits for what is loaded, and for what is greyed until it is computed anew. */
async function settled(page: Page): Promise<void> {
  await page.getByText('Loading…').waitFor({ state: 'detached' })
  const greyed = page.locator(
    '[data-outdated="true"], .mode-fields [aria-busy="true"], .optimum[aria-busy="true"], .tolerance[aria-busy="true"]',
  )
  await greyed.first().waitFor({ state: 'detached' })
}

async function sideways(page: Page): Promise<readonly string[]> {
  const px = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)
  return px > 0 ? [`${px} px wider than the window`] : []
}

test(
  'every screen fits the window at every size, axe-core finds nothing in either theme, and Tab goes through it and comes back',
  async () => {
    // Pictures show the numbers that a reader gets; what is compared with them is their labels.
    const usualJobs = process.env.GUIDE_PICTURES !== undefined
    const { page, complaints } = await openApp(browser, { asOpened: true, usualJobs })
    const inTheme = (colorScheme: 'light' | 'dark') =>
      page.emulateMedia({ colorScheme, reducedMotion: 'reduce' })
    await inTheme('light')
    await page.setViewportSize(SMALL)
    const faults: string[] = []
    const note = (name: string, found: readonly string[]) => {
      faults.push(...found.map((each) => `${name}: ${each}`))
    }
    for (const state of STATES) {
      const { name, show, leave, picture } = state
      await show(page)
      await settled(page)
      note(name, await lasting(() => misfits(page)))
      note(name, await faultsOf(page, { onlyNew: true }))
      if (picture !== undefined) {
        if (process.env.GUIDE_PICTURES !== undefined) await writeGuidePicture(page, picture)
        note(name, await lasting(() => outdatedPicture(page, picture)))
      }
      await inTheme('dark')
      note(`${name}, dark`, await faultsOf(page, { rules: 'colour', onlyNew: true }))
      await inTheme('light')
      // Before the sizes: in one column a pane is another one, which begins at its first view and has not had the focus.
      if (name !== MENU) note(name, await faultsByTab(page))
      if (OVERLAYS.includes(state)) {
        await leave?.(page)
        await expect
          .poll(() => page.evaluate(() => document.activeElement === document.body), { message: name })
          .toBe(false)
        await show(page)
      }
      await page.setViewportSize(LARGE)
      note(`${name}, large`, await lasting(() => misfits(page)))
      for (const size of state.isView === true ? [] : [ONE_COLUMN, ZOOMED]) {
        await page.setViewportSize(size)
        note(`${name} at ${size.width} px`, await lasting(() => sideways(page)))
      }
      await page.setViewportSize(SMALL)
      await leave?.(page)
      // The tooltip of a term under the pointer, or with the focus, would cover what the next state clicks.
      await page.mouse.move(0, 0)
      if ((await page.locator('[role="tooltip"]:popover-open').count()) > 0)
        await page.keyboard.press('Escape')
    }
    note('the guide', untakenPictures(new Set(STATES.flatMap(({ picture }) => picture ?? []))))
    expect(faults).toEqual([])
    expect(complaints).toEqual([])
  },
  WALK_MS,
)
