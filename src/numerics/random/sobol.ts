// The Sobol sequence, plain or scrambled: points that fill the unit cube more evenly than chance does.
//   x(i) = XOR of v[k] over the set bits k of gray(i) = i ^ (i >> 1),  32 bits a coordinate
// Scrambled, each coordinate goes through a random permutation of Owen's nested kind, so that estimates are unbiased
// and every power-of-two stretch keeps its evenness.
// Sources: I. M. Sobol, USSR Comput. Math. Math. Phys. 7 (1967) 86; S. Joe and F. Y. Kuo, SIAM J. Sci. Comput. 30 (2008)
// 2635 (numbers); A. B. Owen, J. Complexity 14 (1998) 466 (scrambling); B. Burley, J. Comput. Graph. Tech. 9 (2020) 1
// (the permutation as a hash; its constants from memory, its net property is tested).

import { InputError } from '../inputError'
import { mix32, UNIT_PER_WORD } from './randomWords'
import { JOE_KUO } from './sobolNumbers'

const BITS = 32
const entries = JOE_KUO.split(';').map((entry) => entry.trim().split(' ').map(Number))

/** Dimensions that have direction numbers. */
export const SOBOL_MOST_DIMENSIONS = entries.length + 1

interface SobolSequence {
  readonly dimensions: number
  /**
   * Writes points number `first` to `first + count - 1` (0 to 2^32 - 1) as coordinates between 0 and 1, exclusive when
   * scrambled: the coordinates of a point side by side, the next point `stride` further on.
   */
  readonly fill: (first: number, count: number, out: Float64Array, stride?: number) => void
}

/** Direction numbers of one dimension with their bits in reverse: the first binary digit is bit 0. */
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
  return v.map(reversed)
}

function reversed(word: number): number {
  let x = word
  x = ((x >>> 1) & 0x55555555) | ((x & 0x55555555) << 1)
  x = ((x >>> 2) & 0x33333333) | ((x & 0x33333333) << 2)
  x = ((x >>> 4) & 0x0f0f0f0f) | ((x & 0x0f0f0f0f) << 4)
  x = ((x >>> 8) & 0x00ff00ff) | ((x & 0x00ff00ff) << 8)
  return (x >>> 16) | (x << 16)
}

/** A byte's bits read backwards behind the point: what the lowest byte of a reversed word is of a number between 0 and 1. */
const FRACTIONS = Float64Array.from({ length: 256 }, (_, byte) => (reversed(byte) >>> 0) * UNIT_PER_WORD)

/** The reversed word as a number between 0 and 1, exclusive at 1. */
function fractionOf(word: number): number {
  return (
    (FRACTIONS[word & 255] as number) +
    (FRACTIONS[(word >>> 8) & 255] as number) * 2 ** -8 +
    ((FRACTIONS[(word >>> 16) & 255] as number) * 2 ** -16 + (FRACTIONS[word >>> 24] as number) * 2 ** -24)
  )
}

/** A nested permutation of reversed words: each step lets a bit change only the bits above it. */
function scrambled(word: number, key: number): number {
  let x = word
  x ^= Math.imul(x, 0x3d20adea)
  x = (x + key) | 0
  x = Math.imul(x, (key >>> 16) | 1)
  x ^= Math.imul(x, 0x05526c56)
  x ^= Math.imul(x, 0x53a22864)
  return x
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
  const keys = new Uint32Array(dimensions)
  for (let d = 0; d < dimensions; d++) {
    table.set(directions(d), d * BITS)
    keys[d] = mix32(mix32(seed ?? 0) ^ Math.imul(d + 1, 0x9e3779b9))
  }
  const state = new Uint32Array(dimensions)
  const isPlain = seed === undefined
  const centre = isPlain ? 0 : 0.5 * UNIT_PER_WORD
  let at = 0

  const jump = (index: number) => {
    state.fill(0)
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
    fill: (first, count, out, stride = dimensions) => {
      if (count < 1) return
      if (first === at + 1) flip(lowestBit(first))
      else if (first !== at) jump(first)
      at = first + count - 1
      for (let d = 0; d < dimensions; d++) {
        const key = keys[d] as number
        const row = d * BITS
        let word = state[d] as number
        for (let i = 0, place = d; i < count; i++, place += stride) {
          if (i > 0) word ^= table[row + lowestBit(first + i)] as number
          out[place] = fractionOf(isPlain ? word : scrambled(word, key)) + centre
        }
        state[d] = word
      }
    },
  }
}

/** Place of the lowest bit that is set: what the Gray code of a number changes against the number before. */
const lowestBit = (word: number) => 31 - Math.clz32(word & -word)
