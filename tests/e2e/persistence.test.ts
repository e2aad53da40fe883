// Nothing is lost: what is dropped, entered or left half-entered is there again after a reload, or was refused with the reason.

import type { Browser, Locator, Page } from 'playwright-core'
import { beforeAll, describe, expect, test } from 'vitest'
import { demoProject } from '../../src/model/index'
import { ODD_FILES } from '../measure/support/oddFiles'
import { beforeApp, openApp, sharedBrowser } from './support/browser'
import { drop } from './support/drop'
import { faultsOf, field, goTo, nominal, openTab, type } from './support/screen'
import { stored } from './support/storage'

let browser: Browser

beforeAll(async () => {
  browser = await sharedBrowser()
})

const isSaved = (page: Page) => page.getByText('Saved in this browser').waitFor()
const gap = (page: Page) => field(page, 'Gap')
const takeButton = (page: Page) => page.getByRole('button', { name: 'Import' })
const ANSWERS = {
  Wavelength: '1550 nm',
  'Probe MFD': '4 um',
  'Pixel size in the object plane': '0.2 um',
} as const

describe('odd files dropped on the window', () => {
  test('are refused with the reason, or asked about', async () => {
    const { page, complaints } = await openApp(browser, { at: 'measurements' })
    for (const { name, bytes, asks, refused } of ODD_FILES.filter(({ asks, refused }) => asks ?? refused)) {
      await drop(page, { name, bytes: bytes() })
      await takeButton(page).waitFor()
      await page
        .getByText(refused ?? asks ?? '')
        .first()
        .waitFor()
      await expect.poll(() => takeButton(page).isDisabled(), { message: name }).toBe(true)
      await page.getByRole('button', { name: 'Discard' }).click()
      await takeButton(page).waitFor({ state: 'detached' })
    }
    expect(complaints).toEqual([])
  })

  test('are there after a reload once they are taken', async () => {
    const { page, complaints } = await openApp(browser, { at: 'measurements' })
    const taken = ODD_FILES.filter(({ refused }) => refused === null)
    for (const { name, bytes } of taken) {
      await drop(page, { name, bytes: bytes() })
      await takeButton(page).waitFor()
      for (const [label, answer] of Object.entries(ANSWERS)) {
        const input = page.getByLabel(label, { exact: true })
        if ((await input.count()) > 0 && (await input.inputValue()) === '') await type(input, answer)
      }
      await takeButton(page).click()
      await takeButton(page).waitFor({ state: 'detached' })
    }
    const saved = async () =>
      ((await stored(page, 'modeseam-project')) as { measurements?: readonly unknown[] } | undefined)
        ?.measurements?.length
    await expect.poll(saved).toBe(taken.length)
    await page.reload()
    await isSaved(page)
    await goTo(page, 'Measurements')
    for (const { name } of taken) await page.getByText(name.slice(0, 30)).first().waitFor()
    expect(complaints).toEqual([])
  })
})

