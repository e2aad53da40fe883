// Project files at and beyond the limits, opened in the built app in headless Chromium: time until they are shown or refused, and
// the memory that the page's process takes meanwhile. Needs a build (npm run build); memory is read where there is a /proc.

import {
  appendFileSync,
  existsSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Browser } from 'playwright-core'
import { preview } from 'vite'
import { demoProject, projectText } from '../../src/model/index'
import { launchBrowser } from '../e2e/support/launch'
import { printVerdict } from './timing'

const LIMIT_S = 3
const LIMIT_MB = 300
const PATIENCE_MS = 120_000
const AFTER_MS = 3000
const BATCH = 100_000

/** The demo with one more field: a start, a piece so many times with its number for `#`, and an end. */
interface LargeFile {
  readonly name: string
  readonly start: string
  readonly piece: string
  readonly times: number
  readonly end: string
}

const list = (name: string, piece: string, times: number): LargeFile => ({
  name,
  start: ',"more":[',
  piece: `${piece},`,
  times,
  end: '0]}',
})
const keys = (name: string, piece: string, times: number): LargeFile => ({
  name,
  start: ',"more":{',
  piece: `${piece},`,
  times,
  end: '"last":0}}',
})

const [SIDE, BYTES] = [2000, 7_500_000]

/** A measurement of ten million characters, with its number for `#`. */
const image = JSON.stringify({
  id: 'image-#',
  name: 'Image #',
  fileName: 'image-#.tif',
  date: '2026-03-14',
  notes: [],
  method: 'image',
  width: SIDE,
  height: BYTES / 2 / SIDE,
  pixelPitch: { value: 2, unit: 'um', provenance: 'estimate' },
  binning: 1,
  pixels: { type: 'u2', count: BYTES / 2, base64: 'AAAA'.repeat(BYTES / 3) },
})

const FILES: readonly LargeFile[] = [
  list('three million zeros', '0', 3_000_000),
  keys('three million keys', '"k#":0', 3_000_000),
  list('60 MB of zeros', '0', 29_900_000),
  list('60 MB of nested lists', '[[[[[[0]]]]]]', 4_200_000),
  list('60 MB in 1.9 million numbers', '0.12345678901234567890123456', 1_900_000),
  keys('60 MB in 1.9 million keys', '"a key of the length #":0.12', 1_900_000),
  list('50 MB of readings', `"${'x'.repeat(1_000_000)}"`, 50),
  list('40 MB of readings in an unknown field', `{"base64":"${'x'.repeat(10_000_000)}"}`, 4),
  {
    name: '40 MB of camera images',
    start: ',"measurements":[',
    piece: `${image},`,
    times: 3,
    end: `${image}]}`,
  },
  list('60 MB in one text', `"${'x'.repeat(60_000_000)}"`, 1),
  list('70 MB, beyond the limit', '0.12345678901234567890123456', 2_500_000),
]

const demo = projectText({ ...demoProject(), name: 'Read from a large file' })
  .trimEnd()
  .slice(0, -1)

const statusMb = (pid: number, name: string): number =>
  Number(new RegExp(`^${name}:\\s+(\\d+) kB`, 'm').exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1]) /
  1000

/** The processes that draw pages: the one in use, and those that the browser keeps ready. */
async function pageProcesses(browser: Browser): Promise<readonly number[]> {
  const session = await browser.newBrowserCDPSession()
  const { processInfo } = await session.send('SystemInfo.getProcessInfo')
  await session.detach()
  return processInfo.filter(({ type }) => type === 'renderer').map(({ id }) => id)
}

/** Begins to watch the memory of the browser's pages. What it returns answers by how much the most grown one was larger at its peak, MB. */
async function watchMemory(browser: Browser): Promise<() => number> {
  if (!existsSync('/proc/self/clear_refs')) return () => Number.NaN
  const watched = (await pageProcesses(browser)).map((pid) => {
    writeFileSync(`/proc/${pid}/clear_refs`, '5') // the peak is measured from here
    return { pid, beforeMb: statusMb(pid, 'VmRSS') }
  })
  return () => Math.max(...watched.map(({ pid, beforeMb }) => statusMb(pid, 'VmHWM') - beforeMb))
}

const folder = mkdtempSync(join(tmpdir(), 'large-files-'))
const server = await preview({ preview: { port: 0, host: '127.0.0.1' }, logLevel: 'error' })
try {
  for (const { name, start, piece, times, end } of FILES) {
    const path = join(folder, 'large.json')
    writeFileSync(path, `${demo}${start}`)
    for (let from = 0; from < times; from += BATCH) {
      const count = Math.min(BATCH, times - from)
      const pieces = Array.from({ length: count }, (_, i) => piece.replace('#', String(from + i)))
      appendFileSync(path, pieces.join(''))
    }
    appendFileSync(path, end)
    const size = statSync(path).size
    const browser = await launchBrowser()
    const page = await browser.newPage({ viewport: { width: 1280, height: 720 } })
    await page.addInitScript(() => Reflect.deleteProperty(window, 'showOpenFilePicker'))
    await page.goto(server.resolvedUrls?.local[0] ?? '')
    await page.locator('.tolerance-map canvas').waitFor() // what the page itself takes is no part of the file's
    const session = await page.context().newCDPSession(page)
    await session.send('HeapProfiler.collectGarbage')
    const grownMb = await watchMemory(browser)
    const chooser = page.waitForEvent('filechooser')
    await page.keyboard.press('Control+o')
    await (await chooser).setFiles(path)
    const { seconds, longestMs } = await page.evaluate(async (patience) => {
      const start = performance.now()
      let [longestMs, last] = [0, start]
      for (;;) {
        await new Promise((resolve) => setTimeout(resolve, 5))
        const now = performance.now()
        longestMs = Math.max(longestMs, now - last)
        last = now
        const refused = document.querySelector('[role=dialog], dialog[open]')?.textContent ?? ''
        const answered = /file|project/i.test(refused) && !/Cancel|Reading/.test(refused)
        const opened = document.querySelector('header')?.textContent?.includes('Read from a large file')
        if (answered || opened || now - start > patience) break
      }
      return { seconds: (performance.now() - start) / 1000, longestMs }
    }, PATIENCE_MS)
    await page.waitForTimeout(AFTER_MS) // what is opened is kept at once
    const moreMb = grownMb()
    const words = await page.evaluate(
      () => document.querySelector('[role=dialog], dialog[open]')?.textContent,
    )
    console.log(
      `  ${name}, ${(size / 1e6).toFixed(0)} MB: ${seconds.toFixed(2)} s, ${moreMb.toFixed(0)} MB more than before, page blocked ${longestMs.toFixed(0)} ms at most; ${words?.slice(0, 140) ?? 'shown'}`,
    )
    printVerdict(`answered within ${LIMIT_S} s`, seconds <= LIMIT_S)
    if (!Number.isNaN(moreMb)) printVerdict(`within ${LIMIT_MB} MB`, moreMb <= LIMIT_MB)
    await browser.close()
  }
} finally {
  await server.close()
  rmSync(folder, { recursive: true })
}
