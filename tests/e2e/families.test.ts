// A week's question in one sitting: from an empty project, every way to one facet, compared, sized and ordered.

import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { openApp } from './support/browser'
import { launchBrowser } from './support/launch'
import { field, openTab } from './support/screen'

let browser: Browser

beforeAll(async () => {
  browser = await launchBrowser()
})
afterAll(() => browser?.close())

const press = (page: Page, name: string) => page.getByRole('button', { name, exact: true }).first().click()

async function type(page: Page, label: string, text: string): Promise<void> {
  const field = page.getByLabel(label, { exact: true }).first()
  await field.fill(text)
  await field.press('Enter')
}

const PARTS = [
  'ITU-T G.652.D class, 1550 nm',
  'High-NA bridge, 3.2 µm, 1550 nm',
  'Silicon-nitride inverse taper',
  'Optical adhesive, index of silica',
  'Lensed tip, 3 µm spot',
  'Taper chip, 10 to 3.5 µm',
  'Asphere as a thin lens, f 1 mm',
  'Asphere as a thin lens, f 0.3 mm',
]

const FAMILIES = [
  'Add fibre at the facet',
  'Add fibre at an on-chip inverse taper',
  'Add spliced stub at the facet',
  'Add lensed fibre',
  'Add two-lens relay with isolator',
  'Add taper chip',
]

/** Cells of one row of the comparison, in the order of the columns on screen. */
async function cells(page: Page, row: string): Promise<readonly string[]> {
  return page.locator(`tr[data-row="${row}"] td`).allInnerTexts()
}

const columns = (page: Page) => page.locator('.compare thead .compare-name').allInnerTexts()

/** The chosen candidate goes to its best setting, if it is not there. */
async function useBest(page: Page): Promise<void> {
  const button = page.getByRole('button', { name: 'Use the best setting', exact: true })
  // The search follows the numbers when there is time; before that the button still speaks of those before.
  await page.locator('.best-settings[aria-busy="false"]').waitFor()
  if (await button.isEnabled()) await button.click()
  await page.getByText('Every free setting is at its best.').waitFor()
}

/** Tabs on until the focus stands on what has this name, and that is in sight. */
async function keyTo(page: Page, name: string): Promise<void> {
  for (let i = 0; i < 400; i++) {
    await page.keyboard.press('Tab')
    const here = await page.evaluate(() => {
      const { activeElement } = document
      const text = activeElement?.getAttribute('aria-label') ?? activeElement?.textContent ?? ''
      const box = activeElement?.getBoundingClientRect()
      return {
        text: text.trim(),
        inSight: box !== undefined && box.bottom > 0 && box.top < window.innerHeight,
      }
    })
    if (here.text !== name) continue
    expect(here.inSight).toBe(true)
    return
  }
  throw new Error(`the keyboard does not reach ${name}`)
}

async function allFamilies(page: Page): Promise<void> {
  await press(page, 'New')
  await press(page, 'Parts')
  await press(page, 'Starter catalogue')
  for (const part of PARTS) await press(page, `Copy ${part}`)
  await press(page, 'Candidate')
  for (const [i, family] of FAMILIES.entries()) {
    await press(page, family)
    await expect.poll(() => page.locator('.candidate-choice').count()).toBe(i + 1)
  }
}

