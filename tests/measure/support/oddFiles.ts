// Files that instruments and people make and that a project must either keep, so that it reads them back, or refuse.

import { encode } from 'fast-png'

export interface OddFile {
  readonly name: string
  readonly bytes: () => Uint8Array
  /** What has to be asked although the file states it; null where the file leaves nothing to ask. */
  readonly asks: RegExp | null
  /** Why it cannot be taken; null where it can, once what is asked is answered. */
  readonly refused: RegExp | null
}

const bytesOf = (text: string) => new TextEncoder().encode(text)

/** A beam a sixth of the longer side wide in the middle of the shorter one, 16 bit. */
function pgm(width: number, height: number, comment = 'pixel pitch 0.2 um'): Uint8Array {
  const head = bytesOf(`P5\n# ${comment}\n${width} ${height}\n65535\n`)
  const bytes = new Uint8Array(head.length + 2 * width * height)
  bytes.set(head)
  const radius = Math.max(2, Math.min(width, height) / 6)
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const from = Math.hypot(x - width / 2, y - height / 2) / radius
      const count = 100 + Math.round(40_000 * Math.exp(-2 * from * from))
      bytes.set([count >> 8, count & 255], head.length + 2 * (y * width + x))
    }
  }
  return bytes
}

/** Channels that differ, so that their mean is no whole number. */
function colourPng(width: number, height: number): Uint8Array {
  const data = new Uint8Array(3 * width * height)
  for (let i = 0; i < width * height; i++) {
    const from = Math.hypot((i % width) - width / 2, Math.floor(i / width) - height / 2) / (height / 8)
    const count = 10 + Math.round(230 * Math.exp(-2 * from * from))
    data.set([count, count + (i % 2), count + (i % 3)], 3 * i)
  }
  return encode({ width, height, data, channels: 3, depth: 8 })
}

function scan(comment: string, head: string, from: number, to: number): Uint8Array {
  const rows = Array.from({ length: 81 }, (_, i) => {
    const x = from + ((to - from) * i) / 80
    return `${x.toFixed(3)},${(100 * Math.exp(-2 * (x / (to / 3)) ** 2)).toFixed(5)}`
  })
  return bytesOf(`# ${comment}\n${head}\n${rows.join('\n')}\n`)
}

export const ODD_FILES: readonly OddFile[] = [
  {
    name: 'colour-camera.png',
    bytes: () => colourPng(1280, 1024),
    asks: null,
    refused: null,
  },
  {
    name: 'wavelength-in-wrong-unit.csv',
    bytes: () => scan('wavelength: 1653.7 um', 'angle deg,power uW', -20, 20),
    asks: /wavelength is 1653700 nm; must be 300 to 5000/i,
    refused: null,
  },
  {
    name: 'wavelength-of-a-nanometre.csv',
    bytes: () => scan('wavelength: 1 nm', 'angle deg,power uW', -20, 20),
    asks: /wavelength is 1 nm; must be 300 to 5000/i,
    refused: null,
  },
  {
    name: 'probe-of-millimetres.csv',
    bytes: () => scan('probe MFD: 10 mm', 'position um,power uW', -12, 12),
    asks: /mode-field diameter is 10000 µm/,
    refused: null,
  },
  { name: 'three-rows.pgm', bytes: () => pgm(500, 3), asks: null, refused: /500 × 3 pixels/ },
  { name: 'three-columns.pgm', bytes: () => pgm(3, 40), asks: null, refused: /3 × 40 pixels/ },
  { name: 'two-rows.pgm', bytes: () => pgm(500, 2), asks: null, refused: /500 × 2 pixels/ },
  { name: 'line-camera.pgm', bytes: () => pgm(20_001, 90), asks: null, refused: null },
  {
    name: 'pixels-of-centimetres.pgm',
    bytes: () => pgm(64, 64, 'pixel size: 99 mm'),
    asks: /pixel size is 99000 µm/,
    refused: null,
  },
  {
    name: `${'run 17 of the second station, '.repeat(12)}scan 0042.csv`,
    bytes: () => scan('probe MFD: 4 um', 'position um,power uW', -12, 12),
    asks: null,
    refused: null,
  },
]
