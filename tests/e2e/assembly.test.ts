// How it is assembled: a step is spoiled more often, the run says so by the closed form, and the process sheet shows the steps.

import type { Browser } from 'playwright-core'
import { beforeAll, expect, test } from 'vitest'
import { openApp, sharedBrowser } from './support/browser'
import { goTo, openTab, showView, type } from './support/screen'

let browser: Browser
beforeAll(async () => {
  browser = await sharedBrowser()
})

test('a sequence is planned, run, and printed with its cautions', async () => {
  const { page, complaints } = await openApp(browser, { asOpened: true, usualJobs: true })
  await openTab(page, 'Assembly')
  await page.getByRole('button', { name: 'Expand' }).click()
  const panel = page.getByRole('region', { name: 'Assembly', exact: true })
  await panel.getByText('Typical sequence, derived from the tolerances of the design.').waitFor()
  const steps = panel.getByRole('list', { name: 'Steps' }).getByRole('listitem')
  // Two bonded joints, each placed, aligned, dispensed, aligned again, cured; then the check.
  await expect.poll(() => steps.count()).toBe(11)
  await panel.getByRole('note').getByText('glass shards').waitFor()

  // One fifth of all that are placed first is lost there.
  await type(panel.getByLabel('Handling scrap, %', { exact: true }), '20')
  await panel.getByText('Planned for this design').waitFor()
  await panel.getByRole('button', { name: 'Run assembly' }).click()
  await showView(page, 'Cost by step')
  const row = panel.locator('table', { hasText: 'Cost per good part by step' }).locator('tbody tr')
  await expect.poll(() => row.first().locator('td').nth(1).textContent()).toBe('20.0 %')
  expect(await row.first().locator('td').first().textContent()).toBe('100.0 %')
  expect(await row.nth(1).locator('td').first().textContent()).toBe('80.0 %')
  // 0.995 of those that are left pass the alignment: 0.8 * 0.995 = 79.6 %.
  expect(await row.nth(2).locator('td').first().textContent()).toBe('79.6 %')
  await showView(page, 'Step to improve')
  await panel.getByText(/“Place: .*” raises the yield most/).waitFor()
  await page.getByRole('button', { name: 'Restore' }).click()

  await goTo(page, 'Order')
  await page.getByRole('tab', { name: 'Process sheet' }).click()
  const section = page.locator('.review-sheet [data-section="assembly-sequence"]')
  await section.getByText('As planned for this design.').waitFor()
  await expect.poll(() => section.locator('tbody tr').count()).toBe(11)
  expect(await section.locator('tbody tr').first().textContent()).toContain('20')
  await section.getByText('UV lamps can harm eyes and skin').waitFor()
  expect(complaints).toEqual([])
})
