// Images of few bits and colours, written by hand as the PNG specification (Third Edition) has them, and counts at a detector's limit.

import { deflateSync } from 'node:zlib'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { pixelScaleUm, saturatedPixels } from '../../../src/measure/images/image'
import { readImage } from '../../../src/measure/images/readImage'

/** Section 5.5: the checksum of a chunk, by its polynomial. */
function checksum(bytes: readonly number[]): number {
  let crc = 0xffffffff
  for (const byte of bytes) {
    crc ^= byte
    for (let k = 0; k < 8; k++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1
  }
  return ~crc >>> 0
}
const word = (value: number) => [24, 16, 8, 0].map((shift) => (value >>> shift) & 255)
const ascii = (text: string) => [...text].map((letter) => letter.charCodeAt(0))
const chunk = (type: string, data: readonly number[]) => [
  ...word(data.length),
  ...ascii(type),
  ...data,
  ...word(checksum([...ascii(type), ...data])),
]
/** Rows of packed bytes, without a filter. */
function png(
  width: number,
  depth: number,
  colour: number,
  rows: readonly (readonly number[])[],
  more: readonly number[] = [],
) {
  return Uint8Array.from([
    ...[0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10],
    ...chunk('IHDR', [...word(width), ...word(rows.length), depth, colour, 0, 0, 0]),
    ...more,
    ...chunk('IDAT', [...deflateSync(Uint8Array.from(rows.flatMap((row) => [0, ...row])))]),
    ...chunk('IEND', []),
  ])
}

describe('a PNG of few bits a pixel', () => {
  test.each([
    [
      1,
      11,
      [
        [0b10110010, 0b01100000],
        [0b01111111, 0b10000000],
      ],
      [1, 0, 1, 1, 0, 0, 1, 0, 0, 1, 1, 0, 1, 1, 1, 1, 1, 1, 1, 1, 0, 0],
    ],
    [
      2,
      5,
      [
        [0b00011011, 0b11000000],
        [0b11100100, 0b01000000],
      ],
      [0, 1, 2, 3, 3, 3, 2, 1, 0, 1],
    ],
    [
      4,
      3,
      [
        [0x5a, 0xf0],
        [0x03, 0x70],
      ],
      [5, 10, 15, 0, 3, 7],
    ],
  ] as const)('%d bits: the high ones first, every row from a whole byte', (depth, width, rows, pixels) => {
    const image = readImage(png(width, depth, 0, rows))
    expect([...image.pixels]).toEqual(pixels)
    expect(image).toMatchObject({
      width,
      height: 2,
      bitDepth: depth,
      fullScale: 2 ** depth - 1,
      format: 'png',
    })
  })

  test('with a palette has the mean of each colour', () => {
    const colours = chunk('PLTE', [0, 0, 0, 30, 60, 90, 255, 255, 255, 1, 2, 6])
    const image = readImage(png(5, 2, 3, [[0b00011011, 0b01000000]], colours))
    expect([...image.pixels]).toEqual([0, 60, 255, 3, 60])
    expect(image).toMatchObject({ bitDepth: 8, fullScale: 255, notes: ['palette colours averaged'] })
    expect([...readImage(png(3, 8, 3, [[3, 0, 1]], colours)).pixels]).toEqual([3, 0, 60])
  })

  test('tells its pixel size by a text, and is refused by what it is where it is broken', () => {
    const text = chunk('tEXt', [...ascii('Comment'), 0, ...ascii('pixel size 0.3 um')])
    expect(readImage(png(1, 8, 0, [[7]], text)).pixelUm).toBeCloseTo(0.3, 12)
    expect(
      readImage(png(1, 8, 0, [[7]], chunk('tEXt', [...ascii('Comment'), 0, ...ascii('pixel size 0 um')]))),
    ).not.toHaveProperty('pixelUm')
    expect(() => readImage(png(1, 8, 0, [[7]]).subarray(0, 40), 'a.png')).toThrow(
      /a\.png is a PNG that cannot be decoded/,
    )
    expect(() => readImage(Uint8Array.of(0x89, 0x50), 'a')).toThrow(/of an unknown type/)
    expect(() => readImage(Uint8Array.of(0x4d, 0x4d, 0, 0x2b, 0), 'a')).toThrow(/a BigTIFF/)
    expect(() => readImage(Uint8Array.of(0x49, 0x49, 0, 0x2a, 0), 'a')).toThrow(/of an unknown type/)
  })
})

test.each([
  [1, 1],
  [255, 8],
  [256, 9],
  [4095, 12],
  [65_535, 16],
])('a graymap up to %d has %d bits', (most, bits) => {
  expect(readImage(Uint8Array.from(ascii(`P2 1 1 ${most} 1\n`)))).toMatchObject({
    bitDepth: bits,
    fullScale: most,
  })
})

describe('pixels at the limit of the detector', () => {
  const times = (count: number, value: number) => new Array<number>(count).fill(value)

  /** By a table of all counts: at full scale, or four at least and more than four times the most frequent of the four values below. */
  function byTable(pixels: readonly number[], fullScale: number): number {
    const table = new Map<number, number>()
    for (const value of pixels) table.set(value, (table.get(value) ?? 0) + 1)
    const [top, ...below] = [...table.keys()].sort((a, b) => b - a)
    const count = table.get(top ?? 0) ?? 0
    if ((top ?? 0) >= fullScale) return count
    const usual = Math.max(1, ...below.slice(0, 4).map((value) => table.get(value) ?? 0))
    return (top ?? 0) > 0 && count >= 4 && count > 4 * usual ? count : 0
  }

  test('are those of a table of all counts, in any order', () => {
    const heap = fc.tuple(
      fc.nat(60),
      fc.array(fc.tuple(fc.integer({ min: -3, max: 9 }), fc.nat(9)), { maxLength: 12 }),
    )
    fc.assert(
      fc.property(heap, fc.nat(), ([top, others], turn) => {
        const all = [...others.flatMap(([value, count]) => times(count, value)), ...times(top, 10)]
        const at = all.length === 0 ? 0 : turn % all.length
        const pixels = [...all.slice(at), ...all.slice(0, at)]
        expect(saturatedPixels(pixels, 12)).toBe(byTable(pixels, 12))
        expect(saturatedPixels(pixels.toReversed(), 10)).toBe(byTable(pixels, 10))
      }),
    )
  })

  test('below full scale are a heap of four at least, more than four times those just below it', () => {
    expect(saturatedPixels([...times(4, 9), 1, 2], 12)).toBe(0)
    expect(saturatedPixels([...times(5, 9), 1, 2], 12)).toBe(5)
    expect(saturatedPixels([...times(8, 9), 8, 8], 12)).toBe(0)
    expect(saturatedPixels([...times(9, 9), 8, 8], 12)).toBe(9)
    expect(saturatedPixels([9, 1, 2], 9)).toBe(1)
    // Darkness is no limit; nor is a frequent count below the four that are looked at.
    expect(saturatedPixels(times(50, 0), 12)).toBe(0)
    expect(saturatedPixels([...times(9, 9), 8, 7, 6, 5, ...times(30, 4)], 12)).toBe(9)
    expect(saturatedPixels([...times(9, 9), 8, 7, 6, ...times(30, 5)], 12)).toBe(0)
  })
})

test.each([
  ['pixel pitch 250 nm', 0.25],
  ['0.5 mm/px', 500],
  ['0,25 um per pixel', 0.25],
  ['pixel_um = .2', 0.2],
  ['pixel_nm = 200', 0.2],
  ['pixels: 640 by 480', undefined],
  ['exposure 3 ms', undefined],
])('the comment %s tells a pixel pitch of %s um', (comment, um) => {
  const found = pixelScaleUm(['camera 7', comment, 'pixel size 9 um'])
  if (um === undefined) expect(found).toBe(9)
  else expect(found).toBeCloseTo(um, 12)
})
