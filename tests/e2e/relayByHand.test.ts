// A relay put into a design by a click; a facet whose two diameters are one width, sized by what is
// required. Read off the screen and worked out once more (support/own).

import { readFileSync } from 'node:fs'
import type { Browser, Page } from 'playwright-core'
import { beforeAll, expect, test } from 'vitest'
import { openApp, sharedBrowser } from './support/browser'
import { ownDesign } from './support/own/design'
import { ownNominalDb } from './support/own/statistics'
import { showPart } from './support/parts'
import { goTo, judge, nominal, pane, projectMenu, type } from './support/screen'

let browser: Browser
beforeAll(async () => {
  browser = await sharedBrowser()
})

const PATIENT = { timeout: 60_000 }
const CLEAVED = 'Cleaved fibre, dry'
const number = (text: string | null) => Number.parseFloat((text ?? '').replace(/^\D*/, ''))

async function saved(page: Page): Promise<unknown> {
  const download = page.waitForEvent('download')
  await projectMenu(page, /^Save/)
  return JSON.parse(readFileSync(await (await download).path(), 'utf8'))
}

test('a relay inserted by a click is at its optimum, as worked out once more; a lens aligned along the light lowers its worst case', async () => {
  const { page, complaints } = await openApp(browser)
  const before = number(await nominal(page).textContent())
  await pane(page, 'Path').getByRole('button', { name: /gap/i }).first().click()
  await page.getByText('Insert, move, remove, replace').click()
  await page.getByRole('menuitem', { name: 'Insert two-lens relay' }).click()
  const lens1 = pane(page, 'Inspector').getByRole('combobox', { name: 'Lens 1', exact: true })
  await lens1.waitFor(PATIENT)
  await expect.poll(async () => number(await nominal(page).textContent()), PATIENT).toBeLessThan(before)
  // The name of the lens is whole beside or below its label.
  expect(await lens1.evaluate((field) => field.scrollWidth - field.clientWidth)).toBeLessThanOrEqual(0)
  const final = page.locator('tr[data-total="Worst case"] td.number:not(.provisional)')
  await final.waitFor(PATIENT)
  const own = ownDesign(await saved(page), CLEAVED)
  const shown = number(await nominal(page).textContent())
  expect(Math.abs(shown - ownNominalDb(own))).toBeLessThan(0.08)
  for (const [port, ownDb] of Object.entries(own.returnLossDb)) {
    const verdict = page.locator(`[data-verdict="return-loss-${port}"]`)
    if ((await verdict.count()) > 0)
      expect(Math.abs(number(await verdict.textContent()) - ownDb), port).toBeLessThan(0.15)
  }
  // Nothing along the light does better by its own working out: either end face, by 3 um.
  const at = (name: string) => own.names.findIndex((each) => each.endsWith(name))
  for (const name of ['frontGap', 'backGap'])
    for (const um of [-3, 3]) {
      const v = new Float64Array(own.offs.length)
      v[at(name)] = um
      expect(own.lossDb(v, 0), `${name} ${um}`).toBeGreaterThan(ownNominalDb(own) - 0.02)
    }
  await final.waitFor(PATIENT)
  const worst = number(await final.textContent())
  await page.getByText('Alignment and holder drift').first().click()
  await page.getByLabel('Lens 2 axial shift z, active alignment').click()
  await expect.poll(async () => number(await final.textContent()), PATIENT).toBeLessThan(worst - 0.1)
  expect(Math.abs(number(await nominal(page).textContent()) - shown)).toBeLessThan(0.02)

  // Sizing searches along the light for every width it tries: off the page, which stays responsive, and is cancelled or finished as the user likes.
  await goTo(page, 'Sizing')
  const allocation = pane(page, 'Tolerance allocation')
  await page.getByLabel('Criterion', { exact: true }).selectOption('worst case')
  await allocation.getByRole('button', { name: 'Cancel', exact: true }).click(PATIENT)
  await allocation.getByText('Cancelled.').waitFor()
  expect(await allocation.getByRole('button', { name: 'Apply allocated tolerances' }).isEnabled()).toBe(false)
  await page.getByLabel('Criterion', { exact: true }).selectOption('RSS')
  await allocation.getByText(/RSS: [\d.]+ dB now/).waitFor(PATIENT)
  expect(complaints).toEqual([])
})

test('two diameters that are one width are sized as one quantity, y in step with x', async () => {
  const { page, complaints } = await openApp(browser, { at: 'requirements' })
  const limitDb = 9
  await judge(page, CLEAVED)
  await type(page.getByLabel('Insertion-loss limit', { exact: true }), `${limitDb} dB`)
  const facet = await showPart(page, 'Silicon-nitride facet')
  await facet.getByLabel('MFD x and y vary').selectOption('together, from one width')
  await goTo(page, 'Sizing')
  await page.locator('.allowances[aria-busy="false"]').waitFor(PATIENT)
  const row = page.getByRole('row', { name: /^MFD x and y of/ })
  const alone = number(await row.locator('td').nth(1).textContent())
  expect(await page.getByRole('row', { name: /^MFD y of/ }).count()).toBe(0)
  const own = ownDesign(await saved(page), CLEAVED)
  const position = (axis: string) => own.names.findIndex((name) => name.endsWith(`MFD ${axis}`))
  const [x, y] = [own.offs[position('x')], own.offs[position('y')]]
  if (x === undefined || y === undefined) throw new Error('no facet')
  // Narrower by so much in x, and in y by the ratio of both tolerances.
  const lossDb = (um: number) => {
    const v = new Float64Array(own.offs.length)
    v[position('x')] = -um
    v[position('y')] = (-um * y.halfWidth) / x.halfWidth
    return own.lossDb(v, 0)
  }
  let [low, high] = [0, x.value * 0.9]
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2
    if (lossDb(middle) < limitDb) low = middle
    else high = middle
  }
  expect(alone / low).toBeCloseTo(1, 1)

  // A required percentile is what the sizing is by, without being chosen.
  await goTo(page, 'Requirements')
  await page.getByLabel('Limit applies to').selectOption('percentile')
  await goTo(page, 'Sizing')
  const sentence = page.getByText(/P\d+: [\d.]+ dB now, [\d.]+ dB with/)
  await sentence.waitFor(PATIENT)
  expect(await page.getByLabel('Criterion', { exact: true }).inputValue()).toBe('percentile')
  const allocated = /now, ([\d.]+) dB/.exec((await sentence.textContent()) ?? '')?.[1]
  expect(Number(allocated)).toBeLessThanOrEqual(limitDb)
  expect(complaints).toEqual([])
})
