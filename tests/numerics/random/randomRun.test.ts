import { expect, test } from 'vitest'
import { fillRun } from '../../../src/numerics/random/randomRun'

// First words of xoshiro128++ from the state 1, 2, 3, 4: D. Blackman and S. Vigna's reference code (from memory).
const WORDS = [
  641, 1573767, 3222811527, 3517856514, 836907274, 4247214768, 3867114732, 1355841295, 495546011, 621204420,
]

test('the words are those of the reference code, as the middles of their steps', () => {
  const state = Uint32Array.of(9, 1, 2, 3, 4, 9)
  const out = new Float64Array(2 * WORDS.length + 1)
  fillRun(state, 1, WORDS.length, out, 1, 2)
  expect(WORDS.map((_, i) => (out[2 * i + 1] ?? 0) * 2 ** 32 - 0.5)).toEqual(WORDS)
  expect(out.filter((_, i) => i % 2 === 0).every((each) => each === 0)).toBe(true)
  expect([state[0], state[5]]).toEqual([9, 9])
})

test('a run continues where it was left', () => {
  const [whole, halves] = [new Float64Array(10), new Float64Array(10)]
  fillRun(Uint32Array.of(1, 2, 3, 4), 0, 10, whole, 0, 1)
  const state = Uint32Array.of(1, 2, 3, 4)
  fillRun(state, 0, 3, halves, 0, 1)
  fillRun(state, 0, 7, halves, 3, 1)
  expect(halves).toEqual(whole)
})
