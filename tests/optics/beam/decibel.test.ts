import fc from 'fast-check'
import { expect, test } from 'vitest'
import { InputError } from '../../../src/numerics/inputError'
import { efficiencyFromLossDb, lossDb } from '../../../src/optics/beam/decibel'

test('half the light is 3.0103 dB, all of it is plain 0 dB, none of it is endless', () => {
  expect(lossDb(0.5)).toBeCloseTo(3.0103, 5)
  expect(Object.is(lossDb(1), 0)).toBe(true)
  expect(lossDb(0)).toBe(Number.POSITIVE_INFINITY)
  expect(efficiencyFromLossDb(Number.POSITIVE_INFINITY)).toBe(0)
})

test('loss and efficiency undo each other', () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 200, noNaN: true }), (loss) => {
      expect(lossDb(efficiencyFromLossDb(loss))).toBeCloseTo(loss, 11)
    }),
  )
})

test('gain, more than all light, and things that are not numbers are refused', () => {
  expect(() => lossDb(1.01)).toThrow('efficiency is 1.01; must be 0 to 1')
  expect(() => lossDb(Number.NaN)).toThrow(InputError)
  expect(() => efficiencyFromLossDb(-0.5)).toThrow('lossDb is -0.5; must be 0 or more')
  expect(() => efficiencyFromLossDb(Number.NaN)).toThrow(InputError)
})
