// Pictures of the guide: screenshots with fewer shades and without alpha, so that a page of them stays small. The labels that
// were on the screen are kept with each, so that a picture older than its screen is found.

import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { decode, encode } from 'fast-png'
import type { Page } from 'playwright-core'

const FOLDER = 'docs/guide/pictures'
const LABELS = `${FOLDER}/labels.json`
/** Shades of a channel are this far apart; letters and lines look the same. */
const SHADE = 8

/** Names of pictures, each with the labels that it shows. */
type Labels = Readonly<Record<string, readonly string[]>>

function smaller(png: Uint8Array): Uint8Array {
  const { width, height, data, channels } = decode(png)
  const rgb = new Uint8Array(width * height * 3)
  for (let at = 0; at < width * height; at++) {
    for (let channel = 0; channel < 3; channel++) {
      const value = data[at * channels + channel] ?? 0
      rgb[at * 3 + channel] = Math.min(255, Math.round(value / SHADE) * SHADE)
    }
  }
  return encode({ width, height, data: rgb, channels: 3, depth: 8 }, { zlib: { level: 9 } })
}

/** Headings, labels, tabs and buttons that can be seen, sorted; without numbers, which follow the demo and the machine. */
function labelsOn(page: Page): Promise<readonly string[]> {
  return page.evaluate(() => {
    const seen = new Set<string>()
    for (const element of document.querySelectorAll(
      'h1, h2, h3, label, th, dt, legend, caption, button, [role="tab"]',
    )) {
      const { top, left, width, height } = element.getBoundingClientRect()
      const text = (element.textContent ?? '').replace(/\s+/g, ' ').trim()
      const isSeen =
        width > 1 && height > 1 && top >= 0 && top < innerHeight && left >= 0 && left < innerWidth
      if (isSeen && /\p{L}/u.test(text) && !/\d/.test(text)) seen.add(text)
    }
    return [...seen].sort()
  })
}

const readLabels = (): Labels => JSON.parse(readFileSync(LABELS, 'utf8')) as Labels

export async function writeGuidePicture(page: Page, name: string): Promise<void> {
  writeFileSync(`${FOLDER}/${name}.png`, smaller(await page.screenshot()))
  const labels = { ...readLabels(), [name]: await labelsOn(page) }
  const sorted = Object.fromEntries(Object.entries(labels).sort(([a], [b]) => a.localeCompare(b)))
  writeFileSync(LABELS, `${JSON.stringify(sorted, null, 2)}\n`)
}

/** What the screen says and its picture does not, and the reverse. */
export async function outdatedPicture(page: Page, name: string): Promise<readonly string[]> {
  const shown = await labelsOn(page)
  const pictured = readLabels()[name] ?? []
  const missing = shown.filter((label) => !pictured.includes(label))
  const gone = pictured.filter((label) => !shown.includes(label))
  return [
    ...missing.map((label) => `the picture ${name} is older than "${label}"`),
    ...gone.map((label) => `the picture ${name} still shows "${label}"`),
  ]
}

/** Pictures of the guide that are not among `taken`: nothing would find them older than their screen. */
export function untakenPictures(taken: ReadonlySet<string>): readonly string[] {
  return readdirSync(FOLDER)
    .filter((file) => file.endsWith('.png') && !taken.has(file.slice(0, -'.png'.length)))
    .map((file) => `${file} is not taken on the walk`)
}