describe('a page that ends', () => {
  test('in the middle of an entry comes back with the entry', async () => {
    const { page } = await openApp(browser)
    await type(gap(page), '12')
    await isSaved(page)
    await gap(page).fill('17.5')
    await page.reload()
    await expect.poll(() => gap(page).inputValue()).toBe('17.5 µm')
  })

  test('by reload, by going back or by being closed loses no keystroke of a requirement, an assembly step or a table before it is read', async () => {
    let { page } = await openApp(browser, { at: 'requirements' })
    const typeOver = async (field: Locator, text: string) => {
      await field.click()
      await page.keyboard.press('Control+a')
      await page.keyboard.type(text)
    }
    const wavelength = () => page.getByLabel('Wavelength', { exact: true })
    const scrap = () => page.getByLabel('Handling scrap, %', { exact: true })
    const readings = () => page.getByLabel('Readings, one per line')
    await type(wavelength(), '1550')
    await isSaved(page)

    const ends = {
      reload: async () => {
        await page.reload()
      },
      back: async () => {
        await page.goto('about:blank')
        await page.goBack()
      },
      close: async () => {
        const address = page.url()
        const next = await page.context().newPage()
        const closed = page.waitForEvent('close')
        page.on('dialog', (dialog) => void dialog.accept())
        await page.close({ runBeforeUnload: true })
        await closed
        page = next
        await page.goto(address)
      },
    } as const
    for (const [i, [how, end]] of Object.entries(ends).entries()) {
      await goTo(page, 'Requirements')
      await typeOver(wavelength(), `${1311 + i}`)
      await end()
      await expect.poll(() => wavelength().inputValue(), { message: how }).toBe(`${1311 + i} nm`)

      await goTo(page, 'Design')
      if (how === 'reload') {
        // Kept as a requirement is.
        await openTab(page, 'Assembly')
        await typeOver(scrap(), '17')
        await end()
        await expect.poll(() => scrap().inputValue()).toBe('17')
      }
      await openTab(page, 'Lifetime')
      await readings().press('Control+End')
      await page.keyboard.type(`\nA${i}, 0, 1.25`)
      await end()
      await expect.poll(() => readings().inputValue(), { message: how }).toContain(`A${i}, 0, 1.25`)
    }
  })

  test('brings back a table that cannot be read, with what is wrong, until it is mended', async () => {
    const { page, complaints } = await openApp(browser)
    await openTab(page, 'Fields')
    const shape = () => page.getByLabel(/^Mode shape of Standard/)
    await shape().selectOption('index profile')
    const table = () => page.getByLabel('Radius (µm) and index per line', { exact: false })
    const kept = await table().inputValue()
    await table().press('Control+End')
    await page.keyboard.type('\n40 glass')
    await page.keyboard.press('Tab')
    const complaint = () => page.getByText('Row 5 is "40 glass"; must be a radius in µm and an index')
    await complaint().waitFor()
    await isSaved(page)
    await page.reload()
    await expect.poll(() => table().inputValue()).toBe(`${kept}\n40 glass`)
    await complaint().waitFor()
    await table().fill(`${kept}\n40 1.444`)
    await table().blur()
    await complaint().waitFor({ state: 'detached' })
    await isSaved(page)
    await page.reload()
    await expect.poll(() => table().inputValue()).toMatch(/\n40\s+1\.444$/)
    expect(complaints).toEqual([])
  })

  test('keeps a pasted table until it is imported, through a discarded preview and a reload', async () => {
    const { page, complaints } = await openApp(browser, { at: 'measurements' })
    const table = () => page.getByLabel('Table to read')
    await page.getByText('Paste a table', { exact: true }).click()
    const power = (x: number) => 100 * Math.exp((-2 * x * x) / 25)
    const rows = Array.from({ length: 21 }, (_, i) => `${i / 2 - 5}\t${power(i / 2 - 5).toFixed(4)}`)
    const text = ['x [um]\tP [uW]', ...rows].join('\n')
    await table().fill(text)
    const read = () => page.getByRole('button', { name: 'Read the table' }).click()
    await read()
    await page.getByRole('button', { name: 'Discard' }).click()
    await takeButton(page).waitFor({ state: 'detached' })
    await expect.poll(() => table().inputValue()).toBe(text)
    await read()
    await takeButton(page).waitFor()
    await page.reload()
    await expect.poll(() => table().inputValue()).toBe(text)
    await read()
    await type(page.getByLabel('Probe MFD', { exact: true }), '4 um')
    await takeButton(page).click()
    await page.getByText('Uncertainty budget').waitFor()
    await expect.poll(() => table().inputValue()).toBe('')
    expect(complaints).toEqual([])
  })

  test('without a word comes back with all that was entered', async () => {
    const { page } = await openApp(browser)
    for (const value of ['11', '12', '13']) await type(gap(page), value)
    await isSaved(page)
    const loss = await nominal(page).textContent()
    const again = await page.context().newPage()
    await page.close({ runBeforeUnload: false })
    await again.goto(page.url())
    await expect.poll(() => gap(again).inputValue()).toBe('13 µm')
    await expect.poll(() => nominal(again).textContent()).toBe(loss)
  })

  test('keeps a long text up to the last moment though its field was never left, as one undo step', async () => {
    const { page, complaints } = await openApp(browser, { at: 'review' })
    const rationale = page.getByLabel('Rationale')
    const old = await rationale.inputValue()
    await rationale.focus()
    await page.keyboard.press('Control+End')
    await page.keyboard.type(' It survives.', { delay: 60 })
    const kept = async () =>
      ((await stored(page, 'modeseam-project')) as { review?: { reason?: string } } | undefined)?.review
        ?.reason
    await expect.poll(kept).toBe(`${old} It survives.`)
    const again = await page.context().newPage()
    await page.close({ runBeforeUnload: false })
    await again.goto(page.url())
    await expect.poll(() => again.getByLabel('Rationale').inputValue()).toBe(`${old} It survives.`)
    await again.getByLabel('Rationale').fill('Another reason altogether.')
    await again.getByLabel('Rationale').blur()
    await again.getByRole('button', { name: 'Undo' }).click()
    await expect.poll(() => again.getByLabel('Rationale').inputValue()).toBe(`${old} It survives.`)
    expect(complaints).toEqual([])
  })

  test('before anything has changed saves nothing', async () => {
    const { page } = await openApp(browser, { at: 'requirements' })
    await page.getByText('Not saved yet').waitFor()
    await page.reload()
    await page.getByText('Not saved yet').waitFor()
    expect(await stored(page, 'modeseam-project')).toBeUndefined()
  })
})

describe('a project that an earlier release has kept', () => {
  test('is shown at the start, and from the next change on is kept in records of its own', async () => {
    const { page, complaints } = await openApp(browser)
    await stored(page, 'modeseam-autosave', { ...demoProject(), name: 'From an earlier release' })
    await page.reload()
    await page.getByText('From an earlier release').first().waitFor()
    await type(gap(page), '12')
    await isSaved(page)
    await expect.poll(() => stored(page, 'modeseam-autosave')).toBeUndefined()
    await page.reload()
    await expect.poll(() => gap(page).inputValue()).toBe('12 µm')
    await page.getByText('From an earlier release').first().waitFor()
    expect(complaints).toEqual([])
  })
})

