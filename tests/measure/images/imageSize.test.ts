import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { encode } from 'fast-png'
import { describe, expect, test } from 'vitest'
import { readImage } from '../../../src/measure/images/readImage'
import { TIFF_TAG, tiffDirectory } from '../../../src/measure/images/tiffDirectory'
import { InputError } from '../../../src/numerics/inputError'

const SMALL = { width: 8, height: 8, depth: 8 as const, channels: 1 as const }
const png = (width: number, height: number) => {
  const bytes = encode({ ...SMALL, data: new Uint8Array(64).fill(7) }).slice()
  const view = new DataView(bytes.buffer)
  view.setUint32(16, width)
  view.setUint32(20, height)
  return bytes
}

const tiff = (change: (view: DataView, entryAt: (tag: number) => number) => void) => {
  const file = join(import.meta.dirname, '../../reference/data/tiff/plain-16-little.tif')
  const bytes = new Uint8Array(readFileSync(file))
  const { entries } = tiffDirectory(bytes)
  change(new DataView(bytes.buffer), (tag) => entries.find((entry) => entry.tag === tag)?.at ?? Number.NaN)
  return bytes
}

/** How much more the heap and its buffers hold after the attempt, in MB. */
function takenMb(attempt: () => unknown): number {
  const held = () => process.memoryUsage().arrayBuffers + process.memoryUsage().heapUsed
  const before = held()
  expect(attempt).toThrow(InputError)
  return (held() - before) / 1e6
}

describe('a header that promises gigapixels', () => {
  test.each([
    ['PNG', png(60_000, 60_000)],
    ['PNG of no width', png(0, 20)],
    ['PGM of text', new TextEncoder().encode('P2\n30000 30000\n255\n1 2 3')],
    ['PGM', new TextEncoder().encode('P5\n30000 30000\n255\n123')],
    [
      'TIFF',
      tiff((view, at) => {
        view.setUint16(at(TIFF_TAG.width) + 2, 4, true)
        view.setUint32(at(TIFF_TAG.width) + 8, 4_000_000_000, true)
      }),
    ],
  ])('of a %s is refused before memory is taken', (_, bytes) => {
    expect(takenMb(() => readImage(bytes, 'file'))).toBeLessThan(50)
  })

  test('is named with its size and what is allowed', () => {
    expect(() => readImage(png(60_000, 60_000), 'beam.png')).toThrow(
      'beam.png is an image of 60000 × 60000 pixels; must be an image of at most 50 million pixels',
    )
  })
})

describe('a damaged TIFF', () => {
  test('whose size is a text, missing or a list is refused', () => {
    const asText = tiff((view, at) => view.setUint16(at(TIFF_TAG.width) + 2, 2, true))
    const asList = tiff((view, at) => view.setUint32(at(TIFF_TAG.height) + 4, 2, true))
    for (const bytes of [asText, asList]) expect(() => readImage(bytes, 'file')).toThrow(InputError)
  })

  test('whose tag is longer than the file is refused', () => {
    const bytes = tiff((view, at) => view.setUint32(at(TIFF_TAG.stripOffsets) + 4, 3_000_000_000, true))
    expect(() => readImage(bytes, 'file')).toThrow('size of the tags of file is')
  })

  test('still opens when it is whole', () => {
    expect(readImage(tiff(() => {})).width).toBeGreaterThan(3)
  })
})

test('a plain PGM value above the maximum of its header is refused', () => {
  const file = new TextEncoder().encode(`P2\n4 4\n255\n${'1 '.repeat(15)}${'9'.repeat(400)}`)
  expect(() => readImage(file)).toThrow('must be 0 to the maximum, 255')
})
