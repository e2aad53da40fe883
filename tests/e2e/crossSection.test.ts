// A tip's cross-section in a real browser: defined, solved, looked at, swept, a width chosen and applied, undone.

import type { Browser, Page } from 'playwright-core'
import { beforeAll, describe, expect, test } from 'vitest'
import { openApp, sharedBrowser } from './support/browser'
import { INDEX_MAP_ROWS } from './support/indexMap'
import { showFacetView, showPart } from './support/parts'
import { openPlainDemo } from './support/plainDemo'
import { goTo } from './support/screen'

let browser: Browser

beforeAll(async () => {
  browser = await sharedBrowser()
})

const PATIENT = { timeout: 60_000 }
const FACET = 'Silicon-nitride facet'

async function openSection(page: Page): Promise<void> {
  await showFacetView(page, FACET, 'Waveguide cross-section')
  await page.getByRole('button', { name: 'Define cross-section' }).click()
  await page.locator('.guide-section').getByLabel('Core width at half height').waitFor()
}

const view = (page: Page, name: string) => page.getByRole('tab', { name, exact: true }).click()

async function type(page: Page, label: string, text: string): Promise<void> {
  const field = page.locator('.guide-section').getByLabel(label, { exact: true }).first()
  await field.fill(text)
  await field.press('Enter')
}

const nominalDb = async (page: Page): Promise<string> => {
  await goTo(page, 'Design')
  const text = (await page.locator('tr[data-total="Nominal"] td').first().textContent()) ?? ''
  await goTo(page, 'Parts')
  return text
}

