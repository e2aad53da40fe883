// Typing in the largest project that the rules allow (tests/support/largestProject.ts), page by page, in headless Chromium: from the key
// to the painted frame, and the longest task of the page meanwhile. Needs a build (npm run build).

import { writeFileSync } from 'node:fs'
import type { Page } from 'playwright-core'
import { preview } from 'vite'
import { projectText } from '../../src/model/index'
import { launchBrowser } from '../e2e/support/launch'
import { largestProject } from '../support/largestProject'
import { printSpread, printVerdict, spreadOf } from './timing'

const LIMIT_MS = 200
const KEYS = 20
const PAUSE_MS = 300
/** Where a profile of each page goes, for a look by hand; none unless asked for. */
const PROFILES = process.env.PROFILES

declare global {
  interface Window {
    paintedMs: number[]
    tasksMs: number[]
  }
}

const PLACES = [
  { to: 'design', field: 'main input[aria-label^="Gap"]', name: 'Design' },
  { to: 'requirements', field: 'main input[aria-invalid]:not([maxlength])', name: 'Requirements' },
  { to: 'parts/fibres/fibre-1', field: 'main article.part .field input[aria-invalid]', name: 'Parts' },
  { to: 'review', field: 'main textarea', name: 'Review' },
] as const

const server = await preview({ preview: { port: 0, host: '127.0.0.1' }, logLevel: 'error' })
const browser = await launchBrowser()

async function quiet(page: Page) {
  for (let calm = 0; calm < 5; ) {
    await page.evaluate(() => (window.tasksMs = []))
    await page.waitForTimeout(500)
    calm = (await page.evaluate(() => window.tasksMs.length)) === 0 ? calm + 1 : 0
  }
}

try {
  const page = await browser.newPage({ viewport: { width: 1280, height: 720 } })
  page.on('pageerror', (error) => console.log(`  error: ${error.message}`))
  await page.addInitScript(() => {
    window.paintedMs = []
    window.tasksMs = []
    new PerformanceObserver((list) => {
      for (const { duration } of list.getEntries()) window.tasksMs.push(duration)
    }).observe({ type: 'longtask' })
    window.addEventListener(
      'keydown',
      () => {
        const start = performance.now()
        requestAnimationFrame(() => {
          const afterPaint = new MessageChannel()
          afterPaint.port1.onmessage = () => window.paintedMs.push(performance.now() - start)
          afterPaint.port2.postMessage(null)
        })
      },
      true,
    )
  })
  await page.goto(server.resolvedUrls?.local[0] ?? '')
  await page.getByRole('main').waitFor()
  const file = projectText(largestProject())
  const opening = Date.now()
  await page.evaluate((text) => {
    const transfer = new DataTransfer()
    transfer.items.add(new File([text], 'largest.json', { type: 'application/json' }))
    window.dispatchEvent(new DragEvent('drop', { dataTransfer: transfer, bubbles: true, cancelable: true }))
  }, file)
  await page.getByText('Largest project').first().waitFor({ timeout: 120_000 })
  console.log(`  ${(file.length / 1e6).toFixed(1)} MB opened after ${Date.now() - opening} ms`)
  await quiet(page)
  console.log(`  at rest after ${Date.now() - opening} ms`)
  const devTools = await page.context().newCDPSession(page)
  for (const { to, field, name } of PLACES) {
    const going = Date.now()
    await page.evaluate((page) => (location.hash = `#/${page}`), to)
    const input = page.locator(field).first()
    await input.waitFor({ timeout: 120_000 })
    const shownMs = Date.now() - going
    await quiet(page)
    await input.focus()
    if (PROFILES !== undefined) {
      await devTools.send('Profiler.enable')
      await devTools.send('Profiler.start')
    }
    await page.evaluate(() => {
      window.tasksMs = []
      window.paintedMs = []
    })
    for (let i = 0; i < KEYS; i++) {
      await page.keyboard.press(name === 'Review' ? 'x' : i % 2 === 0 ? 'ArrowUp' : 'ArrowDown')
      await page.waitForTimeout(PAUSE_MS)
    }
    const { painted, tasks, label } = await page.evaluate(() => ({
      painted: window.paintedMs,
      tasks: window.tasksMs,
      label: document.activeElement?.getAttribute('aria-label') ?? document.activeElement?.id ?? '',
    }))
    if (PROFILES !== undefined) {
      const { profile } = await devTools.send('Profiler.stop')
      writeFileSync(`${PROFILES}/${name}.cpuprofile`, JSON.stringify(profile))
    }
    const spread = spreadOf(painted)
    console.log(`  ${name} (${label}), shown after ${shownMs} ms`)
    printSpread('  key to painted frame', spread, 'ms', 0)
    console.log(`    longest task ${Math.max(0, ...tasks).toFixed(0)} ms of ${tasks.length} above 50 ms`)
    printVerdict(`${name} answers typing within ${LIMIT_MS} ms`, spread.greatest <= LIMIT_MS)
    const closing = Date.now()
    await quiet(page)
    console.log(`    at rest ${Date.now() - closing} ms after the last key`)
  }
} finally {
  await browser.close()
  await server.close()
}
