// A week's question in one sitting: from an empty project, every way to one facet, compared, sized and ordered.

import { readFile } from 'node:fs/promises'
import type { Browser, Page } from 'playwright-core'
import { beforeAll, describe, expect, test } from 'vitest'
import { openApp, sharedBrowser } from './support/browser'
import { drop, textFile } from './support/drop'
import { copyFromCatalogue, partRow, showPart } from './support/parts'
import {
  choose,
  designMenu,
  designRow,
  field,
  goTo,
  newEmpty,
  openTab,
  pane,
  selectDesign,
  type,
} from './support/screen'

let browser: Browser

beforeAll(async () => {
  browser = await sharedBrowser()
})

const PATIENT = { timeout: 60_000 }

const press = (page: Page, name: string) => page.getByRole('button', { name, exact: true }).first().click()

const PARTS = [
  'ITU-T G.652.D class, 1550 nm',
  'High-NA bridge, 3.2 µm, 1550 nm',
  'Silicon-nitride inverse taper',
  'Optical adhesive, index of silica',
  'Lensed fibre, 3 µm spot',
  'SSC chip, 10 to 3.5 µm',
  'Asphere, f 1 mm',
  'Asphere, f 0.3 mm',
]

const FAMILIES = [
  'Cleaved fibre, dry',
  'Cleaved fibre, index-matching gel',
  'High-NA stub, bonded',
  'Lensed fibre',
  'Two-lens relay',
  'On-chip taper',
  'SSC chip',
]

const stops = (page: Page) => pane(page, 'Path').locator('.path-stop')

/** Cells of one row of the comparison, in the order of the columns on screen. */
async function cells(page: Page, row: string): Promise<readonly string[]> {
  return page.locator(`tr[data-row="${row}"] td`).allInnerTexts()
}

const columns = (page: Page) => page.locator('.compare thead .compare-name').allInnerTexts()

/** The chosen design goes to its optimum, if it is not there. */
async function applyOptimum(page: Page): Promise<void> {
  const optimum = page.getByRole('region', { name: 'Optimum settings' })
  // The search follows the numbers when there is time; before that the button still refers to the previous ones.
  await page.locator('.optimum[aria-busy="false"]').waitFor()
  const button = optimum.getByRole('button', { name: 'Apply optimum' })
  if (await button.isEnabled()) await button.click()
  await optimum.getByText('All unpinned parameters are at their optimum.').waitFor()
}

/** Tabs on until what has this name is focused, and that is in sight. */
async function keyTo(page: Page, name: string): Promise<void> {
  const step = async () => {
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
    return here.text === name && here.inSight
  }
  await expect.poll(step, { message: `${name} is reached by Tab, and in sight`, interval: 0 }).toBe(true)
}

const isAscending = (all: readonly number[]) => all.every((each, i) => i === 0 || (all[i - 1] ?? 0) <= each)

/** The comparison is sorted by nominal loss. */
const sortedByNominal = (page: Page) =>
  expect
    .poll(async () => {
      const losses = (await cells(page, 'nominal')).map(Number.parseFloat)
      return losses.length > 1 && isAscending(losses)
    })
    .toBe(true)

/** The allowances are those of the project as it is. */
const sized = (page: Page) => page.locator('.allowances[aria-busy="false"]').waitFor(PATIENT)

/** A project with parts of the catalogue and a design of every family, drafted from them; an isolator has to fit in. */
async function buildAllFamilies(page: Page): Promise<void> {
  await newEmpty(page)
  await goTo(page, 'Requirements')
  await page.getByLabel('Limit applies to', { exact: true }).selectOption('nominal')
  await page.getByLabel('Collimated section required').selectOption('yes')
  await goTo(page, 'Parts')
  for (const part of PARTS) await copyFromCatalogue(page, part)
  await goTo(page, 'Design')
  for (const [i, family] of FAMILIES.entries()) {
    await press(page, 'Add a design')
    await page.getByRole('button', { name: new RegExp(`^Add ${family}`) }).click()
    await expect.poll(() => page.locator('li[data-design]').count(), PATIENT).toBe(i + 1)
  }
}

let saved = ''

/** That project, built by the first test that wants it and opened from its file by the others. */
async function allFamilies(page: Page): Promise<void> {
  if (saved === '') {
    await buildAllFamilies(page)
    const [download] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Control+s')])
    saved = await readFile(await download.path(), 'utf8')
    return
  }
  await drop(page, textFile('families.json', saved))
  await goTo(page, 'Design')
  // A design that the demo, open until then, does not have.
  await designRow(page, 'Cleaved fibre, index-matching gel').waitFor()
  await selectDesign(page, FAMILIES.at(-1) ?? '')
}