describe('from an empty project', () => {
  test('all families are built and compared; the two that meet 2 dB with an isolator are found, one is sized and ordered', async () => {
    const { page, complaints } = await openApp(browser)
    await allFamilies(page)

    // A second relay, behind the bridge fibre: one to one, with two lenses alike.
    await page.locator('.candidate-choice', { hasText: 'Two-lens relay' }).click()
    await press(page, 'Duplicate')
    await type(page, 'Name', 'Relay behind a stub')
    await press(page, 'Splice a stub on')
    await page
      .getByLabel('Lens 1', { exact: true })
      .selectOption({ label: 'Asphere as a thin lens, f 0.3 mm' })
    await useBest(page)

    await press(page, 'Requirements')
    await page.getByLabel('Limit applies to').selectOption('nominal')
    await page.getByLabel('Collimated section required').selectOption('yes')

    await press(page, 'Compare')
    await page.getByRole('heading', { name: 'Compare' }).waitFor()
    const names = await columns(page)
    expect(names).toHaveLength(7)
    const loss = await cells(page, 'verdict-loss')
    const collimated = await cells(page, 'verdict-collimated')
    const both = names.filter(
      (_, i) => loss[i]?.includes('✓') === true && collimated[i]?.includes('✓') === true,
    )
    expect(both).toEqual(['Two-lens relay with isolator', 'Relay behind a stub'])

    // Sorting, hiding and a baseline change the view, not the project.
    await press(page, 'Sort by Nominal dB')
    const sorted = (await cells(page, 'nominal')).map(Number.parseFloat)
    expect(sorted).toEqual([...sorted].sort((a, b) => a - b))
    await press(page, 'Pin Relay behind a stub as the baseline')
    expect((await cells(page, 'nominal')).filter((cell) => /[+−]\d/.test(cell))).toHaveLength(6)
    await press(page, 'Hide Fibre at the facet')
    expect(await columns(page)).toHaveLength(6)
    await press(page, 'Show 1 hidden')
    await page.getByText('the dashed line is the limit of 2 dB').waitFor()

    await page.locator('.compare-name', { hasText: 'Relay behind a stub' }).click()
    await press(page, 'Sizing and order')
    await page.getByRole('heading', { name: 'Allowed tolerances for 2 dB' }).waitFor()
    const lensRow = page.getByRole('row', { name: /^lens 2 x/ })
    const before = await lensRow.textContent()
    await press(page, 'Write the shared tolerances into parts and chain')
    await expect.poll(() => lensRow.textContent()).not.toBe(before)
    await page.getByText(/root sum square now (1\.9\d|2\.00) dB/).waitFor()

    const order = page.getByRole('region', { name: 'Order list' })
    const parts = await order.locator('tbody th').allInnerTexts()
    expect(parts).toEqual([
      'ITU-T G.652.D class, 1550 nm',
      'Fusion splice',
      'High-NA bridge, 3.2 µm, 1550 nm',
      'Asphere as a thin lens, f 0.3 mm',
      'Isolator',
      'Asphere as a thin lens, f 0.3 mm',
      'Silicon-nitride inverse taper',
    ])
    await order.getByText('Isolator: loss 0.3 dB ± 0.1 dB is an estimate').waitFor()

    // The whole sizing was one step.
    await press(page, 'Undo')
    await expect.poll(() => lensRow.textContent()).toBe(before)
    expect(complaints).toEqual([])
  })

  test('adhesive before a lensed tip is refused with the reason, and nothing entered is lost', async () => {
    const { page } = await openApp(browser)
    await allFamilies(page)
    await page.locator('.candidate-choice', { hasText: 'Lensed fibre' }).click()
    await page.getByLabel('Medium').selectOption({ label: 'Optical adhesive, index of silica' })
    await page.getByText('a tip focuses by the step of index from glass to air').waitFor()
    await page.getByText('not computed').waitFor()
    await press(page, 'Undo')
    await page.getByText('a tip focuses').waitFor({ state: 'detached' })
    expect(await field(page, 'Gap').inputValue()).toBe('12 µm')
  })

  test('what does not fit is named with its reason where it stands, and one step takes it back', async () => {
    const { page } = await openApp(browser)
    await allFamilies(page)
    const candidate = async (name: string) => {
      await press(page, 'Candidate')
      await page.locator('.candidate-choice', { hasText: name }).first().click()
    }
    const part = async (name: string, label: string, text: string) => {
      await press(page, 'Parts')
      const field = page.getByRole('group', { name }).first().getByLabel(label, { exact: true })
      await field.fill(text)
      await field.press('Enter')
    }
    const asphere = 'Asphere as a thin lens, f 0.3 mm Lens'

    await part(asphere, 'Focal length', '2 um')
    await candidate('Two-lens relay')
    await page.getByText('its focal length is too short for that working distance').first().waitFor()
    await press(page, 'Undo')

    await part(asphere, 'Clear aperture, diameter', '60 um')
    await candidate('Two-lens relay')
    await page.getByText('the clear aperture of 60 µm is smaller than the beam').waitFor()
    await press(page, 'Undo')
    await page.getByText('is smaller than the beam').waitFor({ state: 'detached' })

    await press(page, 'Requirements')
    const channels = page.getByLabel('Channels', { exact: true })
    await channels.fill('12')
    await channels.press('Enter')
    await part('Taper chip, 10 to 3.5 µm Taper chip', 'Output pitch', '125 um')
    await candidate('Taper chip')
    await page.getByText('the outer of 12 channels miss by 11.0 µm').waitFor()
  })

  test('a chain with two gaps tells them apart in drawing, numbers, budget and tolerance', async () => {
    const { page } = await openApp(browser)
    await allFamilies(page)
    await page.locator('.candidate-choice', { hasText: 'Taper chip' }).click()
    for (const name of ['Gap, joint 1 fibre to taper chip', 'Gap, joint 2 taper chip to facet']) {
      expect(await page.getByRole('group', { name, exact: true }).count()).toBe(1)
    }
    const budget = await page.locator('.budget tbody th').allInnerTexts()
    expect(new Set(budget).size).toBe(budget.length)
    for (const name of ['Tolerance, joint 1', 'Tolerance, joint 2']) {
      expect(await page.getByRole('region', { name, exact: true }).count()).toBe(1)
    }
    const drawings = await page
      .getByRole('application')
      .evaluateAll((all) => all.map((each) => each.ariaLabel))
    expect(new Set(drawings).size).toBe(4)
  })

  test('every face of a relay has its ray on the drawing, with the return loss of the table', async () => {
    const { page, complaints } = await openApp(browser)
    await allFamilies(page)
    await press(page, 'Parts')
    for (const lens of ['Gradient-index rod, 0.23 pitch', 'High-index ball, 0.5 mm']) {
      await press(page, 'Starter catalogue')
      if ((await page.getByRole('button', { name: `Copy ${lens}`, exact: true }).count()) === 0) {
        await press(page, 'Starter catalogue')
      }
      await press(page, `Copy ${lens}`)
    }
    await press(page, 'Candidate')
    await page.locator('.candidate-choice', { hasText: 'Two-lens relay' }).click()
    await page.getByLabel('Lens 1', { exact: true }).selectOption({ label: 'Gradient-index rod, 0.23 pitch' })
    await page.getByLabel('Lens 2', { exact: true }).selectOption({ label: 'High-index ball, 0.5 mm' })
    await useBest(page)
    await openTab(page, 'Reflections')
    const rows = page.locator('[data-reflection^="relay/"]')
    await expect.poll(() => rows.count()).toBe(6)
    const table = await rows.evaluateAll((all) =>
      all.map(
        (row) => `${row.querySelector('th')?.textContent} ${row.querySelectorAll('td')[1]?.textContent}`,
      ),
    )
    const rays = await page.locator('[data-ray] text').allTextContents()
    expect(rays.toSorted()).toEqual(table.map((each) => each.toLowerCase().replace('db', 'dB')).toSorted())
    expect(complaints).toEqual([])
  })

  test('the keyboard alone compares, sizes and orders', async () => {
    const { page } = await openApp(browser)
    await allFamilies(page)
    await keyTo(page, 'Compare')
    await page.keyboard.press('Enter')
    await page.getByRole('heading', { name: 'Compare' }).waitFor()
    await keyTo(page, 'Sort by Nominal dB')
    await page.keyboard.press('Enter')
    const sorted = (await cells(page, 'nominal')).map(Number.parseFloat)
    expect(sorted).toEqual([...sorted].sort((a, b) => a - b))
    await keyTo(page, 'Hide Lensed fibre')
    await page.keyboard.press('Enter')
    expect(await columns(page)).not.toContain('Lensed fibre')
    await keyTo(page, 'Sizing and order')
    await page.keyboard.press('Enter')
    await page.getByRole('heading', { name: 'Allowed tolerances for 2 dB' }).waitFor()
    await keyTo(page, 'How hard offset x, joint 1 is to hold')
    await page.keyboard.press('ArrowDown')
    expect(await page.getByLabel('How hard offset x, joint 1 is to hold').inputValue()).toBe('2')
    const row = page.getByRole('row', { name: /^offset x, joint 1/ })
    const before = await row.textContent()
    await keyTo(page, 'Write the shared tolerances into parts and chain')
    await page.keyboard.press('Enter')
    await expect.poll(() => row.textContent()).not.toBe(before)
    await page.keyboard.press('Control+z')
    await expect.poll(() => row.textContent()).toBe(before)
    await keyTo(page, 'Print')
  })

  test('parts go out as CSV and come back', async () => {
    const { page } = await openApp(browser)
    await allFamilies(page)
    await press(page, 'Parts')
    const [download] = await Promise.all([page.waitForEvent('download'), press(page, 'Export CSV')])
    const path = await download.path()
    const [chooser] = await Promise.all([page.waitForEvent('filechooser'), press(page, 'Import parts')])
    await chooser.setFiles({
      name: 'parts.csv',
      mimeType: 'text/csv',
      buffer: await (await import('node:fs/promises')).readFile(path),
    })
    // The parts copied above, and air.
    await page.getByText(`${PARTS.length + 1} parts added`).waitFor()
    await page.getByLabel('Search the parts').fill('asphere 0.3')
    await expect.poll(() => page.getByRole('group', { name: /Asphere/ }).count()).toBe(2)
  })
})
