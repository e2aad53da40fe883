// The theme button changes every part of the page and the plots at once, whatever the system says.

import type { Browser, Page } from 'playwright-core'
import { beforeAll, expect, test } from 'vitest'
import { openApp, sharedBrowser } from './support/browser'

let browser: Browser

beforeAll(async () => {
  browser = await sharedBrowser()
})

/** Names of the painted parts whose ground is not of the wanted theme: header, panes, buttons, and the paper of plots. */
async function wrongGrounds(page: Page, wanted: 'light' | 'dark'): Promise<readonly string[]> {
  return page.evaluate((theme) => {
    const parts = document.querySelectorAll('body, header, main, section, table, input, .plot, .main-svg')
    return [...parts].flatMap((part) => {
      const { backgroundColor } = getComputedStyle(part)
      const [red = 0, green = 0, blue = 0, alpha = 1] = (backgroundColor.match(/[\d.]+/g) ?? []).map(Number)
      if (alpha < 0.9) return []
      // Relative luminance of the ground, with the weights of ITU-R BT.709.
      const light = (0.2126 * red + 0.7152 * green + 0.0722 * blue) / 255
      return light > 0.5 === (theme === 'light')
        ? []
        : [`${part.tagName}.${part.className}: ${backgroundColor}`]
    })
  }, wanted)
}

test.each(['light', 'dark'] as const)('on a %s system each choice colours the whole page', async (system) => {
  const { page, complaints } = await openApp(browser)
  await page.emulateMedia({ colorScheme: system })
  await expect.poll(() => wrongGrounds(page, system)).toEqual([])
  const button = page.getByRole('button', { name: /^Theme: / })
  for (const theme of ['light', 'dark', 'system'] as const) {
    await button.click()
    await page.getByRole('button', { name: `Theme: ${theme}` }).waitFor()
    await expect.poll(() => wrongGrounds(page, theme === 'system' ? system : theme)).toEqual([])
  }
  expect(complaints).toEqual([])
})
