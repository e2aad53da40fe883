// The yield in a real browser: run, tighten, undo, repeat, cancel; on workers and without them.

import type { Browser, Page } from 'playwright-core'
import { beforeAll, describe, expect, test } from 'vitest'
import { runYield } from '../../src/analysis/index'
import { YIELD_DEFAULTS } from '../../src/analysis/yield/runYield'
import { demoProject } from '../../src/model/index'
import { shareText } from '../../src/ui/jobs/YieldNumbers'
import { beforeApp, openApp, sharedBrowser } from './support/browser'
import { field, goTo, showView } from './support/screen'

let browser: Browser

beforeAll(async () => {
  browser = await sharedBrowser()
})

const ID = 'high-na-bonded'
const PATIENT = { timeout: 60_000 }
const MANY_FRAMES = 60

async function openYield(page: Page): Promise<void> {
  await page
    .getByRole('button', { name: /High-NA stub, bonded/ })
    .first()
    .click()
  await page.getByRole('tab', { name: 'Yield' }).click()
  await page.getByRole('button', { name: 'Run yield', exact: true }).waitFor()
}

async function run(page: Page): Promise<void> {
  // A click takes its button away at once, and the end of the run brings it back; a short run may end before anybody looks.
  const start = page.getByRole('button', { name: 'Run yield', exact: true })
  await start.click()
  await start.waitFor()
}

const yieldCell = (page: Page) => page.locator('tr[data-yield="yield"] td').first()
const numbers = (page: Page) => page.locator('.yield-numbers tbody td:nth-of-type(1)').allTextContents()
const percent = async (page: Page) => Number.parseFloat((await yieldCell(page).textContent()) ?? '')

