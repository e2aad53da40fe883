// The app as an end-to-end test sees it: a fresh profile, and everything the page complains about.

import type { Browser, BrowserContext, BrowserContextOptions, CDPSession, Page } from 'playwright-core'
import { inject, onTestFinished } from 'vitest'
import { launchBrowser } from './launch'
import type { PageName } from './screen'
import { askForSmallJobs } from './smallJobs'

export interface OpenApp {
  readonly page: Page
  /** Everything the page complained about; a test ends by finding it empty. */
  readonly complaints: readonly string[]
}

interface Opening {
  /** At the demo's best design, not at the plain cleaved fibre. */
  readonly asOpened?: boolean
  /** At another page, where no design is drawn and only the first is evaluated: it opens in a third of the time. */
  readonly at?: Lowercase<Exclude<PageName, 'Design'>>
  /** Outdated runs start again by themselves. */
  readonly rerun?: boolean
  /** Runs are as large as those of a user (support/smallJobs.ts). */
  readonly usualJobs?: boolean
  readonly bypassPolicy?: boolean
  /** What is done to the page before the app is opened in it. */
  readonly before?: (page: Page) => Promise<unknown>
  /** Answers at once: the test holds or breaks what is otherwise waited for. */
  readonly atOnce?: boolean
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
  const { rerun, usualJobs, bypassPolicy, before, atOnce, asOpened, at } = opening
  const page = await lentPage(browser)
  if (rerun) await beforeApp(page, () => localStorage.setItem('modeseam-rerun', 'on'))
  if (usualJobs)
    await beforeApp(page, () => {
      window.usualJobs = true
    })
  if (bypassPolicy) await (await ownSession(page)).send('Page.setBypassCSP', { enabled: true })
  await before?.(page)
  const complaints: string[] = []
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text())
  })
  page.on('pageerror', (error) => complaints.push(error.message))
  // The demo opens on its best design; most jobs begin with the plainest, by its address, so that no other is drawn before it.
  const address = at ?? (asOpened ? '' : 'design/cleaved-dry/tolerance')
  await page.goto(`${inject('appUrl')}${address && `#/${address}`}`, atOnce ? { waitUntil: 'commit' } : {})
  if (atOnce) return { page, complaints }
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

/** What is set by it holds until the test ends. */
async function ownSession(page: Page): Promise<CDPSession> {
  const session = await page.context().newCDPSession(page)
  onTestFinished(() => session.detach().catch(() => {})) // the page may be closed
  await session.send('Page.enable')
  return session
}

/** Runs the script in the page before the app, from the next opening until the test ends. */
export async function beforeApp(page: Page, script: () => void): Promise<void>
export async function beforeApp<A>(page: Page, script: (argument: A) => void, argument: A): Promise<void>
export async function beforeApp(page: Page, script: unknown, argument?: unknown): Promise<void> {
  const session = await ownSession(page)
  const source = `(${script})(${JSON.stringify(argument)})`
  await session.send('Page.addScriptToEvaluateOnNewDocument', { source })
}

async function newPage(browser: Browser): Promise<Page> {
  const context = await browser.newContext({ viewport: VIEWPORT, acceptDownloads: true })
  context.setDefaultTimeout(LONGEST_WAIT_MS)
  await context.addInitScript(() => {
    try {
      // Most tests look at what an outdated run leaves behind.
      if (localStorage.getItem('modeseam-rerun') === null) localStorage.setItem('modeseam-rerun', 'off')
    } catch {
      // blocked on purpose, or no page of the app
    }
  })
  await context.addInitScript(askForSmallJobs)
  await context.addInitScript(() => {
    // A file picker of the system cannot be driven from here; without it the app saves by download.
    for (const picker of ['showOpenFilePicker', 'showSaveFilePicker']) Reflect.deleteProperty(window, picker)
    // It would copy the whole app into every fresh profile; offline.test.ts is about it.
    Reflect.deleteProperty(Navigator.prototype, 'serviceWorker')
  })
  return context.newPage()
}

/** The page that the last test has given back: a process that has read the app once opens it in half the time. */
let spare: Page | undefined

async function lentPage(browser: Browser): Promise<Page> {
  const lent = spare ?? (await newPage(browser))
  spare = undefined
  onTestFinished(async ({ task }) => {
    const context = lent.context()
    // A test that ran out of time goes on: its page is not for the next one.
    const emptied = task.result?.state === 'fail' ? undefined : await cleared(context).catch(() => undefined)
    if (emptied !== undefined && spare === undefined) spare = emptied
    else await context.close()
  })
  return lent
}

/**
 * Leaves the app and takes away everything that a test can have left in the profile: the answer is the page that is still open, or
 * undefined where there is none.
 */
async function cleared(context: BrowserContext): Promise<Page | undefined> {
  const [page, ...others] = context.pages()
  for (const other of others) await other.close()
  if (page === undefined) return undefined
  for (const event of ['console', 'pageerror', 'dialog', 'request'] as const) page.removeAllListeners(event)
  await page.unrouteAll()
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
  return page
}
