// Numbers for property tests. fast-check's own doubles are uniform over bit patterns, so that nearly all of a range's
// examples lie next to zero; these are uniform in value or in order of magnitude, and the ends of the range are among them.

import fc from 'fast-check'

const STEPS = 2 ** 31 - 1

/** Between `from` and `to`, uniform in value; both ends can occur. */
export function uniform(from: number, to: number): fc.Arbitrary<number> {
  return fc.integer({ min: 0, max: STEPS }).map((k) => within(from + (to - from) * (k / STEPS), from, to))
}

/** Between two positive ends, uniform in order of magnitude. */
export function logUniform(from: number, to: number): fc.Arbitrary<number> {
  return uniform(Math.log(from), Math.log(to)).map((exponent) => within(Math.exp(exponent), from, to))
}

/** Of either sign, or 0, with a size uniform in order of magnitude. */
export function signedLogUniform(from: number, to: number): fc.Arbitrary<number> {
  return fc
    .tuple(logUniform(from, to), fc.constantFrom(1, -1, 0))
    .map(([size, sign]) => (sign === 0 ? 0 : sign * size))
}

/** Anything that a range allows: its ends, values spread evenly, and values of every size above `least`. */
export function anyWithin(from: number, to: number, least = 1e-9): fc.Arbitrary<number> {
  const sizes = [
    ...(to > least ? [logUniform(Math.max(from, least), to)] : []),
    ...(from < -least ? [logUniform(Math.max(-to, least), -from).map((size) => -size)] : []),
  ]
  return fc.oneof(fc.constantFrom(from, to), uniform(from, to), ...sizes)
}

/** Columns of readings of the size that instruments write: a seed for each, not thousands of examples. */
export function readings(
  { fewest, most }: { readonly fewest: number; readonly most: number },
  from = 0,
  to = 1,
): fc.Arbitrary<Float64Array> {
  return fc.tuple(fc.integer({ min: fewest, max: most }), fc.nat()).map(([count, seed]) => {
    const next = mixed(seed)
    return Float64Array.from({ length: count }, () => within(from + (to - from) * next(), from, to))
  })
}

/** Text as people and files write it: letters, blanks, signs, other scripts, line ends, and half a pair of surrogates. */
export function text(least: number, most: number): fc.Arbitrary<string> {
  const letter = fc.oneof(
    { weight: 8, arbitrary: fc.constantFrom(...'abcXYZ019 .,-_/()µ°Ω±λ') },
    { weight: 1, arbitrary: fc.constantFrom('"', '\\', '\n', '\t', '<', '&', '=', '\u2028', '\ud83d\ude00') },
    { weight: 1, arbitrary: fc.constantFrom('\ud800', '\u0000', '\u202e') },
  )
  return fc
    .array(letter, { minLength: least, maxLength: Math.min(most, least + 30) })
    .map((letters) => letters.join('').slice(0, most))
}

function within(value: number, from: number, to: number): number {
  return Math.min(Math.max(value, from), to)
}

/** Uniform in 0 to 1 from a seed: the finaliser of MurmurHash3 over a counter (public domain). */
function mixed(seed: number): () => number {
  let counter = seed
  return () => {
    counter = (counter + 0x9e3779b9) | 0
    let word = counter ^ (counter >>> 16)
    word = Math.imul(word, 0x85ebca6b)
    word ^= word >>> 13
    word = Math.imul(word, 0xc2b2ae35)
    return ((word ^ (word >>> 16)) >>> 0) / 2 ** 32
  }
}