describe('the cross-section of a tip', () => {
  test('is solved and shown; an applied swept width changes the budget; one undo restores all of it', async () => {
    const { page, complaints } = await openPlainDemo(browser)
    const before = await nominalDb(page)
    await openSection(page)
    await type(page, 'Core width at half height', '600 nm')
    await view(page, 'Solved mode')
    await page.getByLabel('Grid', { exact: true }).selectOption('100x76')
    await page.getByRole('button', { name: 'Solve the mode' }).click()
    const mode = page.getByRole('region', { name: 'Solved mode' })
    await mode.getByRole('heading', { name: 'Mode of the cross-section' }).waitFor(PATIENT)
    await mode.getByText('Coupling loss, field overlap').waitFor()
    await mode.getByText(/Quasi-TE mode: intensity of the dominant component/).waitFor()
    await expect.poll(() => mode.locator('table tbody tr').count()).toBeGreaterThan(12)

    await view(page, 'Sweep')
    await page.getByLabel('Number of points', { exact: true }).fill('5')
    await page.getByLabel('Number of points', { exact: true }).press('Enter')
    await page.getByLabel('From, µm').fill('0.5')
    await page.getByLabel('From, µm').press('Enter')
    await page.getByRole('button', { name: 'Run the sweep' }).click()
    const rows = page.locator('.swept tbody tr')
    await rows.nth(4).waitFor(PATIENT)
    // 0.6 µm has by chance a mode of the facet's own nominal loss; 0.7 µm confines it more, and so loses more.
    await rows.nth(2).getByRole('button').click()
    const mfdX = Number.parseFloat((await rows.nth(2).locator('td').nth(1).textContent()) ?? '')
    await page.getByRole('button', { name: 'Apply 0.7 µm and its mode to Silicon-nitride facet' }).click()
    await view(page, 'Facet')
    const shown = page.getByLabel('MFD x', { exact: true })
    await expect.poll(async () => Number.parseFloat(await shown.inputValue())).toBeCloseTo(mfdX, 2)
    await expect.poll(() => page.getByLabel('Taper tip width', { exact: true }).inputValue()).toBe('0.7 µm')
    await expect.poll(async () => Number(await nominalDb(page))).toBeGreaterThan(Number(before) + 1)

    await page.keyboard.press('Control+z')
    await expect.poll(() => shown.inputValue()).toBe('3.4 µm')
    await expect.poll(() => nominalDb(page)).toBe(before)
    expect(complaints).toEqual([])
  })

  test('gives the loss of its taper, which enters the budget as computed once it is applied', async () => {
    const { page, complaints } = await openPlainDemo(browser)
    const before = Number(await nominalDb(page))
    await openSection(page)
    await type(page, 'Core width at half height', '600 nm')
    await view(page, 'Sweep')
    await page.getByLabel('Grid', { exact: true }).selectOption('100x76')
    await view(page, 'Taper')
    const taper = page.getByRole('region', { name: 'Taper', exact: true })
    await taper.waitFor()
    const enter = async (label: string, text: string) => {
      const field = taper.getByLabel(label, { exact: true })
      if ((await field.count()) === 0) {
        await taper.getByRole('button', { name: `Add ${label.toLowerCase()}` }).click()
      }
      await field.fill(text)
      await field.press('Enter')
    }
    await enter('Routing width', '1.2 µm')
    await enter('Taper length', '150 µm')
    await taper.getByRole('button', { name: 'Solve along the taper' }).click()
    const answer = taper.getByText(/^Taper loss [\d.]+ dB for a tip width of/)
    await answer.waitFor(PATIENT)
    const shownDb = async () => Number(/loss ([\d.]+) dB/.exec((await answer.textContent()) ?? '')?.[1])
    const linearDb = await shownDb()
    await taper.getByLabel('Taper profile').selectOption('quadratic')
    await expect.poll(shownDb).not.toBe(linearDb)
    const quadraticDb = await shownDb()
    await taper.getByRole('button', { name: 'Apply taper loss' }).click()
    // The facet's own 0.25 dB makes way for it, and nothing else changes.
    await expect.poll(async () => Number(await nominalDb(page))).toBeCloseTo(before - 0.25 + quadraticDb, 1)
    expect(complaints).toEqual([])
  })

  test('brought as an index map asks for the unit, shows its profile and is solved', async () => {
    const { page, complaints } = await openPlainDemo(browser)
    await openSection(page)
    const section = page.locator('.guide-section')
    await section.getByLabel('Index profile', { exact: true }).selectOption('index map')
    const rows = INDEX_MAP_ROWS
    const open = async (name: RegExp, text: string) => {
      const chooser = page.waitForEvent('filechooser')
      await section.getByRole('button', { name }).click()
      await (await chooser).setFiles({ name: 'map.csv', mimeType: 'text/csv', buffer: Buffer.from(text) })
    }
    await open(/Open index map/, [...rows.slice(0, 40), '0;0;14.5', ...rows.slice(41)].join('\n'))
    await section.getByText(/map\.csv: index of row 40 .* 14\.5; must be 1 to 6/).waitFor()
    await open(/Open index map/, rows.join('\n'))
    const unit = section.getByLabel(/Positions have no unit; they span 8000/)
    await expect.poll(() => unit.inputValue()).toBe('nm')
    await expect
      .poll(async () =>
        Number.parseFloat(
          await section.getByLabel('Index-step full width at 1/e', { exact: true }).inputValue(),
        ),
      )
      .toBeCloseTo(3, 1)
    await section.getByText(/^Index of Tip through its peak: 1\.494/).waitFor()
    await section.getByLabel(/^Index step vs wavelength/).fill('1550 0.04\n1310 0.05')
    await section.getByLabel(/^Index step vs wavelength/).blur()
    await section.getByText('wavelength is 1.31; must be above 1.55').waitFor()
    await section.getByLabel(/^Index step vs wavelength/).fill('1310 0.05\n1550 0.04')
    await section.getByLabel(/^Index step vs wavelength/).blur()
    await section.getByText(/^Index of Tip through its peak: 1\.48/).waitFor()
    await view(page, 'Solved mode')
    await page.getByLabel('Grid', { exact: true }).selectOption('100x76')
    await page.getByRole('button', { name: 'Solve the mode' }).click()
    await page.getByRole('heading', { name: 'Mode of the cross-section' }).waitFor(PATIENT)
    expect(complaints).toEqual([])
  })

  test('of an end of an SSC chip is solved and applied, and its joint is computed by fields', async () => {
    const { page, complaints } = await openApp(browser, { asOpened: true })
    const chip = await showPart(page, 'SSC chip, 10 to 3.3 µm')
    const before = Number(await nominalDb(page))
    await view(page, 'Waveguide cross-section')
    await chip.getByLabel('Chip end', { exact: true }).selectOption('output')
    await chip.getByRole('button', { name: 'Define cross-section' }).click()
    await expect.poll(() => chip.getByLabel('Index profile').inputValue()).toBe('buried Gaussian')
    await view(page, 'Solved mode')
    await page.getByLabel('Grid', { exact: true }).selectOption('100x76')
    await chip.getByRole('button', { name: 'Solve the mode' }).click()
    const apply = chip.getByRole('button', {
      name: /^Apply [\d.]+ × [\d.]+ µm to SSC chip, 10 to 3\.3 µm, output end$/,
    })
    await apply.waitFor(PATIENT)
    const mfdUm = /([\d.]+) ×/.exec((await apply.textContent()) ?? '')?.[1]
    await apply.click()
    await view(page, 'SSC chip')
    await expect
      .poll(async () =>
        Number.parseFloat(await chip.getByLabel('Output MFD x', { exact: true }).inputValue()),
      )
      .toBeCloseTo(Number(mfdUm), 2)
    // The other end keeps its own index; this one has that of its mode.
    await expect
      .poll(async () =>
        Number.parseFloat(await chip.getByLabel('Effective index, output end', { exact: true }).inputValue()),
      )
      .toBeGreaterThan(1.44)
    await chip.getByLabel('Mode shape, output end').waitFor()
    await goTo(page, 'Design')
    const line = page.locator('tr[data-line="gap-2/mode shape"]')
    await line.waitFor({ ...PATIENT, state: 'attached' })
    await goTo(page, 'Parts')
    await view(page, 'Waveguide cross-section')
    await chip.getByLabel('Chip end', { exact: true }).selectOption('output')
    await chip.getByRole('button', { name: 'Remove cross-section' }).click()
    await page.keyboard.press('Control+z')
    for (let undone = 0; undone < 2; undone++) await page.keyboard.press('Control+z')
    await expect.poll(async () => Number(await nominalDb(page))).toBe(before)
    expect(complaints).toEqual([])
  })

  test('too thin to guide a mode gets the reason; cancelling leaves the last result', async () => {
    const { page, complaints } = await openPlainDemo(browser)
    await openSection(page)
    await type(page, 'Core width at half height', '0.02')
    await view(page, 'Solved mode')
    await page.getByLabel('Grid', { exact: true }).selectOption('100x76')
    await page.getByRole('button', { name: 'Solve the mode' }).click()
    await page.getByText(/The mode extends beyond .*: it is close to cut-off/).waitFor(PATIENT)
    await view(page, 'Waveguide cross-section')
    await type(page, 'Core width at half height', '0.7')
    await view(page, 'Sweep')
    await page.getByLabel('Grid', { exact: true }).selectOption('300x220')
    await page.getByRole('button', { name: 'Run the sweep' }).click()
    await page.getByRole('button', { name: 'Cancel', exact: true }).click()
    await page.getByText(/^Cancelled/).waitFor()
    expect(complaints).toEqual([])
  })
})
