// TIFF files that decompress to more than their header promises, by each way of packing: refused before the data are made.

import { readFileSync } from 'node:fs'
import { deflateSync } from 'node:zlib'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { lzwLength } from '../../../src/measure/images/lzwLength'
import { readImage } from '../../../src/measure/images/readImage'
import { TIFF_TAG, tiffDirectory, tiffNumbers } from '../../../src/measure/images/tiffDirectory'
import { InputError } from '../../../src/numerics/inputError'
import { tiffFile } from '../support/tiffFile'

/** LZW as TIFF Revision 6.0 (1992), section 13, writes it; a string of the table is its beginning's code and its last byte. */
function lzw(plain: Uint8Array): Uint8Array {
  const bits: number[] = []
  let table = new Map<number, number>()
  let width = 9
  const put = (code: number) => {
    for (let bit = width - 1; bit >= 0; bit--) bits.push((code >> bit) & 1)
  }
  const clear = () => {
    put(256)
    table = new Map()
    width = 9
  }
  let free = 258
  let held = -1
  clear()
  for (const byte of plain) {
    const next = 256 * held + byte
    const known = held < 0 ? byte : table.get(next)
    if (known !== undefined) {
      held = known
      continue
    }
    put(held)
    table.set(next, free++)
    if (free === 512 || free === 1024 || free === 2048) width++
    if (free === 4095) {
      clear()
      free = 258
    }
    held = byte
  }
  if (held >= 0) put(held)
  free++
  if (free === 512 || free === 1024 || free === 2048) width++
  put(257)
  const bytes = new Uint8Array(Math.ceil(bits.length / 8))
  bits.forEach((bit, i) => {
    bytes[i >> 3] = (bytes[i >> 3] ?? 0) | (bit << (7 - (i & 7)))
  })
  return bytes
}

describe('the length of LZW data', () => {
  test('is that of what was packed', () => {
    const runs = fc.array(fc.tuple(fc.nat(255), fc.integer({ min: 1, max: 60 })), { maxLength: 250 })
    fc.assert(
      fc.property(runs, (parts) => {
        const plain = Uint8Array.from(parts.flatMap(([value, count]) => Array<number>(count).fill(value)))
        expect(lzwLength(lzw(plain), 1e9)).toBe(plain.length)
      }),
      { numRuns: 40 },
    )
  })

  test('is that of a long image without repetitions, which needs every width of code and a second table', () => {
    const plain = Uint8Array.from({ length: 40_000 }, (_, i) => (i * i * 31 + (i >> 3)) % 251)
    const packed = lzw(plain)
    expect(lzwLength(packed, 1e9)).toBe(plain.length)
    const bytes = tiffFile({ width: 200, height: 200, compression: 5, strips: [packed] })
    expect(readImage(bytes).pixels).toEqual(Float64Array.from(plain))
  })

  test.each([['lzw-8.tif'], ['lzw-16-little.tif'], ['lzw-16-big.tif']])(
    'is that of the image in %s, which another program has packed',
    (name) => {
      const bytes = new Uint8Array(
        readFileSync(new URL(`../../reference/data/tiff/${name}`, import.meta.url)),
      )
      const directory = tiffDirectory(bytes)
      const numbers = (tag: number) => tiffNumbers(bytes, directory, tag)
      const counts = numbers(TIFF_TAG.stripCounts)
      const length = numbers(TIFF_TAG.stripOffsets).reduce(
        (sum, from, i) => sum + lzwLength(bytes.subarray(from, from + (counts[i] ?? 0)), 1e9),
        0,
      )
      const [width = 0] = numbers(TIFF_TAG.width)
      const [height = 0] = numbers(TIFF_TAG.height)
      expect(length).toBe((width * height * (numbers(TIFF_TAG.bits)[0] ?? 0)) / 8)
    },
  )

  test('is counted no further than wanted, and ends with damage', () => {
    const bomb = lzw(new Uint8Array(200_000))
    expect(lzwLength(bomb, 1000)).toBeLessThan(1000 + 4096)
    expect(lzwLength(Uint8Array.of(0xff, 0xff, 0xff), 1e9)).toBe(0)
    expect(lzwLength(new Uint8Array(0), 1e9)).toBe(0)
  })
})

describe('a TIFF of 8 by 8 pixels', () => {
  const SIZE = { width: 8, height: 8 }
  const zeros = new Uint8Array(20_000_000)
  const packBits = Uint8Array.from({ length: 400_000 }, (_, i) => (i % 2 === 0 ? 0x81 : 0)) // runs of 128
  const held = () => process.memoryUsage().arrayBuffers

  test.each([
    ['deflate', { compression: 8, strips: [deflateSync(zeros, { level: 9 })] }],
    ['deflate by its old number', { compression: 32_946, strips: [deflateSync(zeros, { level: 9 })] }],
    ['LZW', { compression: 5, strips: [lzw(zeros.subarray(0, 5_000_000))] }],
    ['PackBits', { compression: 32_773, strips: [packBits] }],
    [
      'deflate, one strip a hundred times',
      { compression: 8, strips: [deflateSync(zeros.subarray(0, 1_000_000))], repeated: 100 },
    ],
  ])('that unfolds to megabytes by %s is refused before they are made', (_, parts) => {
    const bytes = tiffFile({ ...SIZE, ...parts })
    const before = held()
    expect(() => readImage(bytes, 'beam.tif')).toThrow(InputError)
    expect(() => readImage(bytes, 'beam.tif')).toThrow(
      'decompressed size of the image data of beam.tif is more than',
    )
    expect(held() - before).toBeLessThan(4e6)
  })

  test.each([
    ['deflate', 8, deflateSync(zeros.subarray(0, 64))],
    ['LZW', 5, lzw(zeros.subarray(0, 64))],
    ['PackBits', 32_773, Uint8Array.of(0xc1, 0)],
  ])('that is whole opens: %s', (_, compression, strip) => {
    expect(readImage(tiffFile({ ...SIZE, compression, strips: [strip] })).pixels).toEqual(
      new Float64Array(64),
    )
  })

  test('with more samples per pixel than any camera has is refused', () => {
    const bytes = tiffFile({ ...SIZE, compression: 1, strips: [new Uint8Array(64)], samples: 500 })
    expect(() => readImage(bytes, 'beam.tif')).toThrow('number of bytes per pixel of beam.tif is 500')
  })
})
