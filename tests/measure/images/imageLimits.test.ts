// Limits of what a header may promise, and kinds of TIFF, each on either side.

import { deflateSync } from 'node:zlib'
import { describe, expect, test } from 'vitest'
import { checkPngHeader, requireImageSize, requireUnfolded } from '../../../src/measure/images/imageSize'
import { inflatedLength } from '../../../src/measure/images/inflatedLength'
import { readImage } from '../../../src/measure/images/readImage'
import { tiffDirectory, tiffNumbers } from '../../../src/measure/images/tiffDirectory'
import { checkTiffHeader } from '../../../src/measure/images/tiffSize'
import { type TiffParts, tiffFile } from '../support/tiffFile'

test('an image has whole sides of one pixel or more, and fifty million pixels at most', () => {
  const size = (width: number, height: number) => () => requireImageSize('a', width, height)
  for (const [width, height] of [
    [1, 1],
    [5000, 10_000],
  ] as const)
    expect(size(width, height)).not.toThrow()
  for (const [width, height] of [
    [5000, 10_001],
    [2.5, 4],
    [4, 2.5],
    [0, 4],
    [4, 0],
    [-2, -2],
  ] as const)
    expect(size(width, height), `${width} × ${height}`).toThrow(/at most 50 million pixels/)
  expect(() => requireUnfolded('a', 'data', 7, 7)).not.toThrow()
  expect(() => requireUnfolded('a', 'data', 8, 7)).toThrow(/decompressed size of the data of a/)
})

describe('a PNG', () => {
  const word = (value: number) => [24, 16, 8, 0].map((shift) => (value >>> shift) & 255)
  const chunk = (type: string, data: readonly number[]) => [
    ...word(data.length),
    ...[...type].map((letter) => letter.charCodeAt(0)),
    ...data,
    ...[0, 0, 0, 0],
  ]
  const png = (depth: number, colour: number, ...pieces: readonly (readonly number[])[]) =>
    Uint8Array.from([
      ...new Array(8).fill(0),
      ...chunk('IHDR', [...word(9), ...word(7), depth, colour, 0, 0, 0]),
      ...pieces.flat(),
    ])
  const packed = (length: number) => [...deflateSync(new Uint8Array(length))]

  // Nine pixels of `depth` bits for each sample, a byte for the filter and one more, seven rows, twice, and a thousand bytes.
  test.each([
    [1, 0, 1],
    [8, 0, 1],
    [8, 2, 3],
    [4, 3, 1],
    [16, 4, 2],
    [16, 6, 4],
    [8, 5, 4],
  ])('of %d bits and colour type %d may unfold to what %d samples a pixel need', (depth, colour, samples) => {
    const most = 2 * 7 * (2 + Math.ceil((9 * depth * samples) / 8)) + 1000
    const check = (length: number) => () =>
      checkPngHeader(png(depth, colour, chunk('IDAT', packed(length))), 'a')
    expect(check(most)).not.toThrow()
    expect(check(most + 1)).toThrow(/decompressed size of the image data/)
  })

  test('may have its data in pieces, anywhere after its header', () => {
    const most = 2 * 7 * (2 + 9) + 1000
    const whole = (length: number) => {
      const data = packed(length)
      return png(8, 0, chunk('tEXt', [65, 0]), chunk('IDAT', data.slice(0, 5)), chunk('IDAT', data.slice(5)))
    }
    expect(() => checkPngHeader(whole(most), 'a')).not.toThrow()
    expect(() => checkPngHeader(whole(most + 1), 'a')).toThrow(/decompressed size/)
    expect(() => checkPngHeader(png(8, 0), 'a')).not.toThrow()
    expect(() => checkPngHeader(png(8, 0).subarray(0, 29), 'a')).not.toThrow()
    expect(() => checkPngHeader(png(8, 0).subarray(0, 28), 'a')).toThrow(/a PNG without a header/)
  })
})

describe('a deflated stream', () => {
  /** Stored blocks, RFC 1951, 3.2.4: a byte, the length and its complement, the bytes. */
  const stored = (lengths: readonly number[]) =>
    Uint8Array.from([
      ...[0x78, 0x01],
      ...lengths.flatMap((length, i) => [
        i === lengths.length - 1 ? 1 : 0,
        ...[length & 255, length >> 8, ~length & 255, (~length >> 8) & 255],
        ...new Array(length).fill(i),
      ]),
    ])

  test('of stored blocks has the sum of their lengths, as far as they go', () => {
    expect(inflatedLength(stored([3, 500, 0, 20]), 1e9)).toBe(523)
    expect(inflatedLength(stored([300, 300, 300]), 599)).toBe(600)
    expect(inflatedLength(stored([300, 300, 300]), 600)).toBe(900)
  })

  test('with a dictionary begins four bytes later', () => {
    const plain = Buffer.from('abcabcabcabc, and so on and so on')
    const stream = deflateSync(plain, { dictionary: Buffer.from('abcabc and so on') })
    expect(inflatedLength(stream, 1e9)).toBe(plain.length)
  })

  test('of kind 3, or with codes that are none, ends where it is', () => {
    // Bits from the lowest: last, kind 3; last, kind 2 and no code of any length.
    expect(inflatedLength(Uint8Array.of(0x78, 1, 0b111, 255, 255), 1e9)).toBe(0)
    expect(inflatedLength(Uint8Array.of(0x78, 1, 0b101, 0, 0, 0, 0, 0, 0, 0, 0, 0), 1e9)).toBe(0)
    expect(inflatedLength(new Uint8Array(0), 1e9)).toBe(0)
  })

  test('stops at the first block beyond what is wanted, counted over all of them', () => {
    const noise = Uint8Array.from({ length: 60_000 }, (_, i) => (i * i * 7 + (i >> 5)) % 253)
    const stream = deflateSync(noise, { memLevel: 1 }) // small blocks, each with its own codes
    expect(inflatedLength(stream, 1e9)).toBe(60_000)
    for (const most of [100, 20_000, 50_000]) {
      const counted = inflatedLength(stream, most)
      expect(counted).toBeGreaterThan(most)
      expect(counted).toBeLessThanOrEqual(most + 258)
    }
  })
})

