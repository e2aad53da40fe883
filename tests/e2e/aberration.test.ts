// A ball lens picked from the catalogue into a relay: its aberration in the budget, on the drawing, in the yield, on the sheet and in
// the workbook.

import { readFileSync } from 'node:fs'
import { readXlsx } from 'hucre/xlsx'
import type { Browser, Page } from 'playwright-core'
import { beforeAll, expect, test } from 'vitest'
import { CATALOGUE_LENSES } from '../../src/model/catalogue/lenses'
import { quantityOf } from '../../src/model/quantity/quantity'
import type { Project } from '../../src/model/schema/project'
import { familiesProject, relayElement } from '../analysis/support/families'
import { relays } from '../analysis/support/realRelays'
import { openApp, sharedBrowser } from './support/browser'
import { drop, textFile } from './support/drop'
import { copyFromCatalogue } from './support/parts'
import { choose, goTo, lineLoss, nominal, openTab, pane } from './support/screen'

let browser: Browser
beforeAll(async () => {
  browser = await sharedBrowser()
})

const PATIENT = { timeout: 60_000 }
const BALL = 'Sapphire ball, 0.5 mm'
const LINE = 'Aberration of the lenses'
const number = (text: string | null) => Number.parseFloat((text ?? '').replace(/^[^\d-]*/, ''))

/** The first relay of the outside reference at 1550 nm, but for its ball: a thin lens stands in its place. */
function relayWithoutBall(): Project {
  const [row] = relays
  const silica = CATALOGUE_LENSES.find(({ id }) => id === 'plano-500-silica')
  if (row === undefined || silica === undefined) throw new Error('no row')
  const relay = relayElement({
    lens1Id: silica.id,
    lens2Id: 'lens-2',
    frontGap: quantityOf(row.frontGapUm, 'um', 'estimate', 2),
    backGap: quantityOf(row.backGapUm, 'um', 'estimate', 1),
    stretch: quantityOf(row.stretchUm, 'um'),
  })
  const project = structuredClone(familiesProject(relay))
  const candidates = project.candidates.filter(({ id }) => id === 'relay')
  const [fibre, , facet] = candidates[0]?.chain ?? []
  const nearMode = project.fibres.find((each) => fibre?.kind === 'fibre' && each.id === fibre.fibreId)
  const farMode = project.facets.find((each) => facet?.kind === 'facet' && each.id === facet.facetId)
  if (nearMode === undefined || farMode === undefined) throw new Error('no modes')
  nearMode.mode = { kind: 'mfd', mfdX: quantityOf(row.nearMfdUm, 'um') }
  farMode.mfdX = quantityOf(row.farMfdUm[0], 'um')
  farMode.mfdY = quantityOf(row.farMfdUm[1], 'um')
  const requirements = { ...project.requirements, wavelength: quantityOf(1550, 'nm') }
  return { ...project, requirements, candidates, lenses: [...project.lenses, silica] }
}

async function workbook(page: Page) {
  await page
    .getByRole('tablist', { name: 'Review settings' })
    .getByRole('tab', { name: 'Files', exact: true })
    .click()
  const download = page.waitForEvent('download')
  await page.getByRole('button', { name: 'Spreadsheet, live formulas', exact: true }).click()
  return readXlsx(readFileSync(await (await download).path()))
}

test('a ball lens of the catalogue brings its aberration to budget, drawing, yield, sheet and workbook', async () => {
  const { page, complaints } = await openApp(browser)
  await drop(page, textFile('relay.json', JSON.stringify(relayWithoutBall())))
  await page.locator('li[data-design="cleaved-dry"]').waitFor({ state: 'detached' })
  await goTo(page, 'Parts')
  await copyFromCatalogue(page, BALL)
  await goTo(page, 'Design')
  await choose(page, 'Lens 2', BALL)

  const budget = pane(page, 'Budget')
  await expect.poll(() => budget.textContent(), PATIENT).toContain(LINE)
  // Outside: 1.377 dB where paraxial optics says none; the catalogue's sapphire and facet faces differ a little from the reference.
  const aberrationDb = async () => number(await lineLoss(page, 'relay/aberration'))
  await expect
    .poll(async () => Math.abs((await aberrationDb()) - (relays[0]?.realDb ?? 0)), PATIENT)
    .toBeLessThan(0.3)
  await page.locator('tr[data-total="Worst case"] td.number:not(.provisional)').waitFor()
  const lineDb = await aberrationDb()
  const nominalDb = number(await nominal(page).textContent())

  await expect.poll(() => page.locator('.drawn-ray').count()).toBeGreaterThanOrEqual(18)

  await openTab(page, 'Yield')
  const run = page.getByRole('button', { name: 'Run yield', exact: true })
  await run.click()
  await run.waitFor(PATIENT)
  const median = page.locator('.yield-numbers tr[data-yield="P50"] td').first()
  await expect
    .poll(async () => number(await median.textContent()), PATIENT)
    .toBeGreaterThan(nominalDb - lineDb / 2)

  await goTo(page, 'Review')
  const onSheet = page.locator('.review-sheet tr', { hasText: LINE }).first()
  await expect.poll(() => onSheet.textContent(), PATIENT).toContain(lineDb.toFixed(2))

  const book = await workbook(page)
  const row = book.sheets.flatMap(({ rows }) => rows).find(([label]) => label === LINE)
  expect(Math.abs(Number(row?.[1]) - lineDb)).toBeLessThan(0.006)
  expect(complaints).toEqual([])
})
