// With the network cut, from a disk, and when a new version waits.

import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { pathToFileURL } from 'node:url'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { preview } from 'vite'
import { beforeAll, describe, expect, onTestFinished, test } from 'vitest'
import { evaluateCandidate } from '../../src/analysis/index'
import { demoProject } from '../../src/model/index'
import { lossText } from '../../src/model/quantity/lossText'
import { ownContext, sharedBrowser } from './support/browser'
import { goTo } from './support/screen'

let browser: Browser

beforeAll(async () => {
  browser = await sharedBrowser()
})

const complaintsOf = (page: Page): readonly string[] => {
  const complaints: string[] = []
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text())
  })
  page.on('pageerror', (error) => complaints.push(error.message))
  return complaints
}

/** A file picker of the system cannot be driven from here; without it files are saved by download. */
const withoutPicker = (context: BrowserContext) =>
  context.addInitScript(() => {
    for (const picker of ['showOpenFilePicker', 'showSaveFilePicker']) Reflect.deleteProperty(window, picker)
  })

/** A copy of the build that a test may change, served for itself. */
async function ownCopy() {
  const folder = mkdtempSync(join(tmpdir(), 'app-'))
  cpSync('dist', join(folder, 'dist'), { recursive: true })
  const server = await preview({
    root: folder,
    configFile: false,
    logLevel: 'error',
    preview: { port: 0, host: '127.0.0.1' },
  })
  onTestFinished(async () => {
    await server.close()
    rmSync(folder, { recursive: true, force: true })
  })
  return { dist: join(folder, 'dist'), url: server.resolvedUrls?.local[0] ?? '' }
}

/** Waits for the service worker; an install that has failed is tried again by opening the page again. */
async function workerReady(page: Page): Promise<void> {
  for (let attempt = 0; attempt < 3; attempt++) {
    const ready = await page.evaluate(() =>
      Promise.race([
        navigator.serviceWorker.ready.then(() => true),
        new Promise<boolean>((resolve) => setTimeout(() => resolve(false), 60_000)),
      ]),
    )
    if (ready) return
    await page.reload()
  }
  throw new Error('the service worker was not installed')
}

/** Everything that is not on the first page: screens, figures, runs in workers, a spreadsheet. */
async function walkThrough(page: Page): Promise<void> {
  const project = demoProject()
  await goTo(page, 'Design')
  const design = page.getByRole('button', { name: /High-NA stub, bonded/ }).first()
  const total = page.locator('tr[data-total="Nominal"] td').first()
  await design.click()
  await expect
    .poll(() => total.textContent())
    .toBe(lossText(evaluateCandidate(project, 'high-na-bonded').nominalDb))
  await page.getByRole('tab', { name: 'Yield' }).click()
  await page.getByLabel('Samples').selectOption('10000')
  await page.getByRole('button', { name: 'Run yield' }).click()
  await page.locator('[data-yield="yield"]').waitFor()
  await goTo(page, 'Measurements')
  await page.getByRole('button', { name: 'Near field of the facet' }).click()
  await page.getByRole('button', { name: 'Import' }).waitFor()
  await goTo(page, 'Review')
  await page.getByRole('combobox', { name: 'Selected design' }).selectOption('high-na-bonded')
  await page.locator('.review-sheet [data-section="yield"] figure').waitFor()
  await page.getByRole('tab', { name: 'Files', exact: true }).click()
  const download = page.waitForEvent('download')
  await page.getByRole('button', { name: 'Spreadsheet, live formulas' }).click()
  expect(
    readFileSync(await (await download).path())
      .subarray(0, 2)
      .toString(),
  ).toBe('PK')
}

describe('with the network cut', () => {
  test('the app opens again and does everything, once it was opened with it', async () => {
    const copy = await ownCopy()
    const context = await ownContext(browser)
    await withoutPicker(context)
    const page = await context.newPage()
    const complaints = complaintsOf(page)
    await page.goto(`${copy.url}#/requirements`)
    await workerReady(page)
    await context.setOffline(true)
    await page.reload()
    await walkThrough(page)
    expect(complaints).toEqual([])
  })
})

describe('a new version', () => {
  test('is offered and waits: a reload keeps the old one, and only a click starts the new', async () => {
    const copy = await ownCopy()
    const context = await ownContext(browser)
    const page = await context.newPage()
    await page.goto(`${copy.url}#/requirements`)
    await workerReady(page)
    await page.reload() // now the worker serves the page
    const index = join(copy.dist, 'index.html')
    writeFileSync(index, readFileSync(index, 'utf8').replace('<title>Modeseam', '<title>Newer Modeseam'))
    const worker = join(copy.dist, 'sw.js')
    // The build writes another revision of a changed file; here it is done by hand.
    writeFileSync(
      worker,
      readFileSync(worker, 'utf8')
        .replace(/(url:"index\.html",revision:")[^"]*/, '$1changed')
        .replace(/(revision:")[^"]*(",url:"index\.html")/, '$1changed$2'),
    )
    await page.reload()
    expect(await page.title()).toBe('Modeseam')
    await page.getByText('A new version is available.').waitFor()
    await page.emulateMedia({ media: 'print' })
    expect(await page.getByText('A new version is available.').isVisible()).toBe(false)
    await page.emulateMedia({ media: 'screen' })
    await page.reload()
    expect(await page.title()).toBe('Modeseam')
    await page.getByRole('button', { name: 'Reload now' }).click()
    await page.waitForFunction(() => document.title === 'Newer Modeseam')
    await goTo(page, 'Design')
    await page.getByRole('tab', { name: 'Tolerance' }).waitFor()
    await expect.poll(() => page.getByText('A new version is available.').count()).toBe(0)
  })
})

describe('the one file', () => {
  test('opens from a disk, asks for nothing else, and does everything', async () => {
    const context = await ownContext(browser, { offline: true })
    await withoutPicker(context)
    const page = await context.newPage()
    const complaints = complaintsOf(page)
    const asked: string[] = []
    page.on('request', (request) => asked.push(request.url()))
    const address = pathToFileURL(resolve('dist-single/index.html')).href
    await page.goto(address)
    await walkThrough(page)
    expect(asked.filter((url) => url !== address && !/^(data|blob):/.test(url))).toEqual([])
    expect(complaints).toEqual([])
  })
})
