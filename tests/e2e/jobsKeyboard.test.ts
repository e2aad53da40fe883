// Whole jobs by keys alone: designs in their rail, drawing and map, requirements, parts, comparison, order, measurements, review,
// help. The focus is always seen, also where what had it is gone.

import type { Browser, Page } from 'playwright-core'
import { beforeAll, expect, test } from 'vitest'
import { openApp, sharedBrowser } from './support/browser'
import { enter, focused, openPage, press, seen, tabTo, toRegion } from './support/keys'

let browser: Browser
beforeAll(async () => {
  browser = await sharedBrowser()
})

/** Chooses from the menu that is open: entries have the focus by arrows, and show it by their ground. */
async function pick(page: Page, entry: string | RegExp): Promise<void> {
  await page.getByRole('menu').first().waitFor()
  const own = () => page.evaluate(() => document.activeElement?.textContent?.trim() ?? '')
  for (let i = 0; i < 20; i++) {
    const here = await own()
    if (typeof entry === 'string' ? here === entry : entry.test(here)) {
      await page.keyboard.press('Enter')
      return
    }
    await page.keyboard.press('ArrowDown')
  }
  throw new Error(`the menu has no ${entry}`)
}

test('designs are copied, named, moved, deleted and added by keys alone, and the focus is never lost', async () => {
  const { page, complaints } = await openApp(browser, { asOpened: true })
  await page.setViewportSize({ width: 1280, height: 720 })
  await page.locator('.tolerance-map canvas').waitFor()
  const rail = () => page.locator('.design-name').allTextContents()
  const before = await rail()
  const title = (name: string) =>
    page.getByRole('heading', { level: 1, name, exact: true }).waitFor({ state: 'attached' })

  await toRegion(page, '[data-pane="Designs"]')
  await press(page, 'Actions for SSC chip')
  await pick(page, 'Duplicate')
  await title('SSC chip (copy)')
  await seen(page, 'Duplicate')

  await toRegion(page, '[data-pane="Designs"]')
  await press(page, 'Actions for SSC chip (copy)')
  await pick(page, 'Rename…')
  await expect.poll(() => focused(page)).toBe('Design name')
  await page.keyboard.press('Control+a')
  await page.keyboard.type('Second source')
  await page.keyboard.press('Enter')
  await title('Second source')
  await seen(page, 'Rename')

  await toRegion(page, '[data-pane="Designs"]')
  await press(page, 'Actions for Second source')
  await pick(page, 'Move up')
  await expect.poll(rail).toEqual([...before.slice(0, 4), 'Second source', ...before.slice(4)])
  await seen(page, 'Move up')

  await toRegion(page, '[data-pane="Designs"]')
  await press(page, 'Actions for Second source')
  await pick(page, 'Delete')
  await expect.poll(rail).toEqual(before)
  await seen(page, 'Delete')

  await toRegion(page, '[data-pane="Designs"]')
  await press(page, 'Add a design')
  await press(page, /^Add Lensed fibre/)
  await expect.poll(async () => (await rail()).length).toBe(before.length + 1)
  await seen(page, 'Add')
  await page.keyboard.press('Control+z')
  await expect.poll(rail).toEqual(before)
  expect(complaints).toEqual([])
})

