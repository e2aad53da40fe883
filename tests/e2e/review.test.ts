// The review in a real browser: what is shown, printed and saved is what the core computes.

import { readFileSync } from 'node:fs'
import type { Browser, Page } from 'playwright-core'
import { beforeAll, describe, expect, test } from 'vitest'
import { evaluateCandidate, runYield } from '../../src/analysis/index'
import { demoProject, projectText } from '../../src/model/index'
import { projectChecksum } from '../../src/report/canonical'
import { FORMATS } from '../../src/report/formats'
import { sheetRows } from '../../src/report/formats/sheetRows'
import { HOSTILE_NAMES, hostileProject, LONG_TEXTS } from '../report/support/hostile'
import { longProject } from '../report/support/longProject'
import {
  csvRows,
  expectedRows,
  expectedTexts,
  htmlTexts,
  jsonRows,
  markdownRows,
  type Row,
  trimmed,
  workbookRows,
} from '../report/support/readBack'
import { sheetOf } from '../report/support/sheets'
import { openApp, sharedBrowser } from './support/browser'
import { drop, textFile } from './support/drop'
import { hold } from './support/hold'
import { showPart } from './support/parts'
import { goTo } from './support/screen'

let browser: Browser

beforeAll(async () => {
  browser = await sharedBrowser()
})

async function openSheet(page: Page): Promise<void> {
  await goTo(page, 'Review')
  await page.locator('.review-sheet [data-section="job"]').waitFor()
}

/** The same once nothing of it is computed any longer. */
async function openFinalSheet(page: Page): Promise<void> {
  await openSheet(page)
  await page.locator('.sheet-preview[aria-busy="false"]').waitFor()
}

/** A tab of the settings next to the document. */
const openSettings = (page: Page, name: 'Decision' | 'Sections' | 'Revisions' | 'Files') =>
  page.getByRole('tablist', { name: 'Review settings' }).getByRole('tab', { name, exact: true }).click()

async function saved(page: Page, button: string): Promise<Buffer> {
  const download = page.waitForEvent('download')
  await page.getByRole('button', { name: button, exact: true }).click()
  return readFileSync(await (await download).path())
}

const MEDIA_BOX = { A4: /MediaBox \[0 0 594\.9\d* 841\.\d+\]/, Letter: /MediaBox \[0 0 612 792\]/ } as const

/** Pages of the document as it is on screen, printed on that paper, which must be its own. */
async function pagesPrinted(page: Page, paper: keyof typeof MEDIA_BOX): Promise<number> {
  const pdf = (await page.pdf({ preferCSSPageSize: true })).toString('latin1')
  expect(pdf).toMatch(MEDIA_BOX[paper])
  return pdf.match(/\/Type\s*\/Page[^s]/g)?.length ?? 0
}

/** A browser's sines and logarithms may differ from Node's in their last digits. */
function expectSame(rows: readonly Row[], expected: readonly Row[]): void {
  expect(rows.map((row) => row.map((cell) => typeof cell))).toEqual(
    expected.map((row) => row.map((cell) => typeof cell)),
  )
  for (const [i, row] of rows.entries()) {
    for (const [column, cell] of row.entries()) {
      const other = expected[i]?.[column]
      if (typeof cell === 'number') expect(cell, `row ${i}`).toBeCloseTo(Number(other), 9)
      else expect(cell).toBe(other)
    }
  }
}

const shownDate = (page: Page) => page.locator('.review-sheet dd').nth(1).textContent()

