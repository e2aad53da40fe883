import { describe, expect, test } from 'vitest'
import { packNumbers, unpackNumbers } from '../../src/numerics/compactNumbers'

describe('columns as short text', () => {
  // The least type that holds every value exactly, at both ends of its range and just beyond it.
  test.each([
    { type: 'u1', values: [0, 1, 255] },
    { type: 'u2', values: [0, 256, 65_535] },
    { type: 'f4', values: [65_536, 0.5, -3, 2 ** -126] },
    { type: 'f4', values: [-0, 1, 2] },
    { type: 'f8', values: [0.1, -1e300, 1 / 3, 16_777_217] },
    { type: 'u1', values: [] },
  ])('hold $values exactly as $type', ({ type, values }) => {
    const packed = packNumbers(Float64Array.from(values))
    expect(packed).toMatchObject({ type, count: values.length })
    expect(Array.from(unpackNumbers(packed))).toEqual(values)
  })

  test('keep every byte of a column that is longer than one piece of text', () => {
    const values = Float64Array.from({ length: 20_001 }, (_, i) => Math.sin(i))
    expect(unpackNumbers(packNumbers(values))).toEqual(values)
  })

  test('are refused where the text is not base64 or has another length', () => {
    const packed = packNumbers(Float64Array.of(0.1, 0.2))
    expect(() => unpackNumbers({ ...packed, base64: '***' })).toThrow('base64')
    expect(() => unpackNumbers({ ...packed, count: 3 })).toThrow('24 bytes')
  })
})
