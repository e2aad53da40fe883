import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { readImage } from '../../../src/measure'
import { withoutPackBits } from '../../../src/measure/images/tiffPackBits'
import { tiffFile } from '../support/tiffFile'

const folder = new URL('../../reference/data/tiff/', import.meta.url)
const bytes = (name: string) => new Uint8Array(readFileSync(new URL(name, folder)))
const expected: { width: number; height: number; pixels: number[] } = JSON.parse(
  readFileSync(new URL('expected.json', folder), 'utf8'),
)
const names = readdirSync(folder).filter((name) => name.endsWith('.tif'))

describe('TIFF files written from the specification (TIFF 6.0, by recipes/make_tiff.py)', () => {
  test.each(names.filter((name) => !name.startsWith('refused')))(
    '%s has the pixels it was made of',
    (name) => {
      const image = readImage(bytes(name), name)
      expect(image).toMatchObject({ width: expected.width, height: expected.height, format: 'tiff' })
      expect([...image.pixels]).toEqual(expected.pixels)
    },
  )

  test.each([
    ['refused-jpeg.tif', /a TIFF with JPEG compression.*distort the widths/],
    ['refused-signed.tif', /a TIFF of signed integers/],
    ['refused-tiles-with-predictor.tif', /tiles with a predictor.*grey TIFF in strips/],
  ])('%s is refused with the reason, not misread', (name, why) => {
    expect(() => readImage(bytes(name), name)).toThrow(why)
  })

  test('a BigTIFF is named as such', () => {
    expect(() => readImage(Uint8Array.of(0x49, 0x49, 0x2b, 0, 8, 0), 'a.tif')).toThrow(/a BigTIFF/)
  })
})

describe('PackBits', () => {
  test('the worked example that the format was published with is unpacked (from memory)', () => {
    const packed = [0xfe, 0xaa, 0x02, 0x80, 0x00, 0x2a, 0xfd, 0xaa, 0x03, 0x80, 0x00, 0x2a, 0x22, 0xf7, 0xaa]
    const plain = [
      0xaa, 0xaa, 0xaa, 0x80, 0x00, 0x2a, 0xaa, 0xaa, 0xaa, 0xaa, 0x80, 0x00, 0x2a, 0x22, 0xaa, 0xaa, 0xaa,
      0xaa, 0xaa, 0xaa, 0xaa, 0xaa, 0xaa, 0xaa,
    ]
    expect([...readImage(oneRow(packed, plain.length)).pixels]).toEqual(plain)
  })

  test('a strip that ends within a run is refused', () => {
    expect(() => readImage(oneRow([0xfe, 0xaa, 0x05, 0x01], 9))).toThrow(/end within a run/)
  })

  test('a file with another compression comes back as it is', () => {
    const plain = bytes('plain-16-big.tif')
    expect(withoutPackBits(plain)).toBe(plain)
  })
})

/** An 8-bit TIFF of one row with one PackBits strip. */
function oneRow(packed: readonly number[], width: number): Uint8Array {
  return tiffFile({ width, height: 1, compression: 32_773, strips: [Uint8Array.from(packed)] })
}
