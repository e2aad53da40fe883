// Repeatable chance for one mutant: a stream of its own from the seed and the mutant's number, so that a failing mutant can
// be made again alone.

import { mix32, philox, UNIT_PER_WORD } from '../../src/numerics/random/randomWords'

export interface Dice {
  /** 0 up to, not including, 1. */
  readonly unit: () => number
  /** 0 up to, not including, `count`. */
  readonly below: (count: number) => number
  readonly pick: <T>(choices: readonly T[]) => T
  readonly chance: (share: number) => boolean
}

export function diceFor(seed: number, kind: string, number: number): Dice {
  const kindWord = [...kind].reduce((word, letter) => mix32(word ^ (letter.codePointAt(0) ?? 0)), 7)
  const words = new Uint32Array(4)
  let drawn = 0
  const unit = () => {
    if (drawn % 4 === 0) philox(drawn / 4, number, kindWord, 0, seed, mix32(seed), words)
    return (words[drawn++ % 4] ?? 0) * UNIT_PER_WORD
  }
  const below = (count: number) => Math.floor(unit() * count)
  return {
    unit,
    below,
    pick: (choices) => choices[below(choices.length)] as (typeof choices)[number],
    chance: (share) => unit() < share,
  }
}
