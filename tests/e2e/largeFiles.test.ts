// Files at and beyond the limits, dropped on the page: it says what is wrong, and can be used meanwhile.

import type { Browser, Page } from 'playwright-core'
import { beforeAll, expect, test } from 'vitest'
import { demoProject, projectText } from '../../src/model/index'
import { openApp, sharedBrowser } from './support/browser'

let browser: Browser

beforeAll(async () => {
  browser = await sharedBrowser()
})

const PATIENT = { timeout: 60_000 }
const demo = projectText(demoProject()).trimEnd().slice(0, -1)

/** Drops a file that is made on the page: its text, a piece so many times, and an end. */
async function dropMade(page: Page, start: string, piece: string, times: number, end: string) {
  await page.evaluate(
    ({ start, piece, times, end }) => {
      const transfer = new DataTransfer()
      transfer.items.add(
        new File([start, piece.repeat(times), end], 'large.json', { type: 'application/json' }),
      )
      window.dispatchEvent(new DragEvent('drop', { dataTransfer: transfer, bubbles: true, cancelable: true }))
    },
    { start, piece, times, end },
  )
}

test('60 MB of zeros are refused by their number, and the page is drawn while they are read', async () => {
  const { page, complaints } = await openApp(browser, { at: 'requirements' })
  await dropMade(page, `${demo},"more":[`, '0,', 29_900_000, '0]}')
  const drawnWhileReading = await page.evaluate(
    () =>
      new Promise<number>((resolve) => {
        let frames = 0
        const draw = () => {
          if (document.querySelector('dialog[open]') !== null) resolve(frames)
          else requestAnimationFrame(draw)
          frames += document.querySelector('progress') === null ? 0 : 1
        }
        requestAnimationFrame(draw)
      }),
  )
  await page.getByText('the file holds more than 2000000 values, the limit for a project').waitFor(PATIENT)
  expect(drawnWhileReading).toBeGreaterThan(5) // none, where the page itself reads
  expect(complaints).toEqual([])
})

test.each([
  ['numbers that no project needs', '0.12345678901234567890,', 2_500_000, 'the file is larger than 24.0 MB'],
  ['one text', `"${'x'.repeat(57_000_000)}",`, 1, 'a text of 57 000 000 characters'],
])('60 MB of %s are refused with what is allowed', async (_, piece, times, said) => {
  const { page, complaints } = await openApp(browser, { at: 'requirements' })
  await dropMade(page, `${demo},"more":[`, piece, times, '0]}')
  await page.getByText(said).waitFor(PATIENT)
  expect(complaints).toEqual([])
})

test('a large file that is whole opens', async () => {
  const { page, complaints } = await openApp(browser, { at: 'requirements' })
  await dropMade(
    page,
    `${demo.replace('"name": "', '"name": "Read from a large file, ')},"more":[`,
    `"${'x'.repeat(1_000_000)}",`,
    20,
    '0]}',
  )
  await page.getByText('Read from a large file').first().waitFor(PATIENT)
  expect(complaints).toEqual([])
})
