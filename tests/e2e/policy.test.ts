// The security policy of both builds, as it is written and as a browser enforces it: nothing goes elsewhere, no text becomes code.

import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import type { Browser, Page } from 'playwright-core'
import { beforeAll, describe, expect, test } from 'vitest'
import { openApp, ownContext, sharedBrowser } from './support/browser'

let browser: Browser

beforeAll(async () => {
  browser = await sharedBrowser()
})

const ONE_FILE = 'dist-single/index.html'

/** What every way out came to, by the directive of the policy that is to close it: 'closed', or 'open'. */
const waysOut = (page: Page) =>
  page.evaluate(async () => {
    const ELSEWHERE = 'http://127.0.0.1:1/'
    const added = (tag: string, attributes: Readonly<Record<string, string>>, text = '') => {
      const element = document.createElement(tag)
      for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value)
      element.textContent = text
      document.body.append(element)
      return element
    }
    const script = (text: string) => URL.createObjectURL(new Blob([text], { type: 'text/javascript' }))
    const tries: Readonly<Record<string, () => unknown>> = {
      'connect-src': () => fetch(ELSEWHERE),
      'img-src': () => added('img', { src: `${ELSEWHERE}pixel.png` }),
      'font-src': () => new FontFace('elsewhere', `url(${ELSEWHERE}font.woff2)`).load(),
      'style-src-elem': () => added('link', { rel: 'stylesheet', href: `${ELSEWHERE}style.css` }),
      'media-src': () => added('audio', { src: `${ELSEWHERE}sound.ogg`, preload: 'auto' }),
      'frame-src': () => added('iframe', { src: ELSEWHERE }),
      'object-src': () => added('object', { data: `${ELSEWHERE}thing`, type: 'text/html' }),
      'base-uri': () => document.head.append(added('base', { href: ELSEWHERE })),
      'form-action': () => (added('form', { action: ELSEWHERE, method: 'post' }) as HTMLFormElement).submit(),
      // Each of them for the build that has no use for it.
      'worker-src': () =>
        location.protocol === 'file:'
          ? new Worker('data:text/javascript,postMessage(1)')
          : new Worker(script('postMessage(1)')),
      'script-src': () => new Function('return 1')(),
      'script-src-elem': () => added('script', {}, 'window.injected = true'),
      'script-src-attr': () => added('div', { onclick: 'window.clicked = true' }).click(),
    }
    const came: Record<string, string> = {}
    for (const [directive, attempt] of Object.entries(tries)) {
      const closed = new Promise<string>((resolve) => {
        const heard = ({ effectiveDirective }: SecurityPolicyViolationEvent) => {
          if (effectiveDirective === directive) resolve('closed')
        }
        addEventListener('securitypolicyviolation', heard)
        setTimeout(() => {
          removeEventListener('securitypolicyviolation', heard)
          resolve('open')
        }, 30_000)
      })
      try {
        void Promise.resolve(attempt()).catch(() => {})
      } catch {
        // What matters is which directive blocked it.
      }
      came[directive] = await closed
    }
    const ran = ['injected', 'clicked'].filter((name) => Reflect.has(window, name))
    return { open: Object.keys(came).filter((directive) => came[directive] !== 'closed'), ran }
  })

const CLOSED = { open: [], ran: [] }

/** The directives of a built page with what each allows; the page must carry one policy, before anything that it is about. */
function policyIn(html: string): Readonly<Record<string, string>> {
  const found = [...html.matchAll(/<meta http-equiv="Content-Security-Policy" content="([^"]*)" \/>/g)]
  expect(found).toHaveLength(1)
  expect(html).toMatch(/<head>\s*<meta charset="[^"]*" \/>\s*<meta http-equiv="Content-Security-Policy"/)
  const directives = (found[0]?.[1] ?? '').split('; ')
  return Object.fromEntries(
    directives.map((directive) => {
      const [name = '', ...allowed] = directive.split(' ')
      return [name, allowed.join(' ')]
    }),
  )
}

const NEVER = {
  'default-src': "'none'",
  'object-src': "'none'",
  'base-uri': "'none'",
  'form-action': "'none'",
}

describe('the page', () => {
  test('allows its own files and nothing else', () => {
    expect(policyIn(readFileSync('dist/index.html', 'utf8'))).toEqual({
      ...NEVER,
      'script-src': "'self'",
      'style-src': "'self' 'unsafe-inline'",
      'img-src': "'self' data:",
      'font-src': "'self' data:",
      'connect-src': "'self'",
      'worker-src': "'self'",
      'manifest-src': "'self'",
    })
  })

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
    const { page } = await openApp(browser, { at: 'requirements' })
    expect(await waysOut(page)).toEqual(CLOSED)
  })
})

describe('the one file', () => {
  test('allows its own script by hash, and nothing from elsewhere', () => {
    const html = readFileSync(ONE_FILE, 'utf8')
    const { 'script-src': scripts, ...others } = policyIn(html)
    expect(scripts).toMatch(/^'sha256-[A-Za-z0-9+/]{43}='$/)
    expect(others).toEqual({
      ...NEVER,
      'style-src': "'unsafe-inline'",
      'img-src': 'data:',
      'font-src': 'data:',
      'connect-src': "'none'",
      'worker-src': 'blob:',
    })
  })

  test('runs its own script and no other, and lets nothing out', async () => {
    const context = await ownContext(browser)
    const page = await context.newPage()
    const complaints: string[] = []
    page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()))
    await page.goto(pathToFileURL(ONE_FILE).href)
    await page.getByRole('main').waitFor()
    expect(complaints).toEqual([])
    expect(await waysOut(page)).toEqual(CLOSED)
  })
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
