// Streams by an independent deflater (the platform's zlib, RFC 1950 and 1951), and files that decompress to more than they promise.

import { constants, deflateSync } from 'node:zlib'
import fc from 'fast-check'
import { encode } from 'fast-png'
import { describe, expect, test } from 'vitest'
import { inflatedLength } from '../../../src/measure/images/inflatedLength'
import { readImage } from '../../../src/measure/images/readImage'
import { InputError } from '../../../src/numerics/inputError'

const STRATEGIES = [
  constants.Z_DEFAULT_STRATEGY,
  constants.Z_FIXED,
  constants.Z_HUFFMAN_ONLY,
  constants.Z_RLE,
] as const

/** Bytes with repetitions, as images have them. */
const bytes = fc
  .array(fc.tuple(fc.integer({ min: 0, max: 255 }), fc.integer({ min: 1, max: 400 })), { maxLength: 300 })
  .map((runs) => Uint8Array.from(runs.flatMap(([value, count]) => Array(count).fill(value))))

test('gives the decompressed length of a stream, whatever the method', () => {
  fc.assert(
    fc.property(
      bytes,
      fc.constantFrom(...STRATEGIES),
      fc.integer({ min: 0, max: 9 }),
      (plain, strategy, level) =>
        inflatedLength(deflateSync(plain, { strategy, level }), 1e9) === plain.length,
    ),
    { numRuns: 60 },
  )
})

test('stops soon after the most that is wanted', () => {
  const bomb = deflateSync(new Uint8Array(40_000_000))
  const counted = inflatedLength(bomb, 1000)
  expect(counted).toBeGreaterThan(1000)
  expect(counted).toBeLessThan(1300)
})

test('ends with a stream that is cut short or damaged', () => {
  const stream = deflateSync(Uint8Array.from({ length: 5000 }, (_, i) => (i * i) % 251))
  expect(inflatedLength(stream.subarray(0, stream.length >> 1), 1e9)).toBeLessThan(5000)
  for (let at = 2; at < 200; at++) {
    const damaged = Uint8Array.from(stream)
    damaged[at] = (damaged[at] ?? 0) ^ 0x55
    expect(inflatedLength(damaged, 1e6)).toBeLessThan(1.1e6)
  }
})

/** CRC-32 of a PNG chunk: PNG (Third Edition), annex D. */
function crc(data: Uint8Array): number {
  let sum = 0xffffffff
  for (const byte of data) {
    sum ^= byte
    for (let bit = 0; bit < 8; bit++) sum = sum & 1 ? (sum >>> 1) ^ 0xedb88320 : sum >>> 1
  }
  return (sum ^ 0xffffffff) >>> 0
}

function chunk(type: string, data: Uint8Array): Uint8Array {
  const whole = new Uint8Array(12 + data.length)
  const view = new DataView(whole.buffer)
  view.setUint32(0, data.length)
  whole.set(new TextEncoder().encode(type), 4)
  whole.set(data, 8)
  view.setUint32(8 + data.length, crc(whole.subarray(4, 8 + data.length)))
  return whole
}

const small = encode({ width: 8, height: 8, depth: 8, channels: 1, data: new Uint8Array(64).fill(7) })
const HEADER_END = 8 + 25

const withChunks = (...chunks: readonly Uint8Array[]) =>
  Uint8Array.from([...small.subarray(0, HEADER_END), ...chunks.flatMap((each) => [...each])])

describe('a PNG of 8 by 8 pixels', () => {
  const zeros = deflateSync(new Uint8Array(64_000_000), { level: 9 })

  test.each([
    ['whose data unfold to 64 MB', withChunks(chunk('IDAT', zeros), chunk('IEND', new Uint8Array(0)))],
    [
      'whose data unfold to 64 MB in two pieces',
      withChunks(chunk('IDAT', zeros.subarray(0, 30_000)), chunk('IDAT', zeros.subarray(30_000))),
    ],
    [
      'whose colour profile unfolds to 64 MB',
      withChunks(chunk('iCCP', Uint8Array.from([97, 0, 0, ...zeros])), small.subarray(HEADER_END)),
    ],
  ])('%s is refused before they are made', (_, file) => {
    const held = () => process.memoryUsage().arrayBuffers
    const before = held()
    expect(() => readImage(file, 'beam.png')).toThrow(InputError)
    expect(() => readImage(file, 'beam.png')).toThrow('more than')
    expect(held() - before).toBeLessThan(20e6)
  })

  test('that is whole opens', () => {
    expect(readImage(small).pixels).toEqual(new Float64Array(64).fill(7))
  })
})
