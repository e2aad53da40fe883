// Portable graymap, plain (P2) and binary (P5), 8 and 16 bit.
// Source: the Netpbm "pgm" format description: 16-bit samples are big-endian; '#' starts a comment in the header.

import { InputError } from '../../numerics/inputError'
import { requireImageSize } from './imageSize'

interface Pgm {
  readonly pixels: Float64Array
  readonly width: number
  readonly height: number
  readonly maxValue: number
  readonly comments: readonly string[]
}

/** InputError for a header or a size that does not fit; extra bytes at the end are ignored. */
export function readPgm(bytes: Uint8Array): Pgm {
  const header = readHeader(bytes)
  const { width, height, maxValue, plain } = header
  const count = width * height
  requireImageSize('the file', width, height)
  if (!(maxValue >= 1 && maxValue <= 65_535)) throw new InputError('PGM maximum', maxValue, '1 to 65535')
  const pixels = plain
    ? plainPixels(bytes, header.end, count, maxValue)
    : binaryPixels(bytes, header.end, count, maxValue > 255)
  return { pixels, width, height, maxValue, comments: header.comments }
}

function readHeader(bytes: Uint8Array) {
  const magic = String.fromCharCode(bytes[0] ?? 0, bytes[1] ?? 0)
  if (magic !== 'P5' && magic !== 'P2') throw new InputError('PGM signature', magic, 'P2 or P5')
  const numbers: number[] = []
  const comments: string[] = []
  let at = 2
  while (numbers.length < 3 && at < bytes.length) {
    const code = bytes[at] as number
    if (code === 35) {
      const from = at
      while (at < bytes.length && bytes[at] !== 10 && bytes[at] !== 13) at++
      comments.push(new TextDecoder().decode(bytes.subarray(from + 1, at)).trim())
    } else if (code >= 48 && code <= 57) {
      let value = 0
      while (at < bytes.length && (bytes[at] as number) >= 48 && (bytes[at] as number) <= 57)
        value = 10 * value + (bytes[at++] as number) - 48
      numbers.push(value)
    } else at++
  }
  const [width = 0, height = 0, maxValue = 0] = numbers
  // One blank ends the header; a line end written as CR LF is treated as one.
  const end = bytes[at] === 13 && bytes[at + 1] === 10 ? at + 2 : at + 1
  return { width, height, maxValue, comments, plain: magic === 'P2', end }
}

function binaryPixels(bytes: Uint8Array, from: number, count: number, wide: boolean): Float64Array {
  const size = wide ? 2 : 1
  if (bytes.length < from + count * size) {
    throw new InputError(
      'PGM data',
      `${bytes.length - from} bytes`,
      `${count * size} bytes for the size in the header`,
    )
  }
  const pixels = new Float64Array(count)
  if (wide)
    for (let i = 0; i < count; i++)
      pixels[i] = 256 * (bytes[from + 2 * i] as number) + (bytes[from + 2 * i + 1] ?? 0)
  else for (let i = 0; i < count; i++) pixels[i] = bytes[from + i] as number
  return pixels
}

function plainPixels(bytes: Uint8Array, from: number, count: number, maxValue: number): Float64Array {
  // A value is a digit at least, and a blank precedes the next one.
  if (bytes.length - from < 2 * count - 1) throw tooFew(Math.ceil((bytes.length - from) / 2), count)
  const pixels = new Float64Array(count)
  let found = 0
  let at = from
  while (found < count && at < bytes.length) {
    const code = bytes[at] as number
    if (code < 48 || code > 57) {
      at++
      continue
    }
    let value = 0
    while ((bytes[at] ?? 0) >= 48 && (bytes[at] as number) <= 57)
      value = 10 * value + (bytes[at++] as number) - 48
    if (value > maxValue) throw new InputError('PGM value', value, `0 to the maximum, ${maxValue}`)
    pixels[found++] = value
  }
  if (found < count) throw tooFew(found, count)
  return pixels
}

function tooFew(found: number, count: number): InputError {
  return new InputError(
    'PGM data',
    `${Math.max(0, found)} values`,
    `${count} values for the size in the header`,
  )
}
