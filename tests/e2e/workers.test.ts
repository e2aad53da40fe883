// Workers that are killed in the middle of a run, as the browser does when memory runs out: the page hears no event.

import type { Browser, Page } from 'playwright-core'
import { beforeAll, expect, test } from 'vitest'
import { openApp, sharedBrowser } from './support/browser'
import { clickOnceShown } from './support/clickOnceShown'
import { openTab } from './support/screen'

let browser: Browser

beforeAll(async () => {
  browser = await sharedBrowser()
})

const PATIENT = { timeout: 60_000 }

type Recorded = typeof globalThis & {
  workersMade?: Worker[]
  killedAtBirth?: number
  watch?: ReturnType<typeof setInterval>
}

/** Keeps every worker that the page makes from now on within reach. */
async function recordWorkers(page: Page): Promise<void> {
  await page.evaluate(() => {
    const all: Worker[] = []
    ;(globalThis as Recorded).workersMade = all
    globalThis.Worker = class extends Worker {
      constructor(url: string | URL, options?: WorkerOptions) {
        super(url, options)
        const at = globalThis as Recorded
        if ((at.killedAtBirth ?? 0) > 0) {
          at.killedAtBirth = (at.killedAtBirth ?? 0) - 1
          this.terminate()
        } else all.push(this)
      }
    }
  })
}

/** Ends the workers there are, and says how many there were. */
async function killWorkers(page: Page): Promise<number> {
  return page.evaluate(() => {
    const all = (globalThis as Recorded).workersMade ?? []
    for (const worker of all) worker.terminate()
    return all.splice(0).length
  })
}

/** Ends the workers each time the bar has moved on, until it is told to stop. */
async function killAtProgress(page: Page, bar: string): Promise<() => Promise<void>> {
  await page.evaluate((label) => {
    const at = globalThis as Recorded
    let last = 0
    at.watch = setInterval(() => {
      const value = document.querySelector<HTMLProgressElement>(`progress[aria-label="${label}"]`)?.value ?? 0
      if (value === last || value === 0) return
      last = value
      for (const worker of at.workersMade?.splice(0) ?? []) worker.terminate()
    }, 5)
  }, bar)
  return () => page.evaluate(() => clearInterval((globalThis as Recorded).watch))
}

test('a yield run whose workers are killed ends with a sentence, and can be started again', async () => {
  const { page } = await openApp(browser, { usualJobs: true })
  await page
    .getByRole('button', { name: /High-NA stub, bonded/ })
    .first()
    .click()
  await page.getByRole('tab', { name: 'Yield' }).click()
  await recordWorkers(page)
  const samples = page.getByLabel('Samples', { exact: true })
  await samples.selectOption('10000000')
  const stop = page.getByLabel('Stopping accuracy, ± dB')
  await stop.fill('0')
  await stop.press('Enter')
  await page.getByRole('button', { name: 'Run yield' }).click()
  await page.getByRole('button', { name: 'Cancel run' }).waitFor()
  // Each place of the crew is filled again once; the second loss is the run's.
  const ended = page.getByText('A background worker stopped before the run was complete.')
  const bar = page.getByRole('progressbar', { name: 'Samples done' })
  const progress = () => bar.evaluate((element) => (element as HTMLProgressElement).value)
  for (let loss = 0; loss < 2; loss++) {
    const before = await progress()
    await expect.poll(progress, PATIENT).toBeGreaterThan(before)
    expect(await killWorkers(page)).toBeGreaterThan(0)
  }
  await ended.waitFor(PATIENT)
  await samples.selectOption('10000')
  await page.getByRole('button', { name: 'Run yield' }).click()
  await page.locator('tr[data-yield="yield"]').first().waitFor(PATIENT)
})

test('an assembly run shows its progress, and once cancelled it stays so', async () => {
  const { page, complaints } = await openApp(browser, { asOpened: true, usualJobs: true })
  await openTab(page, 'Assembly')
  const panel = page.getByRole('region', { name: 'Assembly', exact: true })
  const start = panel.getByRole('button', { name: 'Run assembly' })
  const bar = panel.getByRole('progressbar', { name: 'Assemblies done' })
  const cancelled = await clickOnceShown(page, 'Assemblies done', 'Cancel run')
  await start.click()
  await cancelled()
  await panel.getByRole('status').filter({ hasText: 'Cancelled.' }).waitFor(PATIENT)
  await expect.poll(() => bar.count()).toBe(0)
  await start.waitFor(PATIENT)
  expect(complaints).toEqual([])
})

test('an assembly run whose workers are killed ends with a sentence; started again with one killed before it said anything, it is done', async () => {
  const { page, complaints } = await openApp(browser, { usualJobs: true })
  await page
    .getByRole('button', { name: /High-NA stub, bonded/ })
    .first()
    .click()
  await openTab(page, 'Assembly')
  const panel = page.getByRole('region', { name: 'Assembly', exact: true })
  const start = panel.getByRole('button', { name: 'Run assembly' })
  await recordWorkers(page)
  const stopKilling = await killAtProgress(page, 'Assemblies done')
  await start.click()
  await panel.getByText('A background worker stopped before the run was complete.').waitFor(PATIENT)
  expect(await panel.getByRole('button', { name: 'Cancel run' }).count()).toBe(0)
  await stopKilling()
  await page.evaluate(() => {
    ;(globalThis as Recorded).killedAtBirth = 1
  })
  await start.click()
  await panel.getByRole('table', { name: 'Whole sequence' }).waitFor(PATIENT)
  const left = await page.evaluate(() => (globalThis as Recorded).killedAtBirth)
  expect(left).toBe(0)
  expect(complaints).toEqual([])
})
