// Parts, Measurements, Sizing and Review in the frame: nothing taller than the window, nothing clipped, no scroll within a
// scroll, and no fault that axe-core finds, in both themes.

import axe from 'axe-core'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { openApp } from './support/browser'
import { launchBrowser } from './support/launch'
import { partRow, showFacetView, showPart } from './support/parts'
import { faultsOf, goTo } from './support/screen'

let browser: Browser

beforeAll(async () => {
  browser = await launchBrowser()
})
afterAll(() => browser?.close())

/** What does not fit: a page that scrolls, a pane outside of the window, a box that scrolls within another. */
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
    for (const body of document.querySelectorAll('.pane-body')) {
      for (const inner of body.querySelectorAll('*')) {
        if (!(inner instanceof HTMLTextAreaElement) && scrolls(inner))
          found.push(`${name(inner)} scrolls in its pane`)
      }
      if (body.scrollWidth > body.clientWidth + 1)
        found.push(`${name(body.closest('.pane') ?? body)} scrolls sideways`)
    }
    return found
  })
}

async function importExample(page: Page, name: string): Promise<void> {
  await goTo(page, 'Measurements')
  await page.getByRole('button', { name, exact: true }).click()
  await page.getByRole('button', { name: 'Import', exact: true }).click()
  await page.getByText('Uncertainty budget').waitFor()
}

/** Every state of the pages that is looked at, by name. */
const STATES: readonly (readonly [string, (page: Page) => Promise<void>])[] = [
  ['Parts', async (page) => void (await showPart(page, 'Standard single-mode fibre'))],
  [
    'Parts, several selected',
    async (page) => {
      await showPart(page, 'Standard single-mode fibre')
      await partRow(page, 'High-NA bridge fibre').click({ modifiers: ['Control'] })
      await page.getByText('1 selected').waitFor()
    },
  ],
  [
    'the catalogue',
    async (page) => {
      await goTo(page, 'Parts')
      await page.getByRole('button', { name: 'Catalogue', exact: true }).click()
      await page
        .getByRole('button', { name: /^Copy ITU-T G.652.D/ })
        .first()
        .waitFor()
    },
  ],
  [
    'a cross-section',
    async (page) => {
      await showFacetView(page, 'Silicon-nitride facet', 'Waveguide cross-section')
      const define = page.getByRole('button', { name: 'Define cross-section' })
      const sidewall = page.getByLabel('Sidewall angle (90° = vertical)').first()
      await define.or(sidewall).first().waitFor()
      if (await define.isVisible()) await define.click()
      await sidewall.waitFor()
    },
  ],
  [
    'Measurements',
    async (page) => {
      await goTo(page, 'Measurements')
      await page.getByRole('button', { name: 'Open measurement…' }).waitFor()
    },
  ],
  ['a measurement', (page) => importExample(page, 'Offset scan over the facet')],
  [
    'Sizing',
    async (page) => {
      await goTo(page, 'Sizing')
      await page.getByText('Questions for suppliers').waitFor()
      await page.locator('.js-plotly-plot, .plot svg').first().waitFor()
    },
  ],
  [
    'Review',
    async (page) => {
      await goTo(page, 'Review')
      await page.locator('.review-sheet').waitFor()
    },
  ],
]

describe.each([
  [1280, 720],
  [1920, 1080],
] as const)('at %i x %i', (width, height) => {
  test('every page fits the window and scrolls pane by pane', async () => {
    const { page, complaints } = await openApp(browser)
    await page.setViewportSize({ width, height })
    for (const [name, show] of STATES) {
      await show(page)
      expect(await misfits(page), name).toEqual([])
    }
    expect(complaints).toEqual([])
  })
})

test('at 320 x 640, which is 400 %, every page is one column without sideways scroll', async () => {
  const { page } = await openApp(browser)
  for (const [name, show] of STATES) {
    await page.setViewportSize({ width: 1280, height: 720 })
    await show(page)
    await page.setViewportSize({ width: 320, height: 640 })
    const wider = () => page.evaluate(() => document.documentElement.scrollWidth - innerWidth)
    await expect.poll(wider, { message: name }).toBeLessThanOrEqual(0)
  }
})

describe.each(['light', 'dark'] as const)('in the %s theme', (colorScheme) => {
  test('axe-core finds nothing on any of the pages', async () => {
    const { page, complaints } = await openApp(browser)
    await page.emulateMedia({ colorScheme })
    await page.evaluate(axe.source)
    for (const [name, show] of STATES) {
      await show(page)
      expect(await faultsOf(page), name).toEqual([])
    }
    await showPart(page, 'Standard single-mode fibre')
    await partRow(page, 'Standard single-mode fibre').click({ modifiers: ['Control'] })
    await page.getByRole('button', { name: 'Set tolerance…' }).click()
    expect(await faultsOf(page), 'the dialog of a tolerance').toEqual([])
    expect(complaints).toEqual([])
  })
})
