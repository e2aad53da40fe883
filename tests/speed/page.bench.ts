// From the input event of a drag to the painted frame with all panes of the Design screen live (path, drawing, inspector,
// budget, map, verdicts, rail), in headless Chromium. Needs a build (npm run build). The limit is two frames of 60 Hz at the
// 95th percentile.

import { preview } from 'vite'
import { launchBrowser } from '../e2e/support/launch'
import { printSpread, printVerdict, spreadOf } from './timing'

const LIMIT_MS = 33
const MOVES = 120
const PAUSE_MS = 100

declare global {
  interface Window {
    paintedMs: number[]
  }
}

const server = await preview({ preview: { port: 0, host: '127.0.0.1' }, logLevel: 'error' })
const browser = await launchBrowser()
try {
  const page = await browser.newPage({ viewport: { width: 1280, height: 720 } })
  await page.goto(server.resolvedUrls?.local[0] ?? '')
  await page.locator('.tolerance-map canvas').first().waitFor()
  await page.evaluate(() => {
    window.paintedMs = []
    window.addEventListener(
      'pointermove',
      (event) => {
        if (event.buttons === 0) return
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
  const box = await page.getByRole('application').first().boundingBox()
  if (box === null) throw new Error('the drawing is not on the screen')
  const [x, y] = [box.x + box.width * 0.2, box.y + box.height * 0.35]
  await page.mouse.move(x, y)
  await page.mouse.down()
  for (let i = 1; i <= MOVES; i++) {
    await page.mouse.move(x - (i % 40), y + (i % 13))
    await page.waitForTimeout(PAUSE_MS)
  }
  await page.mouse.up()
  const times = await page.evaluate(() => window.paintedMs)
  printSpread('drag event to painted frame', spreadOf(times), 'ms', 1)
  const sorted = [...times].sort((a, b) => a - b)
  const late = sorted[Math.floor(0.95 * sorted.length)] ?? Number.NaN
  printVerdict(`95th percentile ${late.toFixed(1)} ms, at most ${LIMIT_MS} ms`, late <= LIMIT_MS)
} finally {
  await browser.close()
  await server.close()
}
