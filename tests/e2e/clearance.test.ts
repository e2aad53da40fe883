// Will it fit: a chip whose facet lies 15 µm behind its dicing edge, and a cleaved fibre that is to come as near as 3 µm. What is
// expected is worked out here by hand.

import type { Browser } from 'playwright-core'
import { beforeAll, expect, test } from 'vitest'
import { openApp, sharedBrowser } from './support/browser'
import { nominal, openTab, pane, showView, type } from './support/screen'

let browser: Browser
beforeAll(async () => {
  browser = await sharedBrowser()
})

const DEG = Math.PI / 180

test('a recess of 15 µm refuses a gap of 3 µm, says what would fit, and a tapered tip then fits', async () => {
  const { page, complaints } = await openApp(browser)
  const before = await nominal(page).textContent()
  await openTab(page, 'Clearance')
  await page.getByRole('button', { name: 'Expand' }).click()
  const panel = page.getByRole('region', { name: 'Clearance' })
  await panel.getByRole('button', { name: 'Add chip edge' }).click()
  await showView(page, 'Chip edge and outline')
  const entry = (label: string) => panel.getByLabel(label, { exact: true })
  await type(entry('Facet recess behind dicing edge'), '15')
  await type(entry('Ledge below waveguide'), '20')
  await showView(page, 'Result')

  const fact = (name: string) =>
    panel.locator('tr', { has: page.getByRole('rowheader', { name, exact: true }) }).locator('td')
  await expect.poll(() => fact('Smallest reachable gap').textContent()).toBe('15.0 µm')
  expect(await fact('Entered gap').textContent()).toBe('3.0 µm')
  expect(await fact('First contact').textContent()).toBe('125 µm cladding, ledge')
  // In contact nothing can be tilted: half of the rim would go into the ledge.
  expect(await fact('Tilt x before contact').textContent()).toBe('0.00° / 0.00°')
  // A cone of 10° passes the ledge, 12 µm behind its end, with a radius of 20 - 12 tan 10°.
  const tip = Math.floor(20 * (20 - 12 * Math.tan(10 * DEG))) / 10
  await expect
    .poll(() => panel.locator('.remedies li').allTextContents())
    .toEqual([
      `a tip tapered at a half-angle of 10° to at most ${tip.toFixed(1)} µm`,
      'a trench up to the dicing edge, at least 62.5 µm below the waveguide',
      'a recess of at most 3.0 µm',
      'a lens or lensed fibre with a working distance above 15.0 µm',
    ])
  await page.getByRole('button', { name: 'Restore' }).click()
  const verdict = page.getByRole('region', { name: 'Verdicts' }).getByText('Fits the chip edge')
  await verdict.first().waitFor({ state: 'attached' })
  await expect.poll(() => nominal(page).textContent()).not.toBe(before)
  await pane(page, 'Budget')
    .getByText('Not reachable: the 125 µm cladding touches the ledge at a gap of 15 µm')
    .first()
    .waitFor()
  await pane(page, 'Drawing').getByText('keep-out to 15 µm').first().waitFor()

  await page.getByRole('button', { name: 'Expand' }).click()
  await showView(page, 'Chip edge and outline')
  await panel.getByLabel('Outline', { exact: true }).selectOption('tapered')
  await type(entry('Tip diameter'), String(tip))
  await showView(page, 'Result')
  await panel.getByText(/^Fits: the gap of 3\sµm/).waitFor()
  await page.getByRole('button', { name: 'Restore' }).click()
  // The light is what it was before there was an edge.
  await expect.poll(() => nominal(page).textContent()).toBe(before)
  expect(complaints).toEqual([])
})