describe('the files of the sheet', () => {
  test('are saved in every format, and each says what the page shows and the core computes', async () => {
    const { page, complaints } = await openApp(browser)
    await openFinalSheet(page)
    const date = (await shownDate(page)) ?? ''
    const sheet = sheetOf(demoProject(), { date })
    const isTableRow = sheetRows(sheet).map(({ kind }) => kind === 'row' || kind === 'total')
    const shown = await page
      .locator('.review-sheet tbody tr')
      .evaluateAll((rows) => rows.map((row) => Array.from(row.children, (cell) => cell.textContent ?? '')))
    expect(shown).toEqual(expectedTexts(sheet))
    await openSettings(page, 'Files')
    const file = async (id: string) => saved(page, FORMATS.find((each) => each.id === id)?.label ?? '')
    const rows = csvRows((await file('csv')).toString('utf8'), sheet)
    expectSame(rows, expectedRows(sheet))
    expect(markdownRows((await file('md')).toString('utf8'))).toEqual(shown)
    expect(htmlTexts((await file('html')).toString('utf8'))).toEqual(shown)
    const json = (await file('json')).toString('utf8')
    expect(JSON.parse(json)).toMatchObject({ checksum: projectChecksum(demoProject()), date })
    expect(jsonRows(json).map(trimmed)).toEqual(rows.filter((_, i) => isTableRow[i]))
    expect(await workbookRows(await file('xlsx'))).toEqual(rows)
    expect(complaints).toEqual([])
  })

  test('hold its figures as vectors, pictures and numbers', async () => {
    const { page, complaints } = await openApp(browser, { at: 'review' })
    await openSheet(page)
    await openSettings(page, 'Files')
    const figure = page.getByLabel('Figure', { exact: true })
    await figure.selectOption(await figure.locator('option[value^="section-"]').first().getAttribute('value'))
    const svg = (await saved(page, 'Figure as SVG')).toString('utf8')
    expect(svg).toMatch(/^<svg (?=[^>]*xmlns="http:\/\/www.w3.org\/2000\/svg")[^>]* width="960"/)
    const png = await saved(page, 'Figure as PNG')
    expect([...png.subarray(0, 4)]).toEqual([0x89, 0x50, 0x4e, 0x47])
    expect(png.readUInt32BE(16)).toBe(1920)
    const csv = (await saved(page, 'Figure data as CSV')).toString('utf8')
    expect(csv.split('\r\n')[0]).toBe('Dimension,"Value, µm"')
    expect(complaints).toEqual([])
  })
})

test('while fields of real joints are computed the document is provisional and is neither printed by its button nor saved', async () => {
  let release = () => {}
  const before = async (page: Page) => {
    release = await hold(page, '**/fieldWorker*')
  }
  const { page, complaints } = await openApp(browser, { at: 'review', before })
  await openSheet(page)
  const print = page.getByRole('button', { name: 'Print or PDF', exact: true })
  const settings = page.getByRole('region', { name: 'Review settings' })
  await settings.getByText('Computing real fields…', { exact: true }).waitFor()
  expect(await print.isDisabled()).toBe(true)
  await openSettings(page, 'Files')
  expect(await page.getByRole('button', { name: 'CSV', exact: true }).isDisabled()).toBe(true)
  // A browser's own print command cannot be held: what it prints says what it is.
  const document = page.locator('.review-sheet')
  await document.getByText('Loss budget for design review: PROVISIONAL, not for signature').waitFor()
  expect(await document.getByText('RSS, provisional', { exact: true }).count()).toBeGreaterThan(0)
  expect(await document.locator('.signatures').count()).toBe(0)
  // A button that came and went would lose a click.
  await page.evaluate(() => {
    const changes: string[] = []
    Object.assign(window, { buttonChanges: changes })
    const button = globalThis.document.querySelector<HTMLButtonElement>('.sheet-buttons button')
    if (button === null) throw new Error('a button for a file')
    const note = () => changes.push(button.disabled ? 'off' : 'on')
    new MutationObserver(note).observe(button, { attributeFilter: ['disabled'] })
  })
  release()
  await document.locator('.signatures').waitFor()
  await expect.poll(() => document.getByText(/provisional/i).count()).toBe(0)
  await expect.poll(() => print.isEnabled()).toBe(true)
  await expect.poll(() => page.getByRole('button', { name: 'CSV', exact: true }).isEnabled()).toBe(true)
  expect(await page.evaluate(() => (window as { buttonChanges?: readonly string[] }).buttonChanges)).toEqual([
    'on',
  ])
  expect(complaints).toEqual([])
})

test('what is missing is run by one button until the document asks for nothing more', async () => {
  const { page, complaints } = await openApp(browser)
  await openSheet(page)
  const run = page.getByRole('button', { name: /^Run missing simulations/ })
  await run.click()
  const busy = page.getByRole('region', { name: 'Review settings' }).locator('progress')
  await busy.first().waitFor()
  // Between two simulations nothing is busy and the button is back: both are asked about in one look.
  await expect.poll(() => busy.or(run).count(), { timeout: 120_000 }).toBe(0)
  const row = page.locator('.review-sheet [data-mark="summary-percentile-0.95"]').first()
  const { p95Db } = runYield(demoProject(), 'ssc-chip', { samples: 20_000 })
  await expect.poll(() => row.locator('td').first().textContent()).toBe(p95Db.toFixed(2))
  expect(await page.locator('.review-sheet [data-section="summary"]').getByText('no run').count()).toBe(0)
  await page.emulateMedia({ media: 'print' })
  expect(await pagesPrinted(page, 'A4')).toBeLessThanOrEqual(8)
  await page.addStyleTag({ content: '@page { size: letter !important; }' })
  expect(await pagesPrinted(page, 'Letter')).toBeLessThanOrEqual(8)
  expect(complaints).toEqual([])
})

