import fc from 'fast-check'
import { expect, test } from 'vitest'
import { InputError } from '../../../src/numerics/inputError'
import { atMostNoLight, efficiencyFromLossDb, lossDb, NO_LIGHT_DB } from '../../../src/optics/beam/decibel'
import { anyWithin } from '../../support/arbitrary'

test('half the light is 3.0103 dB, all of it is plain 0 dB', () => {
  expect(lossDb(0.5)).toBeCloseTo(3.0103, 5)
  expect(Object.is(lossDb(1), 0)).toBe(true)
  expect(efficiencyFromLossDb(Number.POSITIVE_INFINITY)).toBe(0)
})

test('loss and efficiency undo each other', () => {
  fc.assert(
    fc.property(anyWithin(0, 199), (loss) => {
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

test('where less than a photon a second is left of 1 W, no light arrives, and no loss is greater', () => {
  const photonJ = (wavelengthUm: number) => (6.626_070_15e-34 * 299_792_458) / (wavelengthUm * 1e-6)
  expect(efficiencyFromLossDb(NO_LIGHT_DB)).toBeLessThan(photonJ(5))
  expect(lossDb(0)).toBe(NO_LIGHT_DB)
  expect(lossDb(1e-300)).toBe(NO_LIGHT_DB)
  expect(atMostNoLight(Number.NaN)).toBe(NO_LIGHT_DB)
  expect(atMostNoLight(3)).toBe(3)
})
