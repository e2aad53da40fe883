import fc from 'fast-check'
import { expect, test } from 'vitest'
import { InputError } from '../../src/numerics/inputError'
import { angleForExtinctionRad, extinctionRatioDb } from '../../src/optics/polarisation'

const DEGREE = Math.PI / 180

test('more than 20 dB needs less than 6 degrees, more than 30 dB less than 1.8 degrees (common practice)', () => {
  expect(extinctionRatioDb(6 * DEGREE)).toBeLessThan(20)
  expect(extinctionRatioDb(5.7 * DEGREE)).toBeGreaterThan(20)
  expect(extinctionRatioDb(1.8 * DEGREE)).toBeGreaterThan(30)
})

test('angle and ratio undo each other', () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 100, noNaN: true }), (ratio) => {
      expect(extinctionRatioDb(angleForExtinctionRad(ratio))).toBeCloseTo(ratio, 9)
    }),
  )
})

test('aligned axes keep everything, 45 degrees nothing', () => {
  expect(extinctionRatioDb(0)).toBe(Number.POSITIVE_INFINITY)
  expect(extinctionRatioDb(Math.PI / 4)).toBeCloseTo(0, 12)
})

test('angles beyond 45 degrees and negative ratios are refused', () => {
  expect(() => extinctionRatioDb(1)).toThrow(InputError)
  expect(() => angleForExtinctionRad(-1)).toThrow('extinctionDb is -1; must be 0 to 100')
})