describe('a yield run', () => {
  test('shows what the core computes; the first tolerance tightened raises it; undo takes that back', async () => {
    const { page, complaints } = await openApp(browser)
    await openYield(page)
    const samples = page.getByLabel('Samples')
    await expect.poll(() => samples.inputValue()).toBe(String(YIELD_DEFAULTS.samples))
    // So few show what is asked here; the test of a broken worker compares a run of as many as there are without a choice.
    await samples.selectOption('10000')
    await run(page)
    const expected = runYield(demoProject(), ID, { samples: 10_000 })
    await expect.poll(() => yieldCell(page).textContent()).toBe(shareText(expected.yield))
    const before = await percent(page)
    await showView(page, 'Tolerance ranking')
    const first = page.locator('.ranking tbody tr').first()
    await expect.poll(() => first.getAttribute('data-tolerance')).toBe(expected.ranking[0]?.label)
    await first.getByRole('button', { name: /Halve/ }).click()
    await showView(page, 'Result')
    await expect.poll(() => percent(page), PATIENT).toBeGreaterThan(before)
    await page.getByRole('columnheader', { name: 'Previous run' }).waitFor()
    await expect
      .poll(() => page.locator('tr[data-yield="yield"] td').last().textContent())
      .toBe(shareText(expected.yield))
    await page.keyboard.press('Control+z')
    await page.getByText('Out of date: values have changed').waitFor()
    await run(page)
    await expect.poll(() => percent(page)).toBe(before)
    expect(complaints).toEqual([])
  })

  test('with the same seed twice gives identical numbers, with another seed others', async () => {
    const { page, complaints } = await openApp(browser)
    await openYield(page)
    await page.getByLabel('Samples').selectOption('10000')
    await run(page)
    const first = await numbers(page)
    await run(page)
    expect(await numbers(page)).toEqual(first)
    await showView(page, 'Settings')
    await page.getByLabel('Seed').fill('5')
    await page.getByLabel('Seed').press('Enter')
    await run(page)
    await showView(page, 'Result')
    await expect.poll(() => numbers(page)).not.toEqual(first)
    expect(complaints).toEqual([])
  })

  test('lets the page paint while it goes on; cancelled in the middle it leaves the last result, never half of one', async () => {
    const { page, complaints } = await openApp(browser, { usualJobs: true })
    await openYield(page)
    await page.getByLabel('Samples').selectOption('10000')
    await run(page)
    const first = await numbers(page)
    await showView(page, 'Settings')
    await page.getByLabel('Samples').selectOption('10000000')
    await page.getByRole('button', { name: 'Run yield', exact: true }).click()
    await expect
      .poll(() => page.getByRole('progressbar').getAttribute('value'), PATIENT)
      .toSatisfy((value) => Number(value) > 0)
    expect(page.workers().some((worker) => worker.url().includes('yieldWorker'))).toBe(true)
    const drawnBeforeItsEnd = await page.evaluate(
      (most) =>
        new Promise<number>((resolve) => {
          let frames = 0
          const frame = () => {
            if (frames === most || document.querySelector('progress') === null) resolve(frames)
            else requestAnimationFrame(frame)
            frames += 1
          }
          requestAnimationFrame(frame)
        }),
      MANY_FRAMES,
    )
    expect(drawnBeforeItsEnd).toBe(MANY_FRAMES)
    await page.getByRole('button', { name: 'Cancel run' }).click()
    await page.getByText('Cancelled.').waitFor()
    await showView(page, 'Result')
    await page.getByText('Out of date: the last run gave no result. This is the previous run.').waitFor()
    expect(await numbers(page)).toEqual(first)
    await showView(page, 'Settings')
    await page.getByLabel('Samples').selectOption('10000')
    await run(page)
    await showView(page, 'Result')
    await expect.poll(() => page.getByText('Out of date').count()).toBe(0)
    expect(complaints).toEqual([])
  })

  test('runs on the page itself where workers are blocked, with the same numbers', async () => {
    const { page, complaints } = await openApp(browser)
    await page.evaluate(() => Reflect.deleteProperty(window, 'Worker'))
    await openYield(page)
    await page.getByLabel('Samples').selectOption('10000')
    await run(page)
    const expected = runYield(demoProject(), ID, { samples: 10_000 })
    await expect.poll(() => yieldCell(page).textContent()).toBe(shareText(expected.yield))
    expect(complaints).toEqual([])
  })

  /** So many workers of a run break at their first job after being prepared, as one whose script throws does. */
  const breakWorkers = (count: number) => {
    const made: Worker[] = []
    Object.assign(window, { made })
    window.Worker = class extends Worker {
      constructor(url: string | URL, options?: WorkerOptions) {
        const source = `import ${JSON.stringify(String(url))}; let heard = 0; addEventListener('message', () => { if (++heard === 2) setTimeout(() => { throw new Error('it broke') }) })`
        const script = new Blob([source], { type: 'text/javascript' })
        // Fields and settings of the design that is shown have workers of their own.
        const isOfRun = String(url).includes('yieldWorker')
        super(isOfRun && made.length < count ? URL.createObjectURL(script) : url, options)
        if (isOfRun) made.push(this)
      }
    }
  }
  const openBroken = (broken: number) =>
    openApp(browser, {
      usualJobs: true,
      bypassPolicy: true,
      before: (page) => beforeApp(page, breakWorkers, broken),
    })
  const workersMade = (page: Page) =>
    page.evaluate(() => (window as unknown as { made: Worker[] }).made.length)
  const crew = (page: Page) => page.evaluate(() => Math.max(1, Math.min(2, navigator.hardwareConcurrency)))

  test('replaces a worker that breaks in the middle, and shows the same numbers', async () => {
    const { page } = await openBroken(1)
    await openYield(page)
    await page.getByLabel('Samples').selectOption('100000')
    await run(page)
    const expected = runYield(demoProject(), ID, { samples: 100_000 })
    await expect.poll(() => yieldCell(page).textContent()).toBe(shareText(expected.yield))
    expect(await workersMade(page)).toBeGreaterThan(await crew(page))
  })

  test('reports a worker that breaks a second time', async () => {
    const { page } = await openBroken(99)
    await openYield(page)
    await page.getByLabel('Samples').selectOption('10000000')
    await page.getByRole('button', { name: 'Run yield', exact: true }).click()
    await page.getByText('The run failed: Uncaught Error: it broke').waitFor(PATIENT)
    await expect.poll(() => page.locator('.yield-numbers').count()).toBe(0)
    await expect
      .poll(() => page.getByRole('button', { name: 'Run yield', exact: true }).isEnabled())
      .toBe(true)
  })

  test('answers for the percentile in the verdicts and on the sheet, until a number changes', async () => {
    const { page, complaints } = await openApp(browser, { at: 'requirements' })
    await page.getByLabel('Limit applies to').selectOption('percentile')
    await page.getByRole('button', { name: 'Add loss criterion' }).click()
    await page.getByLabel('Limit applies to 2').selectOption('percentile')
    await page.getByLabel('Channels included 2').selectOption('all')
    await goTo(page, 'Design')
    await openYield(page)
    await page.getByLabel('Samples').selectOption('10000')
    const verdict = page.locator('[data-verdict="loss"]')
    await expect.poll(() => verdict.getAttribute('data-status')).toBe('not known')
    await run(page)
    await expect.poll(() => verdict.getAttribute('data-status')).toBe('not met')
    const block = page.locator('[data-verdict="loss-2"]')
    await expect.poll(() => block.getAttribute('data-status')).toBe('not known')
    await goTo(page, 'Review')
    await page.getByLabel('Selected design', { exact: true }).selectOption(ID)
    await page.getByText('Actively aligned on power: offset x, offset y, roll').waitFor()
    await page.getByText(/points, seed 16537/).waitFor()
    await goTo(page, 'Design')
    await field(page, 'Gap').fill('4')
    await field(page, 'Gap').press('Enter')
    await expect.poll(() => verdict.getAttribute('data-status')).toBe('not known')
    expect(complaints).toEqual([])
  })

  test('is run, halved and run again by keyboard alone, and the focus stays where it was', async () => {
    const { page, complaints } = await openApp(browser)
    await openYield(page)
    await page.getByLabel('Samples').selectOption('10000')
    const focused = () => page.evaluate(() => document.activeElement?.textContent)
    await page.getByRole('button', { name: 'Run yield', exact: true }).focus()
    await page.keyboard.press('Enter')
    await page.locator('.yield-numbers').waitFor()
    await expect.poll(focused, PATIENT).toBe('Run yield')
    await showView(page, 'Tolerance ranking')
    const halve = page.locator('.ranking tbody tr').first().getByRole('button', { name: /Halve/ })
    const name = await halve.textContent()
    const tolerance = (await page.locator('.ranking tbody tr th').first().textContent()) ?? ''
    const width = () =>
      page.locator('.ranking tbody tr').filter({ hasText: tolerance }).locator('td').first().textContent()
    const before = await width()
    await halve.focus()
    await page.keyboard.press('Enter')
    await expect.poll(width, PATIENT).not.toBe(before)
    await expect.poll(focused, PATIENT).toBe(name)
    expect(complaints).toEqual([])
  })

  test('opens its worst assembly as a design that loses what the list says', async () => {
    const { page, complaints } = await openApp(browser)
    await openYield(page)
    await page.getByLabel('Samples').selectOption('10000')
    await run(page)
    await showView(page, 'Worst assemblies')
    const row = page.locator('.worst-samples tbody tr').first()
    const index = await row.locator('td').first().textContent()
    await row.getByRole('button').click()
    await page.getByRole('heading', { level: 1, name: `High-NA stub, bonded, sample ${index}` }).waitFor()
    // Back to the design that it was opened from.
    await page.keyboard.press('Control+z')
    await page.getByRole('heading', { level: 1, name: 'High-NA stub, bonded', exact: true }).waitFor()
    expect(complaints).toEqual([])
  })
})

