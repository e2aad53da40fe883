// The demo in a real browser: what the screen shows is what the core computes.

import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../src/analysis/index'
import { demoProject } from '../../src/model/index'
import { stepIndexMode } from '../../src/optics/index'
import { lossText } from '../../src/panels/candidate/numbers'
import { openApp } from './support/browser'
import { launchBrowser } from './support/launch'

let browser: Browser

beforeAll(async () => {
  browser = await launchBrowser()
})
afterAll(() => browser?.close())

describe('on first start', () => {
  test('the demo is open and its budget shows the numbers of the core', async () => {
    const { page, complaints } = await openApp(browser)
    await page.getByRole('button', { name: 'Candidate', exact: true }).click()
    const project = demoProject()
    for (const { id, name } of project.candidates) {
      await page
        .getByRole('button', { name: new RegExp(name) })
        .first()
        .click()
      const expected = evaluateCandidate(project, id)
      const total = page.locator('tr[data-total="Nominal"] td').first()
      await expect.poll(() => total.textContent()).toBe(lossText(expected.nominalDb))
      for (const line of expected.lines) {
        const cell = page.locator(`tr[data-line="${line.id}"] td`).first()
        expect(await cell.textContent(), line.label).toBe(lossText(line.lossDb))
      }
    }
    expect(complaints).toEqual([])
  })

  test('the curve and the map are drawn', async () => {
    const { page, complaints } = await openApp(browser)
    const tolerance = page.getByRole('region', { name: 'Tolerance' })
    await tolerance.locator('.plot path.js-line').first().waitFor({ state: 'attached' })
    await tolerance.locator('.plot .textpoint text').first().waitFor({ state: 'attached' })
    await page.getByText('the dashed box is what the station holds').waitFor()
    expect(await page.getByText('could not be loaded').count()).toBe(0)
    expect(complaints).toEqual([])
  })

  test('the review sheet prints the same totals', async () => {
    const { page, complaints } = await openApp(browser)
    await page.getByRole('button', { name: 'Review sheet' }).click()
    const project = demoProject()
    const totals = await page.locator('tr[data-total="Nominal"] td:nth-of-type(1)').allTextContents()
    expect(totals).toEqual(
      project.candidates.map(({ id }) => lossText(evaluateCandidate(project, id).nominalDb)),
    )
    await page.getByText('responsible safety officer').first().waitFor()
    expect(complaints).toEqual([])
  })
})

// Mode mismatch of two round Gaussians: D. Marcuse, Bell Syst. Tech. J. 56 (1977) 703 (formula from memory).
describe('typed in by hand', () => {
  test('a round facet of 3.2 um at 1310 nm shows the mismatch that the published formula gives', async () => {
    const { page, complaints } = await openApp(browser)
    await page.getByRole('button', { name: 'Requirements' }).click()
    await page.getByLabel('Wavelength', { exact: true }).fill('1310')
    await page.getByLabel('Wavelength', { exact: true }).press('Enter')
    await page.getByRole('button', { name: 'Parts' }).click()
    for (const [part, label, text] of [
      ['Silicon-nitride facet', 'MFD x', '3.2'],
      ['Silicon-nitride facet', 'MFD y', '3.2'],
    ] as const) {
      const field = page.getByRole('group', { name: part }).getByLabel(label)
      await field.fill(text)
      await field.press('Enter')
    }
    await page.getByRole('button', { name: 'Candidate', exact: true }).click()
    const fibreMfdUm = stepIndexMode({ coreRadiusUm: 4.1, na: 0.125, wavelengthUm: 1.31 }).bestGaussianMfdUm
    const expected = -20 * Math.log10((2 * fibreMfdUm * 3.2) / (fibreMfdUm ** 2 + 3.2 ** 2))
    await expect
      .poll(() => page.locator('tr[data-line="gap/mode mismatch"] td').first().textContent())
      .toBe(expected.toFixed(2))
    expect(complaints).toEqual([])
  })
})
