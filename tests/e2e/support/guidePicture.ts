// Pictures of the guide: screenshots with fewer shades and without alpha, so that a page of them stays small.

import { writeFileSync } from 'node:fs'
import { decode, encode } from 'fast-png'
import type { Page } from 'playwright-core'

const FOLDER = 'docs/guide/pictures'
/** Shades of a channel are this far apart; letters and lines look the same. */
const SHADE = 8

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

export async function writeGuidePicture(page: Page, name: string): Promise<void> {
  writeFileSync(`${FOLDER}/${name}.png`, smaller(await page.screenshot()))
}