test('requirements are stated and taken back, parts added, copied and given a tolerance by keys alone', async () => {
  const { page, complaints } = await openApp(browser, { asOpened: true })
  await page.setViewportSize({ width: 1280, height: 720 })

  await openPage(page, 'Requirements')
  await enter(page, 'Maximum cost per channel', '40')
  await press(page, 'Add minimum return loss towards the chip')
  await expect.poll(() => focused(page)).toBe('Minimum return loss towards the chip')
  await press(page, 'Remove minimum return loss towards the chip')
  await expect.poll(() => focused(page)).toBe('Add minimum return loss towards the chip')
  await press(page, 'Add loss criterion')
  await page.getByLabel('Insertion-loss limit 2').waitFor()
  await seen(page, 'Add loss criterion')
  await press(page, 'Remove criterion 2')
  await page.getByLabel('Insertion-loss limit 2').waitFor({ state: 'detached' })
  await seen(page, 'Remove criterion')
  await tabTo(page, /^Priority: /)
  await page.keyboard.type('des')
  await expect
    .poll(() =>
      page
        .getByLabel(/^Priority: /)
        .first()
        .inputValue(),
    )
    .toBe('wish')

  await openPage(page, 'Parts')
  await page.getByRole('listbox', { name: 'Parts' }).waitFor()
  await toRegion(page, '[aria-label="Part list"]')
  await openPage(page, 'Parts')
  await press(page, 'Add part')
  await pick(page, 'Lens')
  await page.getByRole('article', { name: 'New lens' }).waitFor()
  await seen(page, 'Add part')
  await toRegion(page, '[aria-label="Part list"]')
  await press(page, 'Catalogue')
  await enter(page, 'Search the parts', 'G.652')
  await press(page, /^Copy ITU-T G\.652\.D/)
  await page.getByText(/copied to Fibres of this project/).waitFor()
  await press(page, 'In this project')
  await tabTo(page, 'Search the parts')
  await page.keyboard.press('Control+a')
  await page.keyboard.press('Delete')
  await tabTo(page, 'Parts')
  await page.keyboard.press('Home')
  await page.keyboard.press('Space')
  await page.keyboard.press('Shift+ArrowDown')
  await page.getByText('2 selected').waitFor()
  await press(page, 'Set tolerance…')
  await enter(page, '±', '0.5')
  await page.getByText(/tolerance set for \d of 2 parts/).waitFor()
  await seen(page, 'Set tolerance')
  expect(complaints).toEqual([])
})

test('a design is moved in its drawing, its source is set, its map and verdicts are used and the help is read with the keyboard alone', async () => {
  const { page, complaints } = await openApp(browser, { asOpened: true })
  await page.setViewportSize({ width: 1280, height: 720 })
  await page.locator('.tolerance-map canvas').waitFor()

  const gap = page.getByRole('region', { name: 'Inspector' }).getByLabel('Gap', { exact: true })
  await toRegion(page, '[data-pane="Drawing"]')
  await press(page, 'Fit waveguide')
  await press(page, 'Zoom in')
  await tabTo(page, /^Side view/)
  await page.keyboard.press('ArrowLeft')
  await expect.poll(() => gap.inputValue()).not.toBe('3 µm')
  await page.keyboard.press('Control+z')
  await expect.poll(() => gap.inputValue()).toBe('3 µm')

  await toRegion(page, '[data-pane="Inspector"]')
  await press(page, /^Source and tolerance of Gap/)
  await tabTo(page, 'Source')
  await page.keyboard.type('meas')
  await expect.poll(() => page.getByLabel('Source', { exact: true }).first().inputValue()).toBe('measured')
  await seen(page, 'a new source')

  await toRegion(page, '[data-pane="Depth"]')
  await tabTo(page, 'Horizontal axis')
  await page.keyboard.type('Gap')
  await page.locator('.tolerance-map').getByText('Gap, µm').waitFor()
  await toRegion(page, '[data-pane="Depth"]')
  await tabTo(page, /^Minimum [\d.]+ dB; working point/)
  await page.keyboard.press('ArrowRight')
  await expect.poll(() => gap.inputValue()).not.toBe('3 µm')
  await page.keyboard.press('Control+z')
  await expect.poll(() => gap.inputValue()).toBe('3 µm')
  await toRegion(page, '[data-pane="Depth"]')
  await press(page, 'Expand')
  await expect.poll(() => focused(page)).toBe('Restore')
  await page.keyboard.press('Escape')
  await expect.poll(() => focused(page)).toBe('Expand')

  await toRegion(page, '.verdict-strip')
  await press(page, /^.RL fibre/)
  await page.getByRole('group', { name: 'Light' }).waitFor()
  await seen(page, 'a verdict')

  await openPage(page, 'Design')
  await page.keyboard.press('?')
  await page.getByRole('dialog', { name: 'Keyboard shortcuts' }).waitFor()
  await page.keyboard.press('Escape')
  await expect.poll(() => focused(page)).toBe('Design')
  await press(page, 'Help')
  await pick(page, /^Glossary/)
  const glossary = page.getByRole('dialog', { name: 'Glossary' })
  await glossary.waitFor()
  await enter(page, 'Search the glossary', 'cure')
  await expect.poll(() => glossary.locator('.glossary-entry').count()).toBeLessThan(8)
  await page.keyboard.press('Escape')
  await seen(page, 'the glossary')
  expect(complaints).toEqual([])
})

