import { expect, test } from 'vitest'
import { requireReading, requireSignal } from '../../../src/measure/fit/requireReading'

test('a reading is finite and no larger than any instrument gives, or is named by its place', () => {
  const values = [1, -1e9, 1e9, 1.1e9, -1.1e9, Number.NaN, Number.POSITIVE_INFINITY]
  const read = (at: number) => () => requireReading('position', values, at, 'um')
  expect([0, 1, 2].map((at) => read(at)())).toEqual([1, -1e9, 1e9])
  expect(read(3)).toThrow(/position 4 is 1100000000; must be −1000000000 to 1000000000/)
  expect(read(4)).toThrow(/position 5 is -1100000000; must be −1000000000/)
  expect(read(5)).toThrow(/position 6 is NaN; must be a finite number/)
  expect(read(6)).toThrow(/position 7 is Infinity; must be a finite number/)
  expect(read(7)).toThrow(/position 8 is .*must be a finite number/)
})

test('a signal is above 0, and large enough to be squared', () => {
  expect(() => requireSignal(1e-100)).not.toThrow()
  expect(() => requireSignal(0)).toThrow(/highest power is 0; must be above 0/)
  expect(() => requireSignal(-2)).toThrow(/above 0: no signal/)
  expect(() => requireSignal(9e-101)).toThrow(/must be above 1e-100/)
})
