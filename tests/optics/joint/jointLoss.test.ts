import { expect, test } from 'vitest'
import { jointEfficiency } from '../../../src/optics/joint/joint'
import { jointLossDb } from '../../../src/optics/joint/jointLoss'
import { MATCHED } from './jointCases'

test('equals the loss of the efficiency wherever that can be written as a number', () => {
  for (const offsetXUm of [0, 1, 10, 60]) {
    const joint = { ...MATCHED, offsetXUm, tiltYRad: 0.02, gapUm: 7 }
    expect(jointLossDb(joint)).toBeCloseTo(-10 * Math.log10(jointEfficiency(joint)), 9)
  }
})

test('grows with the square of the offset beyond the number format: 4.343 d^2 / w^2 for matched modes (Marcuse 1977, from memory)', () => {
  const w = MATCHED.emitterMfdXUm / 2
  for (const offsetXUm of [300, 1000]) {
    expect(jointEfficiency({ ...MATCHED, offsetXUm })).toBe(0)
    const expected = (10 / Math.LN10) * (offsetXUm / w) ** 2
    expect(jointLossDb({ ...MATCHED, offsetXUm }) / expected).toBeCloseTo(1, 9)
  }
})