describe('a TIFF', () => {
  const file = (
    change: (view: DataView, at: (tag: number) => number) => void,
    more: Partial<TiffParts> = {},
  ) => {
    const bytes = tiffFile({
      width: 3,
      height: 2,
      compression: 1,
      strips: [Uint8Array.of(1, 2, 3, 40, 50, 255)],
      ...more,
    })
    const { entries } = tiffDirectory(bytes)
    change(new DataView(bytes.buffer), (tag) => entries.find((entry) => entry.tag === tag)?.at ?? Number.NaN)
    return bytes
  }
  /** Puts another tag in the place of the rows per strip, which a single strip does not need. */
  const instead = (tag: number, value: number) => (view: DataView, at: (tag: number) => number) => {
    const entry = at(278)
    view.setUint16(entry, tag, true)
    view.setUint16(entry + 8, value, true)
  }

  test('of whole numbers has the full scale of its bits, and of floating-point numbers none', () => {
    expect(readImage(file(() => {}))).toMatchObject({ bitDepth: 8, fullScale: 255, notes: [] })
    const floats = new Uint8Array(Float32Array.of(0.5, 2.5, 3, 4, 5, 6).buffer)
    const float = file(
      (view, at) => {
        view.setUint16(at(258) + 8, 32, true)
        instead(339, 3)(view, at)
      },
      { strips: [floats] },
    )
    expect(readImage(float)).toMatchObject({ bitDepth: 32, fullScale: Number.POSITIVE_INFINITY })
    expect([...readImage(float).pixels]).toEqual([0.5, 2.5, 3, 4, 5, 6])
  })

  test('in which white is zero is inverted, and says so', () => {
    const image = readImage(file((view, at) => view.setUint16(at(262) + 8, 0, true)))
    expect([...image.pixels]).toEqual([254, 253, 252, 215, 205, 0])
    expect(image.notes).toEqual(['white-is-zero image inverted'])
  })

  test('of several samples in planes of their own is refused; of one sample it is none', () => {
    expect(() => readImage(file(instead(284, 2), { samples: 3, height: 1, width: 2 }), 'a.tif')).toThrow(
      /separate colour planes/,
    )
    expect(readImage(file(instead(284, 2))).pixels[5]).toBe(255)
    expect([...readImage(file(() => {}, { samples: 3, width: 2, height: 1 })).pixels]).toEqual([2, 115])
  })

  test('may have as many bytes of tags as the file, and 32 bytes a pixel', () => {
    const listed = (count: number) =>
      file((view, at) => {
        // Doubles: eight bytes each.
        view.setUint16(at(278), 50_000, true)
        view.setUint16(at(278) + 2, 12, true)
        view.setUint32(at(278) + 4, count, true)
      })
    const { length } = listed(1)
    // Six shorts and two longs besides.
    const most = Math.floor((length - 6 * 2 - 2 * 4) / 8)
    expect(() => checkTiffHeader(listed(most), 'a')).not.toThrow()
    expect(() => checkTiffHeader(listed(most + 1), 'a')).toThrow(
      /size of the tags of a is .*; must be no more than the file/,
    )
    const pixel = (samples: number) => () =>
      checkTiffHeader(
        file(() => {}, { samples }),
        'a',
      )
    expect(pixel(32)).not.toThrow()
    expect(pixel(33)).toThrow(/bytes per pixel of a is 33; must be at most 32/)
  })

  test('whose list ends with the file is read, and one byte further on refused', () => {
    const bytes = tiffFile({
      width: 3,
      height: 2,
      compression: 1,
      strips: [Uint8Array.of(1, 2, 3), Uint8Array.of(4, 5, 6)],
    })
    const directory = tiffDirectory(bytes)
    expect(tiffNumbers(bytes, directory, 279)).toEqual([3, 3])
    expect(tiffNumbers(bytes, directory, 12_345)).toEqual([])
    expect(() => tiffNumbers(bytes.subarray(0, bytes.length - 1), directory, 279)).toThrow(
      /beyond the end of the file/,
    )
  })

  test('that is packed may unfold to twice its pixels and the bytes of a tile', () => {
    // Runs of 128 zeros of two bytes each.
    const runs = (count: number) => Uint8Array.from({ length: 2 * count }, (_, i) => (i % 2 === 0 ? 0x81 : 0))
    const check = (count: number) => () =>
      checkTiffHeader(tiffFile({ width: 640, height: 50, compression: 32_773, strips: [runs(count)] }), 'a')
    const most = 2 * 640 * 50 + 4_000_000
    expect(most % 128).toBe(0)
    expect(check(most / 128)).not.toThrow()
    expect(check(most / 128 + 1)).toThrow(/decompressed size of the image data of a/)
  })
})
