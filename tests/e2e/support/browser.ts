// The app as an end-to-end test sees it: a fresh profile, and everything the page complains about.

import type { Browser, Page } from 'playwright-core'
import { inject, onTestFinished } from 'vitest'

export interface OpenApp {
  readonly page: Page
  /** Everything the page complained about; a test ends by finding it empty. */
  readonly complaints: readonly string[]
}

/** A fresh profile with the app open at its demo, at the plain cleaved fibre unless it is wanted as it opens. */
export async function openApp(
  browser: Browser,
  { blockStorage = false, asOpened = false, rerun = false, bypassPolicy = false } = {},
): Promise<OpenApp> {
  const context = await browser.newContext({
    viewport: { width: 1280, height: 800 },
    acceptDownloads: true,
    bypassCSP: bypassPolicy,
  })
  // Pages that a finished test has left open would go on working beside the next one.
  onTestFinished(() => context.close())
  if (blockStorage) {
    await context.addInitScript(() => {
      IDBFactory.prototype.open = () => {
        throw new DOMException('blocked', 'SecurityError')
      }
    })
  }
  // Most tests look at what an outdated run leaves behind.
  if (!rerun) {
    await context.addInitScript(() => {
      try {
        localStorage.setItem('modeseam-rerun', 'off')
      } catch {
        // blocked on purpose
      }
    })
  }
  // A file picker of the system cannot be driven from here; without it the app saves by download.
  await context.addInitScript(() => {
    for (const picker of ['showOpenFilePicker', 'showSaveFilePicker']) Reflect.deleteProperty(window, picker)
  })
  const page = await context.newPage()
  const complaints: string[] = []
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text())
  })
  page.on('pageerror', (error) => complaints.push(error.message))
  await page.goto(inject('appUrl'))
  await page.getByRole('main').waitFor()
  // The demo opens on its best design; most jobs begin with the plainest.
  if (!asOpened) await page.getByRole('button', { name: /^Cleaved fibre, dry/ }).click()
  return { page, complaints }
}
