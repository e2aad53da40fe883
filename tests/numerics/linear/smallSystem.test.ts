import { expect, test } from 'vitest'
import { solveSmall } from '../../../src/numerics/linear/smallSystem'

test('three equations with known roots, the first without its own unknown', () => {
  // x = 2, y = -1, z = 3
  const rows = [
    [0, 2, 1, 1],
    [1, 1, 1, 4],
    [3, -1, 2, 13],
  ]
  const found = solveSmall(rows)
  expect(found?.[0]).toBeCloseTo(2, 12)
  expect(found?.[1]).toBeCloseTo(-1, 12)
  expect(found?.[2]).toBeCloseTo(3, 12)
})

test('equations that depend on one another have no answer', () => {
  expect(
    solveSmall([
      [1, 2, 3],
      [2, 4, 6],
    ]),
  ).toBeNull()
})