describe('a figure of another screen', () => {
  test('is saved as vectors, as a picture and as its numbers', async () => {
    const { page, complaints } = await openApp(browser)
    const tolerance = page.getByRole('region', { name: 'Tolerance' })
    // The curves are below the map and are drawn once they are scrolled to.
    await tolerance.locator('.tolerance-first + div').first().scrollIntoViewIfNeeded()
    const plot = tolerance.locator('[data-figure="loss-curve"]')
    await plot.locator('.figure-chart svg path').first().waitFor({ state: 'attached' })
    const file = async (button: string) => {
      const download = page.waitForEvent('download')
      await plot.getByRole('button', { name: button }).click()
      return readFileSync(await (await download).path())
    }
    expect((await file('Save as SVG')).toString('utf8')).toMatch(/^<svg /)
    expect((await file('Save as PNG')).subarray(1, 4).toString()).toBe('PNG')
    expect((await file('Save as CSV')).toString('utf8').split('\r\n')[0]).toBe('"Offset x, µm","Loss, dB"')
    expect(complaints).toEqual([])
  })
})

describe('what the engineer decides', () => {
  test('shows at once on the sheet: choice, reason, ticks, remarks, questions and who signs', async () => {
    const { page, complaints } = await openApp(browser, { at: 'review' })
    await openSheet(page)
    const sheet = page.locator('.review-sheet')
    await page.getByRole('combobox', { name: 'Selected design' }).selectOption('Cleaved fibre, dry')
    await page.getByLabel('Rationale').fill('No splice, no adhesive.')
    await page.getByLabel('Rationale').blur()
    await sheet.getByText('No splice, no adhesive.').first().waitFor()
    await openSettings(page, 'Sections')
    await page.getByRole('checkbox', { name: 'Order list' }).uncheck()
    await sheet.locator('[data-section="order"]').waitFor({ state: 'detached' })
    await page.getByRole('button', { name: 'Comment on Requirements and application' }).click()
    await page
      .getByRole('textbox', { name: 'Comment on Requirements and application' })
      .fill('Agreed in March.\nBand may widen.')
    await page.getByRole('textbox', { name: 'Comment on Requirements and application' }).blur()
    await sheet.locator('[data-section="job"] .remark', { hasText: 'Band may widen.' }).waitFor()
    await openSettings(page, 'Decision')
    await page.getByLabel('Signatories, by role').fill('Reviewer\nStation lead')
    await page.getByLabel('Signatories, by role').blur()
    await sheet.locator('.signatures', { hasText: 'Station lead' }).waitFor()
    await page.keyboard.press('Control+z')
    await sheet.locator('.signatures', { hasText: 'Packaging engineer' }).waitFor()
    expect(complaints).toEqual([])
  })
})

describe('revisions', () => {
  test('are kept with a name, compared with effects one by one and together, and restored as one undo step', async () => {
    const { page, complaints } = await openApp(browser, { at: 'review' })
    await openSheet(page)
    const sheet = page.locator('.review-sheet')
    await openSettings(page, 'Revisions')
    await page.getByLabel('Name of the new revision').fill('A')
    await page.getByLabel('Name of the new revision').press('Enter')
    await page.getByRole('button', { name: 'Save revision' }).click()
    await page.getByText('A saved').waitFor()
    const facet = await showPart(page, 'Silicon-nitride facet')
    await facet.getByLabel('MFD x', { exact: true }).fill('4.2')
    await facet.getByLabel('MFD x', { exact: true }).press('Enter')
    await openSheet(page)
    await openSettings(page, 'Revisions')
    await page.getByLabel('Compare with', { exact: true }).selectOption('A')
    const row = sheet.locator('[data-section="changes"] tbody tr').first()
    await row.waitFor()
    const changed = demoProject()
    changed.facets[0]!.mfdX.value = 4.2
    const chosenId = 'ssc-chip'
    const added =
      evaluateCandidate(changed, chosenId).nominalDb - evaluateCandidate(demoProject(), chosenId).nominalDb
    await expect.poll(() => row.locator('th').textContent()).toBe('Silicon-nitride facet: MFD x')
    await expect.poll(() => row.locator('td').nth(2).textContent()).toBe(added.toFixed(3).replace('-', '−'))
    const together = sheet.locator('[data-mark="changes-together"] td').nth(2)
    await expect.poll(() => together.textContent()).toBe(added.toFixed(3).replace('-', '−'))
    const nominal = sheet.locator('[data-section="budget"] [data-mark="total-Nominal"] td').first()
    const after = await nominal.textContent()
    await page.getByLabel('Revision shown').selectOption('A')
    await expect.poll(() => shownRevision(page)).toBe('A')
    await page.getByLabel('Revision shown').selectOption('current state')
    await page.getByRole('button', { name: 'Restore A' }).click()
    await expect.poll(() => nominal.textContent()).not.toBe(after)
    await page.keyboard.press('Control+z')
    await expect.poll(() => nominal.textContent()).toBe(after)
    expect(complaints).toEqual([])
  })
})

