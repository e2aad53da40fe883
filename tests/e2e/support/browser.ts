// The app as an end-to-end test sees it: a fresh profile, and everything the page complains about.

import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright-core'
import { inject, onTestFinished } from 'vitest'
import { launchBrowser } from './launch'
import type { PageName } from './screen'

export interface OpenApp {
  readonly page: Page
  /** Everything the page complained about; a test ends by finding it empty. */
  readonly complaints: readonly string[]
}

interface Opening {
  /** The browser's database throws on every use. */
  readonly blockStorage?: boolean
  /** At the demo's best design, not at the plain cleaved fibre. */
  readonly asOpened?: boolean
  /** At another page, where no design is drawn and only the first is evaluated: it opens in a third of the time. */
  readonly at?: Lowercase<Exclude<PageName, 'Design'>>
  /** Outdated runs start again by themselves. */
  readonly rerun?: boolean
  readonly bypassPolicy?: boolean
  /** Needed by a test whose own init scripts would stay with the page. */
  readonly ownProfile?: boolean
}

const VIEWPORT = { width: 1280, height: 800 }
/** A busy machine may take longer than the 30 s of the tool. */
export const LONGEST_WAIT_MS = 60_000

/**
 * Pages live for seconds here: the slowest of the compilers costs more than its code saves, even where runs of the yield and
 * solved modes fill the time; so do compilers and collectors of garbage on further threads.
 */
const SHORT_LIVED = ['--js-flags=--single-threaded --no-turbofan --initial-heap-size=256']

let shared: Browser | undefined

/** The browser of this worker, for all of its test files; it ends with the worker. */
export async function sharedBrowser(): Promise<Browser> {
  if (shared?.isConnected() !== true) shared = await launchBrowser(SHORT_LIVED)
  return shared
}

/** The app open at its demo, at the plain cleaved fibre unless it is wanted as it opens; the profile holds nothing. */
export async function openApp(browser: Browser, opening: Opening = {}): Promise<OpenApp> {
  const { blockStorage, rerun, bypassPolicy, ownProfile, asOpened, at } = opening
  const page =
    blockStorage || rerun || bypassPolicy || ownProfile
      ? await ownPage(browser, opening)
      : await lentPage(browser)
  const complaints: string[] = []
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text())
  })
  page.on('pageerror', (error) => complaints.push(error.message))
  // The demo opens on its best design; most jobs begin with the plainest, by its address, so that no other is drawn before it.
  const address = at ?? (asOpened ? '' : 'design/cleaved-dry/tolerance')
  await page.goto(`${inject('appUrl')}${address && `#/${address}`}`)
  await page.getByRole('main').waitFor()
  if (at !== undefined) {
    await ready(page)
    return { page, complaints }
  }
  if (!asOpened)
    await page.getByRole('heading', { level: 1, name: /^Cleaved fibre, dry/ }).waitFor({ state: 'attached' })
  await whole(page)
  return { page, complaints }
}

/**
 * Waits for what comes a moment after the first picture: a key, a pointer or a look that comes before it meets another page.
 * The first design must be shown with its tolerances.
 */
export async function whole(page: Page): Promise<void> {
  await page.locator('.tolerance-map canvas').waitFor()
  await ready(page)
}

/** The same of a page other than Design. */
async function ready(page: Page): Promise<void> {
  await page.locator('.verdict-strip').waitFor()
  // Marked by the glossary.
  await page.locator('[data-asks]').first().waitFor({ state: 'attached' })
  await listening(page)
}

/** Waits until what is on the page has its listeners: they come after the picture, before the page has nothing to do. */
export async function listening(page: Page): Promise<void> {
  await page.evaluate(() => new Promise((done) => requestIdleCallback(done)))
}

/** A profile that is not one of `openApp`; it ends with the test. */
export async function ownContext(
  browser: Browser,
  options: BrowserContextOptions = {},
): Promise<BrowserContext> {
  const context = await browser.newContext({ viewport: VIEWPORT, ...options })
  context.setDefaultTimeout(LONGEST_WAIT_MS)
  onTestFinished(() => context.close())
  return context
}

async function newPage(browser: Browser, { blockStorage, rerun, bypassPolicy }: Opening): Promise<Page> {
  const context = await browser.newContext({
    viewport: VIEWPORT,
    acceptDownloads: true,
    bypassCSP: bypassPolicy ?? false,
  })
  context.setDefaultTimeout(LONGEST_WAIT_MS)
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
        // blocked on purpose, or no page of the app
      }
    })
  }
  await context.addInitScript(() => {
    // A file picker of the system cannot be driven from here; without it the app saves by download.
    for (const picker of ['showOpenFilePicker', 'showSaveFilePicker']) Reflect.deleteProperty(window, picker)
    // It would copy the whole app into every fresh profile; offline.test.ts is about it.
    Reflect.deleteProperty(Navigator.prototype, 'serviceWorker')
  })
  return context.newPage()
}

async function ownPage(browser: Browser, opening: Opening): Promise<Page> {
  const page = await newPage(browser, opening)
  // Pages that a finished test has left open would continue to work alongside the next one.
  onTestFinished(() => page.context().close())
  return page
}

/** The page that the last test has given back: a process that has read the app once opens it in half the time. */
let spare: Page | undefined

async function lentPage(browser: Browser): Promise<Page> {
  const lent = spare ?? (await newPage(browser, {}))
  spare = undefined
  onTestFinished(async ({ task }) => {
    // A test that ran out of time goes on: its page is not for the next one.
    const emptied = task.result?.state !== 'fail' && (await cleared(lent).catch(() => false))
    if (emptied && spare === undefined) spare = lent
    else await lent.context().close()
  })
  return lent
}

/** Leaves the app and takes away everything that a test can have left in the profile; false if the page is gone. */
async function cleared(page: Page): Promise<boolean> {
  const context = page.context()
  for (const event of ['console', 'pageerror', 'dialog', 'request'] as const) page.removeAllListeners(event)
  for (const other of context.pages()) if (other !== page) await other.close()
  if (page.isClosed()) return false
  await page.mouse.move(0, 0)
  await page.goto('about:blank')
  const session = await context.newCDPSession(page)
  await session.send('Storage.clearDataForOrigin', {
    origin: new URL(inject('appUrl')).origin,
    storageTypes: 'all',
  })
  await session.detach()
  await page.setViewportSize(VIEWPORT)
  await page.emulateMedia({ media: null, colorScheme: null, reducedMotion: null, forcedColors: null })
  return true
}