describe('a kept project that cannot be read', () => {
  test('is named at the start, can be downloaded, and survives later saves until it is deleted', async () => {
    const { page, complaints } = await openApp(browser)
    const broken = { schemaVersion: 'from another time', work: 'of a week' }
    await stored(page, 'modeseam-autosave', broken)
    await page.reload()
    const dialog = page.getByRole('dialog', { name: 'Recovered projects' })
    await dialog.getByText('could not be read').waitFor()
    expect(await faultsOf(page)).toEqual([])
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      dialog.getByRole('button', { name: 'Download' }).click(),
    ])
    expect(download.suggestedFilename()).toMatch(/recovered\.json$/)
    await dialog.getByRole('button', { name: 'Close' }).click()
    await type(gap(page), '12')
    await isSaved(page)
    await page.reload()
    await dialog.getByText('could not be read').waitFor()
    await expect.poll(() => gap(page).inputValue()).toBe('12 µm')
    expect(await stored(page, 'modeseam-set-aside')).toMatchObject([{ kept: broken }])
    await dialog.getByRole('button', { name: 'Delete' }).click()
    await dialog.getByRole('button', { name: 'Cancel' }).click()
    expect(await stored(page, 'modeseam-set-aside')).toMatchObject([{ kept: broken }])
    await dialog.getByRole('button', { name: 'Delete' }).click()
    await dialog.getByRole('button', { name: 'Delete permanently' }).click()
    await dialog.waitFor({ state: 'hidden' })
    await expect.poll(() => stored(page, 'modeseam-set-aside')).toEqual([])
    expect(complaints).toEqual([])
  })
})

describe('two tabs', () => {
  test('take turns: the second says who saves, shows what the first has saved, and continues from it', async () => {
    const { page, complaints } = await openApp(browser)
    await type(gap(page), '12')
    await isSaved(page)
    const second = await page.context().newPage()
    await second.goto(page.url())
    await second.getByText('another tab is saving this project').waitFor()
    await type(gap(page), '14')
    await isSaved(page)
    await page.close()
    await isSaved(second)
    await expect.poll(() => gap(second).inputValue()).toBe('14 µm')
    await type(gap(second), '15')
    await isSaved(second)
    await second.reload()
    await expect.poll(() => gap(second).inputValue()).toBe('15 µm')
    expect(complaints).toEqual([])
  })

  test('that were both changed lose nothing: the version of the first can be opened in the second', async () => {
    const { page, complaints } = await openApp(browser)
    await type(gap(page), '14')
    await isSaved(page)
    const second = await page.context().newPage()
    await second.goto(page.url())
    await second.getByText('another tab is saving this project').waitFor()
    await type(gap(second), '16')
    await type(gap(page), '15')
    await isSaved(page)
    await page.close()
    const dialog = second.getByRole('dialog', { name: 'Recovered projects' })
    await dialog.getByText('Another tab has saved this version').waitFor()
    expect(await gap(second).inputValue()).toBe('16 µm')
    await dialog.getByRole('button', { name: 'Open' }).click()
    await second.getByRole('button', { name: 'Continue without saving' }).click()
    await dialog.waitFor({ state: 'hidden' })
    await expect.poll(() => gap(second).inputValue()).toBe('15 µm')
    await second.getByRole('button', { name: 'Undo' }).click()
    await expect.poll(() => gap(second).inputValue()).toBe('16 µm')
    expect(complaints).toEqual([])
  })
})

const silentDatabase = () => {
  IDBFactory.prototype.open = () => new EventTarget() as IDBOpenDBRequest
}

describe('storage', () => {
  test('that is full is said in words, and leaving asks first', async () => {
    const { page } = await openApp(browser)
    await page.getByText('Not saved yet').waitFor()
    await page.evaluate(() => {
      IDBObjectStore.prototype.put = () => {
        throw new DOMException('no room', 'QuotaExceededError')
      }
    })
    await type(gap(page), '12')
    await page.getByText('browser storage is full. Save to a file.').waitFor()
    expect(await faultsOf(page)).toEqual([])
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('status').getByRole('button', { name: 'Save' }).click(),
    ])
    expect(download.suggestedFilename()).toMatch(/\.json$/)
    await type(gap(page), '13')
    const asked = page.waitForEvent('dialog')
    await page.evaluate(() => {
      setTimeout(() => location.reload())
    })
    const dialog = await asked
    expect(dialog.type()).toBe('beforeunload')
    await dialog.dismiss()
    await expect.poll(() => gap(page).inputValue()).toBe('13 µm')
  })

  test('that never answers is said in words within 5 s, and work goes on', async () => {
    const { page } = await openApp(browser, { before: (page) => beforeApp(page, silentDatabase) })
    await type(gap(page), '12')
    await page.getByText('browser storage is not responding').waitFor()
    await expect.poll(() => gap(page).inputValue()).toBe('12 µm')
  })
})