describe('array and temperature', () => {
  test('are reached by arrow keys and run', async () => {
    const { page, complaints } = await openApp(browser)
    await openYield(page)
    await page.keyboard.press('ArrowRight')
    await page.getByRole('button', { name: 'Run array' }).click()
    await page.locator('tr[data-aim="worst channel"]').waitFor()
    await page.getByText('All channels within 2 dB').waitFor()
    const all = page.locator('tr[data-aim="worst channel"] strong')
    const before = Number.parseFloat((await all.textContent()) ?? '')
    await showView(page, 'Tolerance ranking')
    await page
      .getByRole('table', { name: 'Tolerances by effect on all-channel yield' })
      .locator('tbody button')
      .first()
      .click()
    await showView(page, 'Result')
    await page.getByRole('columnheader', { name: 'Previous run' }).waitFor(PATIENT)
    await expect.poll(async () => Number.parseFloat((await all.textContent()) ?? '')).toBeGreaterThan(before)
    await page.getByRole('tab', { name: 'Array' }).focus()
    await page.keyboard.press('ArrowRight')
    await page.getByText('Displacement since assembly').waitFor()
    await page.keyboard.press('Home')
    await page.getByRole('region', { name: 'Tolerance' }).waitFor()
    expect(complaints).toEqual([])
  })
})
