// Measurement files with something wrong in them, made from the samples of every kind that the app reads.

import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { encode } from 'fast-png'
import type { Dice } from './dice'

interface Sample {
  readonly name: string
  readonly bytes: Uint8Array
}

const DATA = join(import.meta.dirname, '../reference/data')
const FOLDERS = ['bench', 'dialects', 'tiff'] as const

const png: Sample = {
  name: 'spot.png',
  bytes: encode({
    width: 32,
    height: 24,
    depth: 8,
    channels: 1,
    data: Uint8Array.from({ length: 32 * 24 }, (_, i) =>
      Math.round(250 * Math.exp(-((((i % 32) - 16) / 5) ** 2) - ((Math.floor(i / 32) - 12) / 4) ** 2)),
    ),
  }),
}

const samples: readonly Sample[] = [
  png,
  ...FOLDERS.flatMap((folder) =>
    readdirSync(join(DATA, folder))
      .filter((name) => /\.(csv|txt|pgm|tif)$/.test(name))
      .map((name) => ({ name, bytes: new Uint8Array(readFileSync(join(DATA, folder, name))) })),
  ),
]

type Damage = (bytes: Uint8Array, dice: Dice) => Uint8Array

const textOf = (bytes: Uint8Array) => new TextDecoder('latin1').decode(bytes)
const bytesOf = (text: string) => Uint8Array.from(text, (letter) => letter.charCodeAt(0) & 0xff)

/** Numbers that no instrument gives, or not in that place. */
const ODD_NUMBERS = [
  '1e400',
  '-1e308',
  '1e200',
  '1e-300',
  'NaN',
  'inf',
  '',
  '0',
  '-0',
  '99999999999',
  '1,5',
  '1.2.3',
  '"',
]
const ODD_NOTES = [
  '# wavelength: 1653.7 um',
  '# wavelength: 1 nm',
  '# probe MFD: 10 mm',
  '# pixel size: 99 mm',
  `# ${'pix'.repeat(3000)}`,
  `# ${'1'.repeat(5000)}`,
]

/** Replaces some numbers of a text by odd ones, or by multiples of themselves. */
const numbers: Damage = (bytes, dice) => {
  const share = dice.pick([0.002, 0.05, 1])
  const factor = dice.pick([0, 1e200, 1e-200, 1e307, -1])
  return bytesOf(
    textOf(bytes).replace(/-?\d+(?:[.,]\d+)?/g, (number) => {
      if (!dice.chance(share)) return number
      return dice.chance(0.5) ? dice.pick(ODD_NUMBERS) : String(Number(number.replace(',', '.')) * factor)
    }),
  )
}

const DAMAGES: readonly Damage[] = [
  (bytes, dice) => bytes.slice(0, dice.below(bytes.length)),
  (bytes, dice) => {
    const out = bytes.slice()
    for (let i = 1 + dice.below(12); i > 0; i--) out[dice.below(out.length)] = dice.below(256)
    return out
  },
  // Headers are where sizes are promised.
  (bytes, dice) => {
    const out = bytes.slice()
    for (let i = 1 + dice.below(4); i > 0; i--)
      out[dice.below(Math.min(200, out.length))] = dice.pick([0, 1, 127, 255])
    return out
  },
  // The directory of the TIFF samples is at their end or start; any aligned word may be a size.
  (bytes, dice) => {
    const out = bytes.slice()
    const at = 4 * dice.below(Math.max(1, out.length >> 2))
    for (let i = 0; i < 4; i++) if (at + i < out.length) out[at + i] = dice.pick([0, 255])
    return out
  },
  (bytes, dice) => {
    const lines = textOf(bytes).split('\n')
    lines.splice(dice.below(lines.length), dice.below(4), ...(dice.chance(0.5) ? [dice.pick(ODD_NOTES)] : []))
    return bytesOf(lines.join('\n'))
  },
  (bytes, dice) => bytesOf(`${dice.pick(ODD_NOTES)}\n${textOf(bytes)}`),
  (bytes, dice) =>
    bytesOf(
      textOf(bytes).replaceAll(dice.pick([',', ';', '\t', '.', '\n']), dice.pick([',', ' ', '\t', ''])),
    ),
  numbers,
  numbers,
]

/** One mutant of a sample file, with one to three damages. */
export function fileMutant(dice: Dice): Sample {
  const { name, bytes } = dice.pick(samples)
  let damaged: Uint8Array = bytes
  for (let i = 1 + dice.below(3); i > 0; i--) damaged = dice.pick(DAMAGES)(damaged, dice)
  return { name, bytes: damaged }
}