describe('from an empty project', () => {
  test('all families are built and compared; the two that meet 2 dB with an isolator are found, one is sized and ordered', async () => {
    const { page, complaints } = await openApp(browser, { at: 'requirements' })
    await allFamilies(page)

    // A second relay, behind the bridge fibre: one to one, with two lenses alike.
    await selectDesign(page, 'Two-lens relay')
    await designMenu(page, 'Two-lens relay', 'Duplicate')
    // Otherwise the pointer, resting where the menu was, opens an explanation over the list.
    await page.mouse.move(0, 0)
    await expect.poll(() => page.locator('li[data-design]').count()).toBe(FAMILIES.length + 1)
    const copy = (await page.locator('li[data-chosen="true"] .design-name').textContent()) ?? ''
    await designMenu(page, copy, 'Rename…')
    await page.getByLabel('Design name').fill('Relay behind a stub')
    await page.getByLabel('Design name').press('Enter')
    await designRow(page, 'Relay behind a stub').waitFor()
    await stops(page).first().click()
    await pane(page, 'Path')
      .getByRole('button', { name: /^Insert, move, remove/ })
      .click()
    await page.getByRole('menuitem', { name: 'Add spliced stub' }).click()
    await expect.poll(() => stops(page).count()).toBe(5)
    await stops(page).nth(3).click()
    await choose(page, 'Lens 1', 'Asphere, f 0.3 mm')
    await applyOptimum(page)

    await goTo(page, 'Compare')
    await page.getByRole('table', { name: 'Comparison' }).waitFor(PATIENT)
    await expect.poll(() => columns(page)).toHaveLength(8)
    const both = async () => {
      const names = await columns(page)
      const loss = await cells(page, 'verdict-loss')
      const collimated = await cells(page, 'verdict-collimated')
      return names
        .filter((_, i) => loss[i]?.includes('✓') === true && collimated[i]?.includes('✓') === true)
        .toSorted()
    }
    await expect.poll(both, PATIENT).toEqual(['Relay behind a stub', 'Two-lens relay'])

    // Sorting, hiding and a baseline change the view, not the project.
    await press(page, 'Sort by Nominal dB')
    await sortedByNominal(page)
    const ofColumn = async (name: string, entry: string) => {
      await press(page, `Actions for ${name}`)
      await page.getByRole('menuitem', { name: entry, exact: true }).click()
    }
    await ofColumn('Relay behind a stub', 'Use as baseline')
    await expect
      .poll(async () => (await cells(page, 'nominal')).filter((cell) => /[+−]\d/.test(cell)).length)
      .toBe(7)
    await ofColumn('Cleaved fibre, dry', 'Hide')
    await expect.poll(() => columns(page)).not.toContain('Cleaved fibre, dry')
    await press(page, 'Show 1 hidden')
    await expect.poll(() => columns(page)).toHaveLength(8)

    await page.locator('.compare-name', { hasText: 'Relay behind a stub' }).click()
    await goTo(page, 'Sizing')
    await page.getByRole('heading', { name: 'Tolerance allocation for a 2 dB limit' }).waitFor()
    await sized(page)
    const lensRow = page.getByRole('row', { name: /^lens 2 decentre x/ })
    const before = await lensRow.textContent()
    await press(page, 'Apply allocated tolerances')
    await expect.poll(() => lensRow.textContent()).not.toBe(before)
    await page.getByText(/RSS: (1\.9\d|2\.00) dB now/).waitFor()

    await goTo(page, 'Order')
    const order = page.getByRole('region', { name: 'Order list' })
    await expect
      .poll(async () =>
        (await order.locator('tbody th').allInnerTexts()).map((name) => name.replaceAll('\u00a0', ' ')),
      )
      .toEqual([
        'ITU-T G.652.D class, 1550 nm',
        'Fusion splice',
        'High-NA bridge, 3.2 µm, 1550 nm',
        'Asphere, f 0.3 mm',
        'Isolator',
        'Asphere, f 0.3 mm',
        'Silicon-nitride inverse taper',
      ])
    await order.getByText(/^Isolator: please confirm .* loss 0\.3\sdB\s±\s0\.1\sdB;/).waitFor()

    // The whole sizing was one step.
    await press(page, 'Undo')
    await goTo(page, 'Sizing')
    await expect.poll(() => lensRow.textContent()).toBe(before)
    expect(complaints).toEqual([])
  })

  test('adhesive before a lensed tip is refused with the reason, and nothing entered is lost', async () => {
    const { page } = await openApp(browser, { at: 'requirements' })
    await allFamilies(page)
    await selectDesign(page, 'Lensed fibre')
    await expect.poll(() => field(page, 'Gap').inputValue()).toBe('12 µm')
    await choose(page, 'Gap medium', 'Optical adhesive, index of silica')
    const refused = page.getByText('a lensed fibre focuses by the index step from glass to air')
    await refused.first().waitFor()
    await page.getByText('This design cannot be evaluated').waitFor()
    await designRow(page, 'Lensed fibre').getByText('not evaluated', { exact: true }).waitFor()
    await press(page, 'Undo')
    await expect.poll(() => refused.count()).toBe(0)
    await expect.poll(() => field(page, 'Gap').inputValue()).toBe('12 µm')
  })

  test('what does not fit is named with its reason in place, and one step undoes it', async () => {
    const { page } = await openApp(browser, { at: 'requirements' })
    await allFamilies(page)
    const design = async (name: string) => {
      await goTo(page, 'Design')
      await selectDesign(page, name)
    }
    const part = async (name: string, label: string, text: string) => {
      const shown = await showPart(page, name)
      await type(shown.getByLabel(label, { exact: true }), text)
    }
    const screen = page.getByRole('main')
    const asphere = 'Asphere, f 0.3 mm'

    await part(asphere, 'Focal length', '2 um')
    await design('Two-lens relay')
    await expect
      .poll(() => screen.textContent())
      .toContain('its focal length is too short for that working distance')
    await press(page, 'Undo')
    await expect.poll(() => page.getByText('is too short for that working distance').count()).toBe(0)

    await part(asphere, 'Clear aperture (diameter)', '60 um')
    await design('Two-lens relay')
    await expect.poll(() => screen.textContent()).toContain('the clear aperture of 60 µm clips')
    await press(page, 'Undo')
    await expect.poll(() => page.getByText('the clear aperture of 60 µm clips').count()).toBe(0)

    await goTo(page, 'Requirements')
    await type(page.getByLabel('Channels', { exact: true }), '12')
    await part('SSC chip, 10 to 3.5 µm', 'Output pitch', '125 um')
    await design('SSC chip')
    const reason = page.locator('[role="tooltip"]', {
      hasText: 'the outer two of 12 channels are misaligned by 11.0 µm',
    })
    await reason.first().waitFor({ state: 'attached' })
    await page.locator(`[aria-describedby~="${await reason.first().getAttribute('id')}"]`).hover()
    await reason.first().waitFor()
  })

  test('a path with two gaps distinguishes them in drawing, numbers, budget and tolerance', async () => {
    const { page } = await openApp(browser, { at: 'requirements' })
    await allFamilies(page)
    await selectDesign(page, 'SSC chip')
    const budget = await page.locator('.budget tbody th').allInnerTexts()
    expect(budget.length).toBeGreaterThan(4)
    expect(new Set(budget).size).toBe(budget.length)
    const drawings = new Set<string | null>()
    for (const [at, joint, between] of [
      [1, 'Joint 1', 'Fibre to SSC chip'],
      [3, 'Joint 2', 'SSC chip to facet'],
    ] as const) {
      await stops(page).nth(at).click()
      const inspector = pane(page, 'Inspector')
      await inspector.getByRole('heading', { name: between, exact: true }).waitFor()
      await inspector.getByText(joint, { exact: true }).waitFor()
      await page.getByRole('region', { name: `Tolerance, ${joint.toLowerCase()}`, exact: true }).waitFor()
      const views = page.locator('[data-pane="Drawing"] svg[role="application"]')
      await expect.poll(() => views.count()).toBe(2)
      for (const name of await views.evaluateAll((all) => all.map((each) => each.ariaLabel)))
        drawings.add(name)
    }
    expect(drawings.size).toBe(4)
  })

  test('every face of a relay has its ray on the drawing, with the return loss of the table', async () => {
    const { page, complaints } = await openApp(browser, { at: 'requirements' })
    await allFamilies(page)
    await goTo(page, 'Parts')
    const lenses = ['Gradient-index rod, 0.23 pitch', 'High-index ball, 0.5 mm']
    for (const lens of lenses) await copyFromCatalogue(page, lens)
    await goTo(page, 'Design')
    await selectDesign(page, 'Two-lens relay')
    for (const [i, lens] of lenses.entries()) await choose(page, `Lens ${i + 1}`, lens)
    await applyOptimum(page)
    await openTab(page, 'Reflections')
    const rows = page.locator('[data-reflection^="relay/"]')
    await expect.poll(() => rows.count()).toBe(6)
    const both = () =>
      page.evaluate(() => ({
        table: Array.from(
          document.querySelectorAll('[data-reflection^="relay/"]'),
          (row) => `${row.querySelector('th')?.textContent} ${row.querySelectorAll('td')[1]?.textContent}`,
        ).toSorted(),
        rays: Array.from(document.querySelectorAll('[data-ray]'), (ray) => {
          const loss = /(?:> )?[\d.]+ dB$/.exec(ray.querySelector('text')?.textContent ?? '')
          return `${ray.querySelector('title')?.textContent} ${loss?.[0]}`
        }).toSorted(),
      }))
    await expect
      .poll(async () => {
        const { table, rays } = await both()
        return rays.length === 6 && rays.join() === table.join() ? [] : [rays, table]
      })
      .toEqual([])
    expect(complaints).toEqual([])
  })

  test('the keyboard alone compares, sizes and orders', async () => {
    const { page } = await openApp(browser, { at: 'requirements' })
    await allFamilies(page)
    await keyTo(page, 'Compare')
    await page.keyboard.press('Enter')
    await page.getByRole('table', { name: 'Comparison' }).waitFor(PATIENT)
    await keyTo(page, 'Sort by Nominal dB')
    await page.keyboard.press('Enter')
    await sortedByNominal(page)
    await keyTo(page, 'Actions for Lensed fibre')
    await page.keyboard.press('Enter')
    await page.getByRole('menuitem', { name: 'Hide', exact: true }).waitFor()
    await page.keyboard.press('h')
    await page.keyboard.press('Enter')
    await expect.poll(() => columns(page)).not.toContain('Lensed fibre')
    await keyTo(page, 'Sizing')
    await page.keyboard.press('Enter')
    await page.getByRole('heading', { name: 'Tolerance allocation for a 2 dB limit' }).waitFor()
    await keyTo(page, 'Difficulty of offset x, joint 1')
    await page.keyboard.press('ArrowDown')
    await expect.poll(() => page.getByLabel('Difficulty of offset x, joint 1').inputValue()).toBe('2')
    const row = page.getByRole('row', { name: /^offset x, joint 1/ })
    await sized(page)
    const before = await row.textContent()
    await keyTo(page, 'Apply allocated tolerances')
    await page.keyboard.press('Enter')
    await expect.poll(() => row.textContent()).not.toBe(before)
    await page.keyboard.press('Control+z')
    await expect.poll(() => row.textContent()).toBe(before)
    await keyTo(page, 'Order')
    await page.keyboard.press('Enter')
    await keyTo(page, 'Order list')
    await page.keyboard.press('ArrowRight')
    await page.getByRole('region', { name: 'Purchase specification' }).waitFor()
    await page.getByRole('button', { name: 'Print or PDF', disabled: false }).waitFor()
    await keyTo(page, 'Print or PDF')
  })

  test('parts go out as CSV and come back', async () => {
    const { page } = await openApp(browser, { at: 'requirements' })
    await allFamilies(page)
    await goTo(page, 'Parts')
    await page.getByRole('button', { name: 'In this project', exact: true }).click()
    const rows = page.getByRole('listbox', { name: 'Parts' }).getByRole('option')
    for (const part of PARTS) await partRow(page, part).waitFor()
    const count = await rows.count()
    // Those copied, the air of every project, and the gel of the gel design; each is listed once.
    expect(count).toBeGreaterThanOrEqual(PARTS.length + 2)
    const files = async (entry: string) => {
      await page.getByRole('button', { name: 'Part files' }).click()
      await page.getByRole('menuitem', { name: entry }).click()
    }
    const [download] = await Promise.all([page.waitForEvent('download'), files('Export as CSV')])
    const path = await download.path()
    const [chooser] = await Promise.all([page.waitForEvent('filechooser'), files('Import parts…')])
    await chooser.setFiles({ name: 'parts.csv', mimeType: 'text/csv', buffer: await readFile(path) })
    await page.getByText(`${count} parts added`).waitFor()
    await page.getByLabel('Search the parts').fill('asphere 0.3')
    await expect.poll(() => rows.count()).toBe(2)
  })
})
