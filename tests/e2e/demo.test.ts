// The demo in a real browser: what the screen shows is what the core computes.

import type { Browser, Locator } from 'playwright-core'
import { beforeAll, describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../src/analysis/index'
import { demoProject } from '../../src/model/index'
import { lossText } from '../../src/model/quantity/lossText'
import { openApp, sharedBrowser } from './support/browser'
import { showPart } from './support/parts'
import { goTo, judge, nominal, pane, selectDesign, unfoldBudget } from './support/screen'

let browser: Browser

beforeAll(async () => {
  browser = await sharedBrowser()
})

describe('on first start', () => {
  test('the demo is open and its budget shows the numbers of the core', async () => {
    const { page, complaints } = await openApp(browser)
    await goTo(page, 'Design')
    const project = demoProject()
    for (const { id, name } of project.candidates) {
      await selectDesign(page, name)
      const expected = evaluateCandidate(project, id)
      await expect.poll(() => nominal(page).textContent()).toBe(lossText(expected.nominalDb))
      await unfoldBudget(page)
      const shown = await pane(page, 'Budget')
        .locator('tr[data-line]')
        .evaluateAll((rows) =>
          rows.map((row) => [row.getAttribute('data-line'), row.querySelector('td')?.textContent]),
        )
      const lossOf = new Map(shown.map(([line, loss]) => [line, loss]))
      for (const line of expected.lines) {
        expect(lossOf.get(line.id), line.label).toBe(lossText(line.lossDb))
      }
    }
    expect(complaints).toEqual([])
  })

  test('the curve, the contours of the map and a bar for each line of the budget are drawn', async () => {
    const { page, complaints } = await openApp(browser)
    const tolerance = page.getByRole('region', { name: 'Tolerance' })
    await tolerance.locator('.tolerance-map svg path[d^="M"]').nth(3).waitFor({ state: 'attached' })
    const project = demoProject()
    const lines = evaluateCandidate(project, project.candidates[0]?.id ?? '').lines.length
    await page.getByText('Waterfall of the contributions').click()
    await expect.poll(() => page.locator('.plot .barlayer .point').count()).toBe(lines + 1)
    await page.getByText('Dashed: alignment-station accuracy').waitFor()
    const map = tolerance.locator('.tolerance-map')
    await map.scrollIntoViewIfNeeded()
    // The colours are on the canvas behind the drawing.
    const colours = () =>
      map.locator('canvas').evaluate((canvas) => {
        const { width, height } = canvas as HTMLCanvasElement
        const data = (canvas as HTMLCanvasElement).getContext('2d')?.getImageData(0, 0, width, height).data
        return new Set(new Uint32Array(data?.buffer ?? new ArrayBuffer(0))).size
      })
    await expect.poll(colours).toBeGreaterThan(50)
    await page.locator('[data-table="windows"]').scrollIntoViewIfNeeded()
    await tolerance
      .locator('[data-figure="loss-curve"] .figure-chart svg path')
      .first()
      .waitFor({ state: 'attached' })
    await expect.poll(() => page.getByText('could not be loaded').count()).toBe(0)
    expect(complaints).toEqual([])
  })

  test('the review sheet prints the same totals', async () => {
    const { page, complaints } = await openApp(browser, { at: 'review' })
    await goTo(page, 'Review')
    const totals = page.locator('tr[data-mark="total-Nominal"] td:nth-of-type(1)')
    const project = demoProject()
    const expected = project.candidates.map(({ id }) => lossText(evaluateCandidate(project, id).nominalDb))
    await expect.poll(async () => (await totals.allTextContents()).toSorted()).toEqual(expected.toSorted())
    await page.getByText('responsible safety officer').first().waitFor()
    expect(complaints).toEqual([])
  })
})

// Mode mismatch of two round Gaussians: D. Marcuse, Bell Syst. Tech. J. 56 (1977) 703 (formula from memory).
// 9.2 um is the nominal mode-field diameter of ITU-T G.652.D at 1310 nm (from memory).
describe('entered by hand', () => {
  test('a fibre of 9.2 um at a round facet of 3.2 um loses 4.14 dB at 1310 nm', async () => {
    const { page, complaints } = await openApp(browser, { at: 'requirements' })
    const type = async (field: Locator, text: string) => {
      await field.fill(text)
      await field.press('Enter')
    }
    await judge(page, 'Cleaved fibre, dry')
    await type(page.getByLabel('Wavelength', { exact: true }), '1310')
    const fibre = await showPart(page, 'Standard single-mode fibre')
    await fibre.getByLabel('Mode defined by', { exact: true }).selectOption('mode-field diameter')
    await type(fibre.getByLabel('MFD x', { exact: true }), '9.2 um')
    const facet = await showPart(page, 'Silicon-nitride facet')
    await type(facet.getByLabel('MFD x', { exact: true }), '3.2')
    await type(facet.getByLabel('MFD y', { exact: true }), '3.2')
    await goTo(page, 'Design')
    await expect
      .poll(() => page.locator('tr[data-line="gap/mode mismatch"] td').first().textContent())
      .toBe('4.14')
    expect(complaints).toEqual([])
  })
})
