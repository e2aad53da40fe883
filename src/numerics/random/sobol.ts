// The Sobol sequence, plain or scrambled: points that fill the unit cube more evenly than chance does.
//   x(i) = XOR of v[k] over the set bits k of gray(i) = i ^ (i >> 1),  32 bits a coordinate
// Scrambled, the binary digits of each coordinate go through a random lower triangular matrix and a random shift, both modulo 2:
// estimates are unbiased, every power-of-two stretch keeps its evenness, and the variance is that of Owen's nested permutations.
// The matrix is applied to the numbers v once, so that a scrambled point costs what a plain one does.
// Sources: I. M. Sobol, USSR Comput. Math. Math. Phys. 7 (1967) 86; S. Joe and F. Y. Kuo, SIAM J. Sci. Comput. 30 (2008)
// 2635 (numbers); J. Matousek, J. Complexity 14 (1998) 527 (scrambling); A. B. Owen, ACM Trans. Model. Comput. Simul. 13
// (2003) 363 (its variance).

import { InputError } from '../inputError'
import { philox, UNIT_LEAST, UNIT_PER_WORD } from './randomWords'
import { JOE_KUO } from './sobolNumbers'

const BITS = 32
const entries = JOE_KUO.split(';').map((entry) => entry.trim().split(' ').map(Number))

/** Dimensions that have direction numbers. */
export const SOBOL_MOST_DIMENSIONS = entries.length + 1

/**
 * Writes points number `first` to `first + count - 1` (0 to 2^32 - 1) as coordinates between 0 and 1. The next point lies
 * `perPoint` further on, by default as many as a point has coordinates, the next coordinate `perCoordinate`, by default 1.
 */
export type FillPoints = (
  first: number,
  count: number,
  out: Float64Array,
  perPoint?: number,
  perCoordinate?: number,
) => void

interface SobolSequence {
  readonly dimensions: number
  /** Coordinates are exclusive of 0 and 1 when scrambled. */
  readonly fill: FillPoints
}

/** Direction numbers of one dimension; the first binary digit is bit 31. */
function directions(dimension: number): Uint32Array {
  const v = new Uint32Array(BITS)
  const entry = entries[dimension - 1]
  if (dimension === 0 || entry === undefined) {
    for (let k = 0; k < BITS; k++) v[k] = 2 ** (BITS - 1 - k)
  } else {
    const [degree = 0, inner = 0, ...initial] = entry
    for (let k = 0; k < BITS; k++) {
      if (k < degree) {
        v[k] = (initial[k] as number) * 2 ** (BITS - 1 - k)
        continue
      }
      const back = v[k - degree] as number
      let word = back ^ (back >>> degree)
      for (let j = 1; j < degree; j++) {
        if ((inner >>> (degree - 1 - j)) & 1) word ^= v[k - j] as number
      }
      v[k] = word
    }
  }
  return v
}

const WORDS_A_CALL = 4
/** Second word of the key, so that the scrambling shares no words with random points of the same seed. */
const SCRAMBLING_KEY = 0x9e3779b9

/** Random words that scramble a dimension: numbers 0 to 31 for the columns of its matrix, 32 for its shift. */
function scramblingWords(dimension: number, seed: number): Uint32Array {
  const words = new Uint32Array(BITS + WORDS_A_CALL)
  for (let k = 0; k < words.length; k += WORDS_A_CALL) {
    philox(k, dimension, 0, 0, seed, SCRAMBLING_KEY, words.subarray(k))
  }
  return words
}

/** The number times the matrix: a digit stays as it is and changes, at random, only those below it. */
function scrambled(number: number, words: Uint32Array): number {
  let product = 0
  for (let k = 0; k < BITS; k++) {
    const digit = 1 << k
    if (number & digit) product ^= digit | ((words[k] as number) & (digit - 1))
  }
  return product >>> 0
}

/**
 * The sequence in `dimensions` dimensions, scrambled by `seed`; without a seed it is the plain sequence, whose first
 * point is the origin. Consecutive points cost least. Throws InputError outside 1 to SOBOL_MOST_DIMENSIONS.
 */
export function sobolSequence(dimensions: number, seed?: number): SobolSequence {
  if (!Number.isInteger(dimensions) || dimensions < 1 || dimensions > SOBOL_MOST_DIMENSIONS) {
    throw new InputError('dimensions', dimensions, `a whole number, 1 to ${SOBOL_MOST_DIMENSIONS}`)
  }
  const table = new Uint32Array(dimensions * BITS)
  const shifts = new Uint32Array(dimensions)
  for (let d = 0; d < dimensions; d++) {
    const words = seed === undefined ? null : scramblingWords(d, seed)
    const own = directions(d)
    table.set(words === null ? own : own.map((number) => scrambled(number, words)), d * BITS)
    shifts[d] = words === null ? 0 : (words[BITS] as number)
  }
  const state = shifts.slice()
  const centre = seed === undefined ? 0 : UNIT_LEAST
  let at = 0

  const jump = (index: number) => {
    state.set(shifts)
    const gray = (index ^ (index >>> 1)) >>> 0
    for (let k = 0; k < BITS; k++) {
      if ((gray >>> k) & 1) flip(k)
    }
    at = index
  }
  const flip = (k: number) => {
    for (let d = 0; d < dimensions; d++) state[d] = (state[d] as number) ^ (table[d * BITS + k] as number)
  }
  return {
    dimensions,
    fill: (first, count, out, perPoint = dimensions, perCoordinate = 1) => {
      if (count < 1) return
      if (first === at + 1) flip(lowestBit(first))
      else if (first !== at) jump(first)
      const last = first + count - 1
      at = last
      for (let d = 0; d < dimensions; d++) {
        const row = d * BITS
        let word = state[d] as number
        let position = d * perCoordinate
        out[position] = word * UNIT_PER_WORD + centre
        for (let i = first + 1; i <= last; i++) {
          position += perPoint
          word ^= table[row + lowestBit(i)] as number
          out[position] = (word >>> 0) * UNIT_PER_WORD + centre
        }
        state[d] = word
      }
    },
  }
}

/** Place of the lowest bit that is set: what the Gray code of a number changes against the number before. */
const lowestBit = (word: number) => 31 - Math.clz32(word & -word)
