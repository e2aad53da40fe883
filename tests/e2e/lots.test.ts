// A production lot in a real browser: 50 assemblies of 12 channels dropped, read, compared with their design and explained.

import { readFile } from 'node:fs/promises'
import { expect, test } from 'vitest'
import { parseProject } from '../../src/model/index'
import { openApp, sharedBrowser } from './support/browser'
import { drop, textFile } from './support/drop'
import { lotText } from './support/lotText'
import { faultsOf, goTo } from './support/screen'

test('a lot of 50 × 12 losses is dropped, compared, explained and applied in one undo step', async () => {
  const { page, complaints } = await openApp(await sharedBrowser(), {})
  await goTo(page, 'Measurements')
  await drop(page, textFile('lot-7.csv', lotText(50)))
  await page.getByText('600 losses of 50 assemblies, 12 channels.').waitFor()
  await page.getByText('No ambiguities.').waitFor()
  expect(await page.getByLabel('Column 5 is').inputValue()).toBe('batch')
  await page.getByRole('button', { name: 'Import', exact: true }).click()
  await page.getByRole('table', { name: 'Variance components' }).waitFor()
  const variances = page.getByRole('table', { name: 'Variance components' })
  await expect.poll(() => variances.getByRole('row').count()).toBe(5)
  await page.getByRole('heading', { name: 'Control chart (individuals and moving range)' }).waitFor()
  await page.getByText(/^Expected yield of the next 50/).waitFor()

  await page.getByRole('button', { name: 'Compare with design' }).click()
  await page.getByText('The lot does not agree with the prediction.').waitFor({ timeout: 120_000 })
  await goTo(page, 'Compare')
  await goTo(page, 'Measurements') // the comparison outlives the page
  const tolerances = page.getByRole('table', { name: 'Tolerances that would explain the lot' })
  await tolerances.getByRole('cell', { name: 'wider' }).first().waitFor()
  expect(await tolerances.getByRole('cell', { name: 'tighter' }).count()).toBe(0)
  expect(await faultsOf(page)).toEqual([])

  const saved = async () => {
    const [download] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Control+s')])
    return readFile(await download.path(), 'utf8')
  }
  await page.getByRole('button', { name: /^Apply \d+ measured tolerances?$/ }).click()
  await page.getByText('The project has changed since this comparison.').waitFor()
  const after = await saved()
  expect(after).toContain('Tolerance measured on lot-7.csv, 2026-03-14')
  await page.getByRole('button', { name: 'Undo', exact: true }).click()
  const before = await saved()
  expect(before).not.toContain('Tolerance measured on')
  expect(parseProject(JSON.parse(before)).measurements.map(({ method }) => method)).toContain('lot')
  expect(complaints).toEqual([])
})
