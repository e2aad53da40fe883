// Bessel functions of order 0 and 1 of a real argument, to about 1e-14 relative (J: relative to its envelope
// sqrt(2/(pi x)), because a relative claim cannot hold at a zero).
//   J_n: power series for small x, the periodic trapezoid rule on 1/pi int_0^pi cos(n t - x sin t) dt between,
//        Hankel's expansion for large x
//   K_n: trapezoid rule on int_0^inf exp(-x cosh t) cosh(n t) dt
//   I_n: power series (all terms positive), large-argument expansion beyond 30
// Source: NIST Digital Library of Mathematical Functions, 10.2.2, 10.9.2, 10.17.3, 10.25.2, 10.32.9, 10.40.1.

import { InputError } from './inputError'

type Order = 0 | 1

const SERIES_END_J = 4
const TRAPEZOID_END_J = 25
const SERIES_END_I = 30
const WIDEST_STEP_K = 0.2
const LEAST_K = 1e-300

const coshLessOne = (t: number): number => 2 * Math.sinh(t / 2) ** 2

/** cosh(t) - 1 at the widest steps: most of the work, done once. Reaches t = 700, which LEAST_K never needs. */
const EXCESS_K = Float64Array.from({ length: 3500 }, (_, i) => coshLessOne(i * WIDEST_STEP_K))

export const besselJ0 = (x: number): number => besselJ(0, x)
export const besselJ1 = (x: number): number => (x < 0 ? -besselJ(1, -x) : besselJ(1, x))
/** Modified, second kind; x of 1e-300 or more, else InputError. Falls below the smallest number near x = 740. */
export const besselK0 = (x: number): number => besselK0Scaled(x) * Math.exp(-x)
export const besselK1 = (x: number): number => besselK1Scaled(x) * Math.exp(-x)
/** exp(x) K0(x): no underflow at large x. x of 1e-300 or more, else InputError. */
export const besselK0Scaled = (x: number): number => besselKScaled(0, x)
export const besselK1Scaled = (x: number): number => besselKScaled(1, x)
/** Modified, first kind. Overflows to Infinity near x = 713. */
export const besselI0 = (x: number): number => besselI0Scaled(x) * Math.exp(Math.abs(x))
export const besselI1 = (x: number): number => besselI1Scaled(x) * Math.exp(Math.abs(x))
/** exp(-|x|) I0(x): no overflow at large x. */
export const besselI0Scaled = (x: number): number => besselIScaled(0, Math.abs(x))
export const besselI1Scaled = (x: number): number => Math.sign(x) * besselIScaled(1, Math.abs(x))

function besselJ(order: Order, signed: number): number {
  const x = Math.abs(signed)
  if (!Number.isFinite(x)) throw new InputError('x', signed, 'a finite number')
  if (x <= SERIES_END_J) return powerSeries(order, x, -1)
  if (x <= TRAPEZOID_END_J) return trapezoidJ(order, x)
  return hankelJ(order, x)
}

/** (x/2)^n sum (sign x^2/4)^k / (k! (n+k)!): J for sign -1, I for sign +1. */
function powerSeries(order: Order, x: number, sign: 1 | -1): number {
  const quarter = (sign * x * x) / 4
  let term = order === 0 ? 1 : x / 2
  let sum = term
  for (let k = 1; k < 200; k++) {
    term *= quarter / (k * (k + order))
    sum += term
    if (Math.abs(term) < 1e-17 * Math.abs(sum)) break
  }
  return sum
}

/** sin(pi i / n) for i from 1 to n / 2, by n / 2. */
const sines: Float64Array[] = []

/** The rule by its symmetry about t = pi/2: J0 sums cos(x sin t), J1 sin t sin(x sin t). */
function trapezoidJ(order: Order, x: number): number {
  // The error of an N-point periodic rule is of the size of J_{2N-1}(x), below 1e-17 for N = x/2 + 24.
  const half = Math.ceil(x / 4) + 12
  const known =
    sines[half] ?? Float64Array.from({ length: half }, (_, i) => Math.sin((Math.PI * (i + 1)) / (2 * half)))
  sines[half] = known
  const middle = order === 0 ? Math.cos(x) : Math.sin(x)
  let sum = (middle + (order === 0 ? 1 : 0)) / 2
  for (let i = 0; i < half - 1; i++) {
    const sine = known[i] as number
    sum += order === 0 ? Math.cos(x * sine) : sine * Math.sin(x * sine)
  }
  return sum / half
}

function hankelJ(order: Order, x: number): number {
  const mu = 4 * order * order
  let term = 1
  let even = 1
  let odd = 0
  for (let k = 1; k < 60; k++) {
    const next = (term * (mu - (2 * k - 1) ** 2)) / (k * 8 * x)
    if (Math.abs(next) >= Math.abs(term) || Math.abs(next) < 1e-18) break
    term = next
    if (k % 2 === 1) odd += k % 4 === 1 ? term : -term
    else even += k % 4 === 0 ? term : -term
  }
  const phase = x - (order / 2 + 0.25) * Math.PI
  return Math.sqrt(2 / (Math.PI * x)) * (even * Math.cos(phase) - odd * Math.sin(phase))
}

function besselKScaled(order: Order, x: number): number {
  if (!Number.isFinite(x) || x < LEAST_K) throw new InputError('x', x, `a finite number, ${LEAST_K} or more`)
  // The widest step is fine enough for the strip in which the integrand is analytic; the bell of large x is narrower.
  const step = Math.min(WIDEST_STEP_K, 0.7 / Math.sqrt(x))
  let sum = 0.5
  for (let i = 1; ; i++) {
    const excess = step === WIDEST_STEP_K ? (EXCESS_K[i] as number) : coshLessOne(i * step)
    const term = Math.exp(-x * excess) * (order === 0 ? 1 : 1 + excess)
    sum += term
    if (term < 1e-18 * sum) return sum * step
  }
}

function besselIScaled(order: Order, x: number): number {
  if (!Number.isFinite(x)) throw new InputError('x', x, 'a finite number')
  if (x <= SERIES_END_I) return powerSeries(order, x, 1) * Math.exp(-x)
  const mu = 4 * order * order
  let term = 1
  let sum = 1
  for (let k = 1; k < 60; k++) {
    const next = (-term * (mu - (2 * k - 1) ** 2)) / (k * 8 * x)
    if (Math.abs(next) >= Math.abs(term) || Math.abs(next) < 1e-18) break
    term = next
    sum += term
  }
  return sum / Math.sqrt(2 * Math.PI * x)
}
