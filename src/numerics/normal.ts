// The standard normal distribution and its inverse.
// Quantile: algorithm AS 241 (PPND16), M. J. Wichura, Appl. Stat. 37 (1988) 477, relative error about 1e-16.
// Probability: erf by its series in the middle, erfc by its continued fraction in the tails (Abramowitz and Stegun
// 7.1.6 and 7.1.14), so that a tail of 1e-100 keeps its digits.

import { InputError } from './inputError'

const SERIES_BELOW = 2.5
const MOST_TERMS = 400

/** Probability of a standard normal sample at or below z. */
export function normalProbability(z: number): number {
  const x = Math.abs(z) / Math.SQRT2
  if (x < SERIES_BELOW) return 0.5 + 0.5 * Math.sign(z) * erfSeries(x)
  const tail = x > 40 ? 0 : 0.5 * erfcFraction(x)
  return z > 0 ? 1 - tail : tail
}

/** erf(x) = 2/sqrt(pi) exp(-x^2) sum of 2^n x^(2n+1) / (1 3 5 ... (2n+1)): all terms positive, nothing cancels. */
function erfSeries(x: number): number {
  let term = x
  let sum = x
  for (let n = 1; n < MOST_TERMS && term > 1e-17 * sum; n++) {
    term *= (2 * x * x) / (2 * n + 1)
    sum += term
  }
  return (2 / Math.sqrt(Math.PI)) * Math.exp(-x * x) * sum
}

/** erfc(x) = exp(-x^2)/sqrt(pi) / (x + (1/2)/(x + 1/(x + (3/2)/(x + ...)))), evaluated from the far end. */
function erfcFraction(x: number): number {
  let value = x
  for (let n = 120; n >= 1; n--) value = x + n / 2 / value
  return Math.exp(-x * x) / Math.sqrt(Math.PI) / value
}

/** The z that a standard normal sample stays below with probability p. InputError unless 0 < p < 1. */
export function normalQuantile(p: number): number {
  if (!(p > 0 && p < 1)) throw new InputError('p', p, 'between 0 and 1, exclusive')
  const q = p - 0.5
  if (Math.abs(q) <= 0.425) return q * middle(0.180625 - q * q)
  const r = Math.sqrt(-Math.log(q < 0 ? p : 1 - p))
  const z = r <= 5 ? shoulder(r - 1.6) : farTail(r - 5)
  return q < 0 ? -z : z
}

function middle(r: number): number {
  return (
    (((((((2509.0809287301227 * r + 33430.57558358813) * r + 67265.7709270087) * r + 45921.95393154987) * r +
      13731.69376550946) *
      r +
      1971.5909503065513) *
      r +
      133.14166789178438) *
      r +
      3.3871328727963665) /
    (((((((5226.495278852546 * r + 28729.085735721943) * r + 39307.89580009271) * r + 21213.794301586597) *
      r +
      5394.196021424751) *
      r +
      687.1870074920579) *
      r +
      42.31333070160091) *
      r +
      1)
  )
}

function shoulder(r: number): number {
  return (
    (((((((0.0007745450142783414 * r + 0.022723844989269184) * r + 0.2417807251774506) * r +
      1.2704582524523684) *
      r +
      3.6478483247632045) *
      r +
      5.769497221460691) *
      r +
      4.630337846156546) *
      r +
      1.4234371107496835) /
    (((((((1.0507500716444169e-9 * r + 0.0005475938084995345) * r + 0.015198666563616457) * r +
      0.14810397642748008) *
      r +
      0.6897673349851) *
      r +
      1.6763848301838038) *
      r +
      2.053191626637759) *
      r +
      1)
  )
}

function farTail(r: number): number {
  return (
    (((((((2.0103343992922881e-7 * r + 2.7115555687434876e-5) * r + 0.0012426609473880784) * r +
      0.026532189526576124) *
      r +
      0.29656057182850487) *
      r +
      1.7848265399172913) *
      r +
      5.463784911164114) *
      r +
      6.657904643501103) /
    (((((((2.0442631033899397e-15 * r + 1.421511758316446e-7) * r + 1.8463183175100548e-5) * r +
      0.0007868691311456133) *
      r +
      0.014875361290850615) *
      r +
      0.1369298809227358) *
      r +
      0.599832206555888) *
      r +
      1)
  )
}
