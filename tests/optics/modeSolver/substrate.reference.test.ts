// Loss and leakage of these tips against full-vector finite differences with an absorbing border in the substrate are rows of
// docs/validation.md (tests/reference/checks/substrate.ts).

import { expect, test } from 'vitest'
import { FIRST_TIPS, solvedTip } from './substrateTips'

test('a mode above a substrate of higher index is guided below the index of its oxide, as long as it lies above that of the oxide between substrate and air', () => {
  const deep = FIRST_TIPS.find(({ widthUm }) => widthUm === 0.15)
  if (deep === undefined) expect.fail('the deep tip is missing')
  const { mode } = solvedTip(deep)
  expect(mode.substrateTakenOut).toBe(true)
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
