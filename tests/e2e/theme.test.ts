// The theme button changes every part of the page and the plots at once, whatever the system says, and the choice is kept.

import type { Browser, Page } from 'playwright-core'
import { beforeAll, expect, test } from 'vitest'
import { beforeApp, openApp, sharedBrowser } from './support/browser'
import { openTab } from './support/screen'

let browser: Browser

beforeAll(async () => {
  browser = await sharedBrowser()
})

type Theme = 'light' | 'dark'

/** Every painted ground and every text, of the page, its drawings and its plots, that is not of the wanted theme. */
async function wrongParts(page: Page, wanted: Theme): Promise<readonly string[]> {
  return page.evaluate((theme) => {
    /** Relative luminance with the weights of ITU-R BT.709; null for what is not painted. */
    const lightOf = (colour: string) => {
      const [red = 0, green = 0, blue = 0, alpha = 1] = (colour.match(/[\d.]+/g) ?? []).map(Number)
      return alpha < 0.9 ? null : (0.2126 * red + 0.7152 * green + 0.0722 * blue) / 255
    }
    const wrong: string[] = []
    const look = (parts: string, property: 'backgroundColor' | 'color' | 'fill', isLight: boolean) => {
      for (const part of document.querySelectorAll(parts)) {
        const colour = getComputedStyle(part)[property]
        const light = lightOf(colour)
        if (light === null || light > 0.5 === isLight) continue
        wrong.push(`${part.tagName}.${part.getAttribute('class')} ${property} ${colour}`)
      }
    }
    look('html, body, header, main, section, table, input, .plot', 'backgroundColor', theme === 'light')
    look('.js-plotly-plot .main-svg:first-of-type', 'backgroundColor', theme === 'light')
    look('h1, h2, h3, p, th, td, label, figcaption', 'color', theme === 'dark')
    look('.js-plotly-plot text, .path-strip text, .figure-picture > svg text', 'fill', theme === 'dark')
    return wrong
  }, wanted)
}

const paintedPlots = (page: Page) => page.locator('.js-plotly-plot .xtick text').count()

const themeButton = (page: Page) => page.getByRole('button', { name: /^Theme: / })

async function choose(page: Page, theme: string): Promise<void> {
  await themeButton(page).click()
  await page.getByRole('button', { name: `Theme: ${theme}` }).waitFor()
}

test('on a light and on a dark system each choice colours the whole page', async () => {
  const { page, complaints } = await openApp(browser)
  await openTab(page, 'Temperature')
  await expect.poll(() => paintedPlots(page)).toBeGreaterThan(1)
  for (const system of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme: system })
    await expect.poll(() => wrongParts(page, system)).toEqual([])
    for (const theme of ['light', 'dark', 'system'] as const) {
      await choose(page, theme)
      await expect.poll(() => wrongParts(page, theme === 'system' ? system : theme)).toEqual([])
    }
  }
  expect(complaints).toEqual([])
})

test('the page follows a system that changes, until a theme is chosen; the choice is there from the first picture after a reload', async () => {
  const { page, complaints } = await openApp(browser)
  await page.emulateMedia({ colorScheme: 'light' })
  await openTab(page, 'Temperature')
  await expect.poll(() => paintedPlots(page)).toBeGreaterThan(1)
  for (const system of ['dark', 'light'] as const) {
    await page.emulateMedia({ colorScheme: system })
    await expect.poll(() => wrongParts(page, system)).toEqual([])
  }
  await choose(page, 'light')
  await choose(page, 'dark')
  await beforeApp(page, () => {
    const watch = new MutationObserver(() => {
      if (document.querySelector('main') === null) return
      Reflect.set(window, 'firstTheme', document.documentElement.dataset.theme)
      watch.disconnect()
    })
    watch.observe(document, { childList: true, subtree: true })
  })
  await page.reload()
  await page.getByRole('button', { name: 'Theme: dark' }).waitFor()
  expect(await page.evaluate(() => Reflect.get(window, 'firstTheme'))).toBe('dark')
  await expect.poll(() => wrongParts(page, 'dark')).toEqual([])
  expect(complaints).toEqual([])
})

test('a browser that refuses to keep the choice changes the page all the same', async () => {
  const refuse = () => {
    Object.defineProperty(window, 'localStorage', {
      get: () => {
        throw new DOMException('blocked', 'SecurityError')
      },
    })
  }
  const { page, complaints } = await openApp(browser, { before: (page) => beforeApp(page, refuse) })
  await page.emulateMedia({ colorScheme: 'light' })
  await choose(page, 'light')
  await choose(page, 'dark')
  await expect.poll(() => wrongParts(page, 'dark')).toEqual([])
  expect(complaints).toEqual([])
})
