// Whole ways through the built app in headless Chromium, from the first request to the answer: a new project to its ranked
// comparison, and the demo to its printed review with every run in it. Needs a build (npm run build). Wall time: a busy machine
// makes it longer, and the fixed loop of timing.ts says how busy it is.

import type { Page } from 'playwright-core'
import { preview } from 'vite'
import { launchBrowser } from '../e2e/support/launch'
import { fixedLoopMs, printVerdict } from './timing'

const COMPARISON_LIMIT_S = 60
const REVIEW_LIMIT_S = 20
const LONGEST_WAIT_MS = 300_000

async function rankedComparison(page: Page): Promise<void> {
  await page.getByRole('button', { name: /^Project: / }).click()
  await page.getByRole('menuitem', { name: 'New' }).click()
  await page.getByLabel('Loss limit', { exact: true }).fill('1.5')
  await page.getByRole('button', { name: 'Build and compare' }).click()
  await page.getByText(/^7 designs, (none meets|1 meets|\d meet) every requirement$/).waitFor()
  const verdicts = page.getByRole('table', { name: 'Comparison' }).locator('tr[data-row="verdict-loss"]')
  await verdicts.filter({ hasNotText: 'not evaluated' }).waitFor()
}

async function printedReview(page: Page): Promise<void> {
  await page
    .getByRole('navigation', { name: 'Pages' })
    .getByRole('button', { name: 'Review', exact: true })
    .click()
  const run = page.getByRole('button', { name: /^Run missing simulations/ })
  await run.click()
  await run.waitFor({ state: 'detached' })
  await page
    .getByRole('region', { name: 'Review settings' })
    .locator('progress')
    .first()
    .waitFor({ state: 'detached' })
  const { length } = await page.pdf({ preferCSSPageSize: true })
  if (length === 0) throw new Error('nothing was printed')
}

const server = await preview({ preview: { port: 0, host: '127.0.0.1' }, logLevel: 'error' })
const browser = await launchBrowser()

/** Seconds of a way through the app, opened for the first time. */
async function secondsOf(way: (page: Page) => Promise<void>): Promise<number> {
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } })
  page.setDefaultTimeout(LONGEST_WAIT_MS)
  const start = performance.now()
  await page.goto(server.resolvedUrls?.local[0] ?? '')
  await page.getByRole('main').waitFor()
  await way(page)
  const seconds = (performance.now() - start) / 1000
  await page.close()
  return seconds
}

try {
  const comparison = await secondsOf(rankedComparison)
  const review = await secondsOf(printedReview)
  console.log(`  fixed loop ${fixedLoopMs().toFixed(0)} ms`)
  const claim = (what: string, seconds: number, limit: number) =>
    printVerdict(`${what} in ${seconds.toFixed(1)} s, at most ${limit} s`, seconds <= limit)
  claim('from New to a ranked comparison', comparison, COMPARISON_LIMIT_S)
  claim('from the first request to a printed review of the demo with every run', review, REVIEW_LIMIT_S)
} finally {
  await browser.close()
  await server.close()
}
