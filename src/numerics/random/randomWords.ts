// Pseudo-random words that are a function of their place: any worker can ask for any of them, in any order.
// Philox4x32-10: ten rounds of a keyed bijection of a 128-bit counter.
// Source: J. K. Salmon et al., Proc. SC11 (2011), art. 16; the known answers of its authors are in the tests.

/** One step of a 32-bit word: 2^-32. */
export const UNIT_PER_WORD = 2 ** -32
/** The least number between 0 and 1 that a word stands for: the middle of its step. The greatest lies as far below 1. */
export const UNIT_LEAST = UNIT_PER_WORD / 2

const ROUNDS = 10

/** A 32-bit finaliser that spreads every bit of a seed (murmur3's, after A. Appleby; from memory). */
export function mix32(word: number): number {
  let x = word | 0
  x = Math.imul(x ^ (x >>> 16), 0x85ebca6b)
  x = Math.imul(x ^ (x >>> 13), 0xc2b2ae35)
  return (x ^ (x >>> 16)) >>> 0
}

/** Upper half of a 32 x 32 bit product, by halves: no sum of two exceeds 32 bits, so whole-number arithmetic does it. */
function upperProduct(a: number, b: number): number {
  const aLow = a & 0xffff
  const aHigh = a >>> 16
  const bLow = b & 0xffff
  const bHigh = b >>> 16
  const middle = (Math.imul(aHigh, bLow) + (Math.imul(aLow, bLow) >>> 16)) | 0
  const other = (Math.imul(aLow, bHigh) + (middle & 0xffff)) | 0
  return (Math.imul(aHigh, bHigh) + (middle >>> 16) + (other >>> 16)) | 0
}

/** Four words for a counter of four words and a key of two, written to `out`. */
export function philox(
  c0: number,
  c1: number,
  c2: number,
  c3: number,
  k0: number,
  k1: number,
  out: Uint32Array,
): void {
  let a = c0 | 0
  let b = c1 | 0
  let c = c2 | 0
  let d = c3 | 0
  let x = k0 | 0
  let y = k1 | 0
  for (let round = 0; round < ROUNDS; round++) {
    const highA = upperProduct(0xd2511f53, a)
    const highC = upperProduct(0xcd9e8d57, c)
    const lowA = Math.imul(0xd2511f53, a)
    const lowC = Math.imul(0xcd9e8d57, c)
    a = highC ^ b ^ x
    b = lowC
    c = highA ^ d ^ y
    d = lowA
    x = (x + 0x9e3779b9) | 0
    y = (y + 0xbb67ae85) | 0
  }
  out[0] = a
  out[1] = b
  out[2] = c
  out[3] = d
}