const shownRevision = (page: Page) => page.locator('.review-sheet dd').first().textContent()

describe('on paper', () => {
  test.each(['A4', 'Letter'] as const)(
    '%s: the demo and a long project lie within the page, with numbered pages',
    async (paper) => {
      const { page, complaints } = await openApp(browser, { at: 'review' })
      for (const project of [demoProject(), longProject()]) {
        const text = projectText({ ...project, review: { ...project.review, paper } })
        await drop(page, textFile('project.json', text))
        await openSheet(page)
        await expect.poll(() => page.locator('.review-sheet h1').textContent()).toBe(project.name)
        await page.emulateMedia({ media: 'print' })
        // What is left of the paper between margins of 15 mm, at 96 pixels an inch.
        const widthPx = Math.floor(((paper === 'A4' ? 210 : 215.9) - 30) * (96 / 25.4))
        await page.setViewportSize({ width: widthPx, height: 1000 })
        const outside = await page
          .locator('.review-sheet :is(h1, h2, h3, p, ul, li, table, td, th, figure, svg)')
          .evaluateAll(
            (elements, width) =>
              elements
                .filter(
                  (element) =>
                    !element.parentElement?.closest('svg') &&
                    element.getBoundingClientRect().right > width + 0.5,
                )
                .map((element) => element.outerHTML.slice(0, 80)),
            widthPx,
          )
        expect(outside).toEqual([])
        // The first page is one page, and says what it says of the demo without an ellipsis.
        const summary = page.locator('.review-sheet [data-section="summary"]')
        const heightPx = ((paper === 'A4' ? 297 : 279.4) - 30) * (96 / 25.4)
        expect(await summary.evaluate((own) => own.getBoundingClientRect().height)).toBeLessThan(heightPx)
        if (project.name === demoProject().name) {
          const cut = await summary
            .locator('td, th, li, p')
            .evaluateAll((texts) =>
              texts
                .filter((each) => each.textContent.includes('…') || each.scrollHeight > each.clientHeight + 2)
                .map((each) => each.textContent),
            )
          expect(cut).toEqual([])
        }
        // A stroked letter of the embedded font is a black blot in a PDF; texts of neighbouring cells keep apart.
        const strokes = await page
          .locator('.review-sheet svg text')
          .evaluateAll((texts) => [...new Set(texts.map((each) => getComputedStyle(each).stroke))])
        expect(strokes).toEqual(['none'])
        const crossing = await page
          .locator('.review-sheet td')
          .evaluateAll((cells) =>
            cells
              .filter(
                (cell) =>
                  cell.scrollWidth > cell.clientWidth + 1 && !cell.closest('[data-section="summary"]'),
              )
              .map((cell) => cell.textContent),
          )
        expect(crossing).toEqual([])
        expect(await pagesPrinted(page, paper)).toBeGreaterThan(1)
        await page.emulateMedia({ media: 'screen' })
        await page.setViewportSize({ width: 1280, height: 800 })
      }
      expect(complaints).toEqual([])
    },
  )
})

describe('hostile text', () => {
  test('of every kind stays text on the page, and pushes no table off it', async () => {
    const { page, complaints } = await openApp(browser, { at: 'review' })
    let dialogs = 0
    page.on('dialog', (dialog) => {
      dialogs += 1
      void dialog.dismiss()
    })
    await openSheet(page)
    for (const [kind, name] of Object.entries(HOSTILE_NAMES)) {
      const project = hostileProject(name, LONG_TEXTS[0] ?? '')
      await drop(page, textFile('project.json', projectText(project)))
      await expect.poll(() => page.locator('.review-sheet h1').textContent(), { message: kind }).toBe(name)
      await expect
        .poll(() => page.locator('.review-sheet :is(script, img, iframe, a)').count(), { message: kind })
        .toBe(0)
      const outside = await page
        .locator('.review-sheet table')
        .evaluateAll(
          (tables) => tables.filter((table) => table.getBoundingClientRect().right > innerWidth).length,
        )
      expect(outside, kind).toBe(0)
    }
    expect(dialogs).toBe(0)
    expect(complaints).toEqual([])
  })
})