test('designs are compared, ordered, measured and reviewed by keys alone', async () => {
  const { page, complaints } = await openApp(browser, { asOpened: true })
  await page.setViewportSize({ width: 1280, height: 720 })
  const saved = async (name: string | RegExp) => {
    const [download] = await Promise.all([page.waitForEvent('download'), press(page, name)])
    return download.suggestedFilename()
  }

  await openPage(page, 'Compare')
  const columns = () => page.locator('.compare-name').allTextContents()
  await page.locator('.compare-name').first().waitFor()
  await toRegion(page, '.compare-page')
  await press(page, /^Ranked by/)
  await pick(page, /nominal/i)
  await expect.poll(async () => (await columns())[0]).toBe('Lensed fibre')
  await press(page, /^Baseline/)
  await pick(page, 'Lensed fibre')
  await page.getByRole('button', { name: 'Baseline: Lensed fibre' }).waitFor()
  const rows = () => page.locator('.compare [data-row]').count()
  const all = await rows()
  await press(page, 'Differences only', 'Space')
  await expect.poll(rows).toBeLessThan(all)
  await press(page, 'Actions for Cleaved fibre, dry')
  await pick(page, 'Hide')
  await expect.poll(columns).not.toContain('Cleaved fibre, dry')
  await seen(page, 'Hide')
  await press(page, 'Show 1 hidden')
  await expect.poll(columns).toContain('Cleaved fibre, dry')
  await seen(page, 'Show hidden')
  await press(page, 'SSC chip')
  await page.getByRole('heading', { level: 1, name: 'SSC chip', exact: true }).waitFor({ state: 'attached' })
  // The name in the table is gone with its page.
  await expect.poll(() => focused(page)).toBe('Design')

  await openPage(page, 'Order')
  await tabTo(page, 'Order list')
  await page.keyboard.press('ArrowRight')
  await page.getByRole('region', { name: 'Purchase specification', exact: true }).waitFor()
  await enter(page, 'Good assemblies required', '30')
  await page.getByText('30 good assemblies are required').waitFor()
  expect(await saved('CSV')).toMatch(/\.csv$/)

  await openPage(page, 'Measurements')
  await press(page, 'Paste a table')
  await tabTo(page, 'Table to read')
  await page.keyboard.insertText(
    'x [um];power [uW]\n-4;10\n-3;25\n-2;55\n-1;88\n0;100\n1;88\n2;55\n3;25\n4;10\n',
  )
  await press(page, 'Read the table')
  await page.getByRole('button', { name: 'Discard', exact: true }).waitFor()
  await seen(page, 'Read the table')
  await press(page, 'Discard')
  await press(page, 'Offset scan over the facet')
  await press(page, 'Import')
  await page.getByText('Uncertainty budget').waitFor()
  await seen(page, 'Import')
  await press(page, 'Delete measurement')
  await page.getByText('Uncertainty budget').waitFor({ state: 'detached' })
  await seen(page, 'Delete measurement')

  await openPage(page, 'Review')
  await page.locator('.review-sheet').waitFor()
  await tabTo(page, 'Decision')
  await page.keyboard.press('ArrowRight')
  await press(page, 'Open questions', 'Space')
  await expect.poll(() => page.getByLabel('Open questions', { exact: true }).isChecked()).toBe(false)
  await tabTo(page, 'Sections')
  await page.keyboard.press('ArrowRight')
  await enter(page, 'Name of the new revision', 'A')
  await press(page, 'Save revision')
  await page.getByText('A saved').waitFor()
  await tabTo(page, 'Revisions')
  await page.keyboard.press('ArrowRight')
  await page.getByRole('button', { name: 'Markdown' }).and(page.locator(':enabled')).waitFor()
  expect(await saved('Markdown')).toMatch(/\.md$/)
  expect(complaints).toEqual([])
})
