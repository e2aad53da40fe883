// A run of pseudo-random words from a state of four: where many are wanted in a row, at a fraction of what philox costs.
// xoshiro128++. Source: D. Blackman and S. Vigna, ACM Trans. Math. Softw. 47 (2021) 36; its first words are in the tests.

import { UNIT_LEAST, UNIT_PER_WORD } from './randomWords'

/**
 * Writes the next `count` numbers between 0 and 1, exclusive, to every `step`th entry of `out` from `from` on. The state, which
 * moves on, is the four words of `state` from `at` on, not all 0.
 */
export function fillRun(
  state: Uint32Array,
  at: number,
  count: number,
  out: Float64Array,
  from: number,
  step: number,
): void {
  let a = state[at] as number
  let b = state[at + 1] as number
  let c = state[at + 2] as number
  let d = state[at + 3] as number
  for (let i = 0, position = from; i < count; i++, position += step) {
    const sum = (a + d) | 0
    const word = (((sum << 7) | (sum >>> 25)) + a) >>> 0
    out[position] = word * UNIT_PER_WORD + UNIT_LEAST
    const shifted = b << 9
    c ^= a
    d ^= b
    b ^= c
    a ^= d
    c ^= shifted
    d = (d << 11) | (d >>> 21)
  }
  state[at] = a
  state[at + 1] = b
  state[at + 2] = c
  state[at + 3] = d
}
