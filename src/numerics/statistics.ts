// Plain statistics of samples, and the quantiles that intervals are made of.

import { InputError, requireInRange } from './inputError'

/** Arithmetic mean. InputError for an empty sample. */
export function mean(values: ArrayLike<number>): number {
  if (values.length === 0) throw new InputError('values', 'an empty list', 'at least one number')
  let sum = 0
  for (let i = 0; i < values.length; i++) sum += values[i] as number
  return sum / values.length
}

/** Sample standard deviation (n − 1). InputError for fewer than two values. */
export function standardDeviation(values: ArrayLike<number>): number {
  if (values.length < 2) throw new InputError('values', `${values.length} long`, 'at least two numbers')
  const centre = mean(values)
  let sum = 0
  for (let i = 0; i < values.length; i++) sum += ((values[i] as number) - centre) ** 2
  return Math.sqrt(sum / (values.length - 1))
}

/**
 * The p-quantile, 0 ≤ p ≤ 1, linear between order statistics at (n − 1) p.
 * Source: R. J. Hyndman and Y. Fan, Am. Stat. 50 (1996) 361, definition 7.
 */
export function quantile(values: ArrayLike<number>, p: number): number {
  if (values.length === 0) throw new InputError('values', 'an empty list', 'at least one number')
  requireInRange('p', p, 0, 1)
  const sorted = Float64Array.from(values).sort()
  const at = (sorted.length - 1) * p
  const low = sorted[Math.floor(at)] as number
  const high = sorted[Math.ceil(at)] as number
  return low + (high - low) * (at - Math.floor(at))
}

export function median(values: ArrayLike<number>): number {
  return quantile(values, 0.5)
}

/** 1 / Φ⁻¹(3/4): makes the median absolute deviation of normal data equal their standard deviation. */
const NORMAL_MAD = 1.482602218505602

/** Median absolute deviation from the median, scaled to estimate the standard deviation of normal data. */
export function robustDeviation(values: ArrayLike<number>): number {
  const centre = median(values)
  return NORMAL_MAD * median(Float64Array.from(values, (value) => Math.abs(value - centre)))
}

/**
 * Two-sided Student t: the t with P(|T| ≤ t) = `coverage` for `degreesOfFreedom` > 0 (need not be an integer).
 * Source: incomplete beta function by its continued fraction, Abramowitz & Stegun 26.5.8 and 26.7.1; bisection.
 */
export function studentT(coverage: number, degreesOfFreedom: number): number {
  requireInRange('coverage', coverage, 1e-9, 1 - 1e-9)
  if (!(degreesOfFreedom > 0)) throw new InputError('degreesOfFreedom', degreesOfFreedom, 'above 0')
  const n = Math.min(degreesOfFreedom, 1e7)
  // P(|T| > t) = I_x(n/2, 1/2) with x = n / (n + t²), falling in t.
  let low = 0
  let high = 1
  while (incompleteBeta(n / (n + high * high), n / 2, 0.5) > 1 - coverage) high *= 2
  for (let i = 0; i < 200 && high - low > 1e-14 * high; i++) {
    const middle = (low + high) / 2
    if (incompleteBeta(n / (n + middle * middle), n / 2, 0.5) > 1 - coverage) low = middle
    else high = middle
  }
  return (low + high) / 2
}

/** P(T ≤ t) of Student's t for `degreesOfFreedom` > 0. Source: Abramowitz & Stegun 26.7.1. */
export function studentTProbability(t: number, degreesOfFreedom: number): number {
  const tail = incompleteBeta(degreesOfFreedom / (degreesOfFreedom + t * t), degreesOfFreedom / 2, 0.5) / 2
  return t < 0 ? tail : 1 - tail
}

/** Regularised incomplete beta function I_x(a, b). */
export function incompleteBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0
  if (x >= 1) return 1
  const front = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x))
  return x < (a + 1) / (a + b + 2)
    ? (front * betaFraction(x, a, b)) / a
    : 1 - (front * betaFraction(1 - x, b, a)) / b
}

/** The continued fraction, evaluated forwards (Lentz). */
function betaFraction(x: number, a: number, b: number): number {
  const tiny = 1e-300
  let c = 1
  let d = 1 / (1 - ((a + b) * x) / (a + 1) || tiny)
  let value = d
  for (let m = 1; m < 10_000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m))
    d = 1 / (1 + even * d || tiny)
    c = 1 + even / c || tiny
    value *= d * c
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1))
    d = 1 / (1 + odd * d || tiny)
    c = 1 + odd / c || tiny
    value *= d * c
    if (Math.abs(d * c - 1) < 1e-16) break
  }
  return value
}

/** ln Γ(x) for x > 0: Stirling's series after shifting x above 10 (Abramowitz & Stegun 6.1.41). */
function logGamma(x: number): number {
  let shift = 0
  let z = x
  while (z < 10) {
    shift -= Math.log(z)
    z++
  }
  const inverse = 1 / (z * z)
  const series =
    (1 / 12 - inverse * (1 / 360 - inverse * (1 / 1260 - inverse * (1 / 1680 - inverse / 1188)))) / z
  return shift + (z - 0.5) * Math.log(z) - z + 0.5 * Math.log(2 * Math.PI) + series
}
