// Purchasing's job: a build is planned, the parts of one supplier go out as a specification, and their inspection as a table. Every
// expected number is worked out here by hand.

import { readFileSync } from 'node:fs'
import Papa from 'papaparse'
import type { Browser, Page } from 'playwright-core'
import { beforeAll, expect, test } from 'vitest'
import { openApp, sharedBrowser } from './support/browser'
import { goTo } from './support/screen'

let browser: Browser
beforeAll(async () => {
  browser = await sharedBrowser()
})

async function enter(page: Page, label: string, text: string): Promise<void> {
  const field = page.getByLabel(label, { exact: true })
  await field.fill(text)
  await field.press('Enter')
}

test('a build is planned, one supplier is sent its parts, and incoming inspection knows what to reject', async () => {
  const { page, complaints } = await openApp(browser, { at: 'order' })
  await goTo(page, 'Order')
  // On paper the list has the name of its project, and nothing to press.
  const list = page.getByRole('region', { name: 'Order list' })
  await list.getByRole('button', { name: 'Copy as CSV' }).waitFor()
  await page.emulateMedia({ media: 'print' })
  await expect.poll(() => list.getByText('Methane leak-survey receiver').isVisible()).toBe(true)
  expect(await list.getByRole('button').count()).toBe(0)
  await page.emulateMedia({ media: 'screen' })
  await page.getByRole('tab', { name: 'Purchase specification' }).click()
  const paper = page.locator('.review-sheet')
  const cell = (mark: string, at: number) => paper.locator(`tr[data-mark="${mark}"] td`).nth(at)

  // 100 / 0.9 = 111.1, so 112 are started; 112 * 1.1 = 123.2, so 124 pieces of what each assembly takes once.
  await enter(page, 'Good assemblies required', '100')
  await enter(page, 'Expected yield loss, %', '10')
  await paper
    .getByText('100 good assemblies are required. With an expected yield loss of 10 %, 112 are started')
    .waitFor()
  const parts = paper.locator('[data-section="parts-to-order"] tbody tr')
  await expect.poll(() => parts.first().locator('td').last().textContent()).toBe('124')
  expect(await cell('fibre/fibre-standard/coreDiameter', 0).textContent()).toBe('8.2 ± 0.2 µm')
  expect(await cell('taper chip/ssc-3.3/transmissionLoss', 0).textContent()).toBe('≤ 0.45 dB')

  await page.getByRole('tab', { name: 'Parts', exact: true }).click()
  await enter(page, 'Part number', 'FA-12-127-SM rev B')
  await paper.getByText('FA-12-127-SM rev B').first().waitFor()

  // What is refused stays to be mended, and the paper as it was.
  await page.getByRole('tab', { name: 'Inspection', exact: true }).click()
  await enter(page, 'Core geometry, µm', '-1')
  await page.getByRole('alert').getByText('Core geometry, µm is "-1"; must be').waitFor()
  await page.getByLabel('Core geometry, µm').press('Escape')

  // One failure allowed: 93 of the 124. U = 0.3 µm guards 1.645 * 0.15 µm on either side of a tolerance of ± 0.2 µm.
  await enter(page, 'Failures allowed in the sample', '1')
  await enter(page, 'Core geometry, µm', '0.3')
  await page.getByRole('tab', { name: 'Incoming inspection plan' }).click()
  await paper.getByText('Sample: 93 parts with at most 1 failure').waitFor()
  expect(await cell('fibre/fibre-standard/coreDiameter', 3).textContent()).toContain('method too uncertain')
  // 10.4 ± 0.4 µm, U = 3 % of 10.4 µm: 10.8 - 1.6449 * 0.156 = 10.543.
  expect(await cell('taper chip/ssc-3.3/inputMfdX', 4).textContent()).toBe('10.54')

  await page.getByLabel('Documents for').selectOption('Supplier B')
  await expect.poll(() => paper.getByText('Standard single-mode fibre').count()).toBe(0)
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'CSV', exact: true }).click(),
  ])
  const { data } = Papa.parse<Record<string, string>>(
    readFileSync(await download.path(), 'utf8').replace('\ufeff', ''),
    { header: true, skipEmptyLines: true },
  )
  expect(new Set(data.map((row) => row.Supplier))).toEqual(new Set(['Supplier B']))
  expect(data.find((row) => row.Characteristic === 'MFD x, fibre side')).toMatchObject({
    Sample: '93',
    'Rejection rule': 'reject the lot at 2 failures or more',
    'Accept to': '10.54',
  })

  // One undo step an entry.
  await page.keyboard.press('Control+z')
  await expect.poll(() => paper.getByText('method too uncertain').count()).toBe(0)
  expect(complaints).toEqual([])
})
