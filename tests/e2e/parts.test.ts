// The Parts page: found, filtered, copied from the catalogue, several at once, by mouse and by keyboard.

import { readFile } from 'node:fs/promises'
import type { Browser, Page } from 'playwright-core'
import { beforeAll, describe, expect, test } from 'vitest'
import { demoProject, parseProject } from '../../src/model/index'
import { openApp, sharedBrowser } from './support/browser'
import { addPart, copyFromCatalogue, partRow, showPart } from './support/parts'
import { goTo } from './support/screen'

let browser: Browser

beforeAll(async () => {
  browser = await sharedBrowser()
})

const options = (page: Page) => page.getByRole('listbox', { name: 'Parts' }).getByRole('option')
const names = async (page: Page) => page.locator('.part-rows .part-row-name').allTextContents()

async function saved(page: Page) {
  const [download] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Control+s')])
  return parseProject(JSON.parse(await readFile(await download.path(), 'utf8')))
}

describe('the list', () => {
  test('says what a part is and where it is used; search, kind and wavelength narrow it', async () => {
    const { page, complaints } = await openApp(browser, { at: 'parts' })
    await goTo(page, 'Parts')
    const row = partRow(page, 'Standard single-mode fibre')
    await expect.poll(() => row.textContent()).toMatch(/core 8\.2\sµm\s±\s0\.2\sµm.*used in /)
    const all = await options(page).count()
    await page.getByLabel('Search the parts').fill('adhesive')
    await expect.poll(() => names(page)).toEqual(['UV-cured adhesive', 'UV-cured adhesive, index of glass'])
    await page.getByLabel('Search the parts').fill('nothing of the kind')
    await page.getByText('No parts match the filters.').waitFor()
    await page.getByRole('button', { name: 'Clear filters' }).click()
    await expect.poll(() => options(page).count()).toBe(all)
    await page.getByLabel('Kind', { exact: true }).selectOption('fibre')
    const fibres = demoProject().fibres.length
    await expect.poll(() => names(page)).toHaveLength(fibres)
    // The cores of both fibres carry more than one mode, or none, far from the project's wavelength.
    await page.getByLabel('For wavelength').selectOption({ label: '850 nm' })
    await expect.poll(async () => (await names(page)).length).toBeLessThan(fibres)
    expect(complaints).toEqual([])
  })

  test('is traversed by the arrow keys in one tab stop, and shows each part', async () => {
    const { page } = await openApp(browser, { at: 'parts' })
    await showPart(page, 'Standard single-mode fibre')
    await page.getByRole('listbox', { name: 'Parts' }).focus()
    await page.keyboard.press('End')
    const last = (await names(page)).at(-1)!
    await page.getByRole('article', { name: last, exact: true }).waitFor()
    await page.keyboard.press('Home')
    await page.getByRole('article', { name: (await names(page))[0]!, exact: true }).waitFor()
    await page.keyboard.press('Tab')
    await expect
      .poll(() => page.evaluate(() => document.activeElement?.closest('[role="listbox"]') !== null))
      .toBe(false)
  })
})

describe('the catalogue', () => {
  test('copies an entry with one click, says so, and shows the copy beside it', async () => {
    const { page, complaints } = await openApp(browser, { at: 'parts' })
    await goTo(page, 'Parts')
    await copyFromCatalogue(page, 'ITU-T G.652.D class, 1550 nm')
    await page.getByText('ITU-T G.652.D class, 1550 nm copied to Fibres of this project').waitFor()
    const part = page.getByRole('article', { name: 'ITU-T G.652.D class, 1550 nm' })
    await part.getByText('Not used in any design.').waitFor()
    await page.getByRole('button', { name: 'Show ITU-T G.652.D class, 1550 nm in this project' }).click()
    await expect
      .poll(() => partRow(page, 'ITU-T G.652.D class, 1550 nm').getAttribute('aria-current'))
      .toBe('true')
    expect((await saved(page)).fibres.map(({ name }) => name)).toContain('ITU-T G.652.D class, 1550 nm')
    expect(complaints).toEqual([])
  })
})

describe('several parts', () => {
  test('are copied, given a tolerance and deleted together, each as one undo step', async () => {
    const { page, complaints } = await openApp(browser, { at: 'parts' })
    await showPart(page, 'Standard single-mode fibre')
    await partRow(page, 'Standard single-mode fibre').click({ modifiers: ['Control'] })
    await partRow(page, 'High-NA bridge fibre').click({ modifiers: ['Control'] })
    const bar = page.getByRole('toolbar', { name: 'Selected parts' })
    await bar.getByText('2 selected').waitFor()
    await bar.getByRole('button', { name: 'Copy' }).click()
    await partRow(page, 'High-NA bridge fibre (copy)').waitFor()
    await bar.getByText('2 selected').waitFor() // the copies

    await bar.getByRole('button', { name: 'Set tolerance…' }).click()
    const dialog = page.getByRole('dialog', { name: 'Set tolerance of 2 parts' })
    await dialog.getByLabel('Quantity').selectOption({ label: 'Cladding diameter (2)' })
    await dialog.getByLabel('±', { exact: true }).fill('0,5')
    await dialog.getByLabel('Unit').selectOption({ label: 'µm' })
    await dialog.getByLabel('Distribution').selectOption('normal')
    await dialog.getByRole('button', { name: 'Apply' }).click()
    await page.getByText('Cladding diameter: tolerance set for 2 of 2 parts').waitFor()
    const project = await saved(page)
    const copies = project.fibres.filter(({ name }) => name.endsWith('(copy)'))
    expect(copies.map(({ claddingDiameter }) => claddingDiameter.tolerance)).toEqual([
      { plusMinus: 0.5, distribution: 'normal' },
      { plusMinus: 0.5, distribution: 'normal' },
    ])
    expect(project.fibres[0]).toEqual(demoProject().fibres[0])

    await partRow(page, 'Standard single-mode fibre').click({ modifiers: ['Control'] })
    await bar.getByText('3 selected').waitFor()
    await bar.getByRole('button', { name: 'Delete' }).click()
    await page.getByText('2 parts deleted; 1 part kept because designs use it').waitFor()
    await page.keyboard.press('Control+z')
    await partRow(page, 'High-NA bridge fibre (copy)').waitFor()
    await page.keyboard.press('Control+z')
    await page.keyboard.press('Control+z')
    expect((await saved(page)).fibres).toEqual(demoProject().fibres)
    expect(complaints).toEqual([])
  })

  test('are selected and deleted by the keyboard', async () => {
    const { page } = await openApp(browser, { at: 'parts' })
    await addPart(page, 'Lens')
    await addPart(page, 'Lens')
    await page.getByRole('article', { name: 'New lens 2' }).waitFor()
    await page.getByRole('listbox', { name: 'Parts' }).focus()
    await page.keyboard.press('Space')
    await page.keyboard.press('Shift+ArrowUp')
    await page.getByText('2 selected').waitFor()
    await page.keyboard.press('Delete')
    await expect.poll(() => partRow(page, 'New lens').count()).toBe(0)
    expect((await saved(page)).lenses).toEqual(demoProject().lenses)
  })
})
