// Against full-vector finite differences with an absorbing border in the substrate; the rows of docs/validation.md are the same tips.

import { describe, expect, test } from 'vitest'
import { FIRST_TIPS, MORE_TIPS, solvedTip } from './substrateTips'

describe('a mode above a substrate of higher index', () => {
  test.each(FIRST_TIPS)('$core, $widthUm µm wide', (tip) => {
    const { mode, lossToDb, leakageDbPerMm } = solvedTip(tip)
    for (const [i, mfdUm] of [3.2, 10.4].entries()) {
      const wantedDb = tip.withSubstrateDb[i] ?? Number.NaN
      expect(Math.abs(lossToDb(mfdUm) - wantedDb)).toBeLessThan(0.05)
      // What leaving the substrate out would have said is off by far more than that.
      expect(Math.abs((tip.withoutSubstrateDb[i] ?? Number.NaN) - wantedDb)).toBeGreaterThan(0.1)
    }
    expect(Math.abs(leakageDbPerMm / tip.leakageDbPerMm - 1)).toBeLessThan(0.06)
    expect(mode.substrateTakenOut).toBe(true)
  })

  // A wall at the substrate's surface is 0.06 dB off for the quasi-TM nitride guide; leakage by the leading field alone, 16 % for silicon.
  test.each(MORE_TIPS)(
    '$kind, index $coreIndex, $widthUm by $heightUm µm, $buriedOxideUm µm of oxide below, $topUm µm above',
    (tip) => {
      const { lossToDb, vectorLossToDb, leakageDbPerMm } = solvedTip(tip)
      expect(Math.abs(lossToDb(3.2) - tip.lossDb)).toBeLessThan(0.03)
      expect(Math.abs(vectorLossToDb(3.2) - tip.vectorLossDb)).toBeLessThan(0.04)
      expect(Math.abs(leakageDbPerMm / tip.leakageDbPerMm - 1)).toBeLessThan(0.05)
    },
  )

  test('is guided below the index of its oxide, as long as it lies above that of the oxide between substrate and air', () => {
    const deep = FIRST_TIPS.find(({ widthUm }) => widthUm === 0.15)
    if (deep === undefined) expect.fail('the deep tip is missing')
    const { mode } = solvedTip(deep)
    expect(mode.effectiveIndex).toBeLessThan(1.444)
    // A slab of oxide 4 µm thick between a wall and air: symmetric-slab relation of the doubled slab, odd mode.
    const k = (2 * Math.PI) / 1.55
    const phase = (index: number) => {
      const kappa = k * Math.sqrt(1.444 ** 2 - index ** 2)
      return kappa * 4 - Math.PI / 2 - Math.atan((k * Math.sqrt(index ** 2 - 1)) / kappa)
    }
    let [low, high] = [1.01, 1.4439]
    for (let i = 0; i < 60; i++) {
      const middle = (low + high) / 2
      if (phase(middle) > 0) low = middle
      else high = middle
    }
    expect(mode.cutOffIndex).toBeCloseTo(low, 3)
  })
})
