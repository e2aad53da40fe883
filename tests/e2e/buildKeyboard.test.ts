// Clearance, Assembly, First light and Lifetime by keys alone: everything is reached, and the focus is always seen.

import type { Browser, Page } from 'playwright-core'
import { beforeAll, expect, test } from 'vitest'
import { openApp, sharedBrowser } from './support/browser'
import { hold } from './support/hold'
import { enter, focused, openDepthTab, tabTo, toRegion } from './support/keys'

let browser: Browser
beforeAll(async () => {
  browser = await sharedBrowser()
})

/** Chooses one of the tabs under Build, from wherever the focus is. */
async function openBuild(page: Page, name: string): Promise<void> {
  await toRegion(page, '[data-pane="Depth"]')
  await tabTo(page, name)
  await page.keyboard.press('Enter')
  await page.getByRole('region', { name, exact: true }).waitFor()
  await expect.poll(() => focused(page)).toBe(name)
}

test('what can be built is found by keys alone', async () => {
  const { page, complaints } = await openApp(browser)
  await page.setViewportSize({ width: 1280, height: 720 })
  await openDepthTab(page, 'Build')
  await page.getByRole('group', { name: 'Build' }).waitFor()

  await openBuild(page, 'Clearance')
  await tabTo(page, 'Add chip edge')
  await page.keyboard.press('Enter')
  await page.getByRole('rowheader', { name: 'Smallest reachable gap' }).waitFor()
  await expect.poll(() => focused(page)).not.toMatch(/^(nothing|unseen)/)
  await toRegion(page, '[data-pane="Depth"]')
  await tabTo(page, 'Chip edge and outline')
  await page.keyboard.press('Enter')
  await enter(page, 'Facet recess behind dicing edge', '15')
  await enter(page, 'Ledge below waveguide', '20')
  await toRegion(page, '[data-pane="Depth"]')
  await tabTo(page, 'Result')
  await page.keyboard.press('Enter')
  const smallestGap = page.getByRole('row').filter({ hasText: 'Smallest reachable gap' })
  await expect.poll(() => smallestGap.textContent()).toContain('15.0 µm')

  await openBuild(page, 'Assembly')
  // A run that has ended cannot be cancelled: it begins when that is done.
  const release = await hold(page, /yieldWorker-[^/]*\.js$/)
  await tabTo(page, 'Run assembly')
  await page.keyboard.press('Enter')
  // The button keeps its place and the focus.
  await expect.poll(() => focused(page)).toBe('Cancel run')
  await page.keyboard.press('Enter')
  await page.getByRole('status').filter({ hasText: 'Cancelled.' }).waitFor()
  await expect.poll(() => focused(page)).toBe('Run assembly')
  release()
  await enter(page, 'Handling scrap, %', '20')
  await page.getByText('Planned for this design').waitFor()

  await openBuild(page, 'First light')
  await page.getByText(/First light can be found/).waitFor()
  await tabTo(page, 'Station')
  await page.keyboard.press('Enter')
  await enter(page, 'Detector floor, dBm', '-1')
  await toRegion(page, '[data-pane="Depth"]')
  await tabTo(page, 'Search')
  await page.keyboard.press('Enter')
  await page.getByText(/First light cannot be found/).waitFor()

  await openBuild(page, 'Lifetime')
  await page.keyboard.press('Tab')
  await expect.poll(() => focused(page)).not.toMatch(/^(nothing|unseen)/)
  expect(complaints).toEqual([])
})
