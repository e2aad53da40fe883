// Lifetime: readings of a stress test entered by hand become a line of the budget by a stated law, with a caution as long as it is
// extrapolated. Expected values are closed forms of the table's own law.

import { expect, test } from 'vitest'
import { openApp, sharedBrowser } from './support/browser'
import { faultsOf, goTo, lineLoss, nominal, openTab, pane, showView, type } from './support/screen'
import { STRESS_RATE_DB, STRESS_TABLE } from './support/stressTable'

const HOURS_PER_YEAR = 8766
const drift = (hours: number) => STRESS_RATE_DB * Math.sqrt(hours)

test('a stress test entered by hand drifts in the budget by the stated law, and warns until it is within its range', async () => {
  const { page, complaints } = await openApp(await sharedBrowser(), { asOpened: true })
  const lossDb = async () => Number((await nominal(page).textContent())?.replace(' dB', ''))
  const before = await lossDb()
  const name = (await page.getByRole('heading', { level: 1 }).textContent()) ?? ''
  await openTab(page, 'Lifetime')
  await page.getByLabel('Readings, one per line').fill(STRESS_TABLE)
  await page.getByRole('button', { name: 'Read the table' }).click()
  await page.getByText('No ambiguities.').waitFor()
  expect(await page.getByLabel('Kind', { exact: true }).inputValue()).toBe('stress')
  await page.getByRole('button', { name: 'Import', exact: true }).click()
  await page
    .getByRole('table', { name: 'Stress test' })
    .getByText(/^2.000 h$/)
    .waitFor()

  await goTo(page, 'Design')
  await page.getByRole('button', { name: /^Use / }).click()
  const panel = page.getByRole('region', { name: 'Lifetime' })
  await showView(page, 'Law and service')
  await panel.getByLabel('Law', { exact: true }).selectOption('square root')
  await showView(page, 'Result')
  // Twenty years, unless another service is stated.
  const extrapolated = drift(20 * HOURS_PER_YEAR)
  await expect.poll(() => lineLoss(page, 'drift')).toBe(extrapolated.toFixed(2))
  await expect.poll(lossDb).toBeCloseTo(before + extrapolated, 1)
  const caution =
    /Extrapolated by the square-root law to the equivalent of 175.000 h of testing, 88 times the 2.000 h measured/
  await pane(page, 'Budget').getByText(caution).first().waitFor()
  expect(await faultsOf(page)).toEqual([])

  await showView(page, 'Law and service')
  await panel.getByRole('button', { name: 'Add Arrhenius acceleration' }).click()
  await type(panel.getByLabel('Service temperature, °C'), '25')
  // 0.7 eV from 85 to 25 °C: exp(0.7 / 8.617333e-5 (1 / 298.15 - 1 / 358.15)).
  const factor = Math.exp((0.7 / 8.617333e-5) * (1 / 298.15 - 1 / 358.15))
  await expect.poll(() => lineLoss(page, 'drift')).toBe(`${drift((20 * HOURS_PER_YEAR) / factor).toFixed(2)}`)
  await expect.poll(() => pane(page, 'Budget').getByText(caution).count()).toBe(0)
  await type(panel.getByLabel('Source of law and parameters'), 'diffusion of moisture, in-house report')
  await goTo(page, 'Review')
  await page.getByLabel('Selected design').selectOption(name)
  await page.getByRole('heading', { name: 'Drift over service life' }).first().waitFor()
  await page
    .getByText(/Source stated: diffusion of moisture, in-house report/)
    .first()
    .waitFor()
  expect(complaints).toEqual([])
})
