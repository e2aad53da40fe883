// Headers and samples as the format description of Netpbm, "pgm", has them.

import { describe, expect, test } from 'vitest'
import { readPgm } from '../../../src/measure/images/pgm'

const ascii = (text: string) => Array.from(new TextEncoder().encode(text))
const read = (head: string, ...samples: readonly number[]) =>
  readPgm(new Uint8Array([...ascii(head), ...samples]))

describe('a graymap', () => {
  test('may have any digit in its header and its samples', () => {
    const samples = [0, 19, 293, 48_576, 65_535, 10, 9, 57, 48]
    const { width, height, maxValue, pixels } = read(`P2\n9 1\n65535\n${samples.join(' ')}\n`)
    expect([width, height, maxValue]).toEqual([9, 1, 65_535])
    expect([...pixels]).toEqual(samples)
    const wide = read('P5 1 90 199\n', ...Array.from({ length: 90 }, (_, i) => 2 * i))
    expect([wide.width, wide.height, wide.maxValue]).toEqual([1, 90, 199])
    expect(wide.pixels[89]).toBe(178)
  })

  test('of more than 255 counts has two bytes a sample, the high one first', () => {
    expect([...read('P5 2 1 256\n', 1, 2, 0, 3).pixels]).toEqual([258, 3])
    expect([...read('P5 2 1 255\n', 1, 2).pixels]).toEqual([1, 2])
  })

  test('ends its header with one blank, or with CR and LF together', () => {
    expect([...read('P5 2 1 255 ', 10, 32).pixels]).toEqual([10, 32])
    expect([...read('P5 2 1 255\r\n', 10, 32).pixels]).toEqual([10, 32])
    expect([...read('P5 2 1 255\n', 13, 10).pixels]).toEqual([13, 10])
  })

  test('may have comments between the numbers, up to the end of their lines', () => {
    const { width, height, comments } = read('P2 # first 7\n#second 8\r3 # third\n1 9\n1 2 3')
    expect([width, height]).toEqual([3, 1])
    expect(comments).toEqual(['first 7', 'second 8', 'third'])
  })

  test.each([
    ['another signature', 'P3 1 1 255\n0 0 0', 'PGM signature is "P3"'],
    ['a maximum of 0', 'P2 1 1 0\n0', 'PGM maximum is 0'],
    ['a maximum beyond two bytes', 'P2 1 1 65536\n0', 'PGM maximum is 65536'],
    ['a sample above the maximum', 'P2 1 1 9\n10', 'PGM value is 10'],
    ['a sample too few, plain', 'P2 3 1 9\n1 2    ', 'PGM data is 2 values'],
    ['no room for the samples, plain', 'P2 4 1 9\n1 2 3', 'PGM data is'],
    ['a byte too few, binary', 'P5 3 1 9\n12', 'PGM data is 2 bytes'],
  ])('is refused for %s', (_, text, message) => {
    expect(() => read(text)).toThrow(message)
  })

  test('may hold the very maximum, and just as many samples as it needs', () => {
    expect([...read('P2 3 1 9\n9 0 9').pixels]).toEqual([9, 0, 9])
    expect([...read('P2 1 1 1\n1').pixels]).toEqual([1])
    expect([...read('P5 2 1 65535\n', 255, 255, 0, 0).pixels]).toEqual([65_535, 0])
  })
})
