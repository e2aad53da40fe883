// The security policy of both builds, as a browser enforces it: nothing goes elsewhere, no text becomes code.

import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import type { Browser, Page } from 'playwright-core'
import { beforeAll, describe, expect, test } from 'vitest'
import { openApp, sharedBrowser } from './support/browser'

let browser: Browser

beforeAll(async () => {
  browser = await sharedBrowser()
})

const ONE_FILE = 'dist-single/index.html'

/** What the page's policy lets through of the ways out. */
const waysOut = (page: Page) =>
  page.evaluate(async () => {
    const passed = async (work: () => Promise<unknown>) =>
      work().then(
        () => true,
        () => false,
      )
    const script = document.createElement('script')
    script.textContent = 'window.injected = true'
    document.head.append(script)
    const handler = document.createElement('div')
    handler.setAttribute('onclick', 'window.clicked = true')
    handler.click()
    const image = new Image()
    const loaded = new Promise((resolve, reject) => {
      image.onload = resolve
      image.onerror = reject
    })
    image.src = 'http://127.0.0.1:1/pixel.png'
    return {
      fetch: await passed(() => fetch('http://127.0.0.1:1/')),
      image: await passed(() => loaded),
      evaluated: await passed(async () => new Function('return 1')()),
      injected: Reflect.has(window, 'injected'),
      clicked: Reflect.has(window, 'clicked'),
    }
  })

/** Names of the policies that were broken while `work` ran. */
async function violations(page: Page, work: () => Promise<unknown>): Promise<readonly string[]> {
  await page.evaluate(() => {
    const seen: string[] = []
    Reflect.set(window, 'violations', seen)
    addEventListener('securitypolicyviolation', (event) => seen.push(event.effectiveDirective))
  })
  await work()
  return page.evaluate(() => Reflect.get(window, 'violations') as string[])
}

const CLOSED = { fetch: false, image: false, evaluated: false, injected: false, clicked: false }

describe('the page', () => {
  test('works under its policy without breaking it', async () => {
    const { page, complaints } = await openApp(browser)
    for (const name of ['Requirements', 'Parts', 'Compare', 'Review']) {
      await page
        .getByRole('navigation')
        .getByRole('link', { name })
        .or(page.getByRole('button', { name, exact: true }))
        .first()
        .click()
    }
    expect(complaints).toEqual([])
  })

  test('lets nothing out, and no text become code', async () => {
    const { page } = await openApp(browser)
    const broken = await violations(page, async () => expect(await waysOut(page)).toEqual(CLOSED))
    expect(new Set(broken)).toEqual(
      new Set(['connect-src', 'img-src', 'script-src', 'script-src-elem', 'script-src-attr']),
    )
  })
})

test('the one file runs its own script by hash and no other', async () => {
  const html = readFileSync(ONE_FILE, 'utf8')
  expect(html).toMatch(/script-src 'sha256-[^;]*;/)
  expect(html).not.toMatch(/script-src[^;]*'(?:self|unsafe-)/)
  const context = await browser.newContext()
  const page = await context.newPage()
  const complaints: string[] = []
  page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()))
  await page.goto(pathToFileURL(ONE_FILE).href)
  await page.getByRole('main').waitFor()
  expect(complaints).toEqual([])
  expect(await waysOut(page)).toEqual(CLOSED)
  await context.close()
})

test('no chunk makes code of text, but for the probe of the schema library, which is switched off', () => {
  const folder = 'dist/assets'
  const found = readdirSync(folder)
    .filter((name) => name.endsWith('.js'))
    .flatMap((name) => {
      const code = readFileSync(join(folder, name), 'utf8')
      return [...code.matchAll(/\b(?:eval|Function)\([^)]*\)/g)].map(([call]) => call)
    })
  expect(found.filter((call) => call !== 'Function(``)')).toEqual([])
  expect(found.length).toBeLessThanOrEqual(2)
})
