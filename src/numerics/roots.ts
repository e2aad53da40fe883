// Root of a continuous function inside a bracket, by Brent's method (inverse quadratic interpolation, secant,
// bisection as the safe step).
// Source: R. P. Brent, Algorithms for Minimization without Derivatives (1973), ch. 4.

import { InputError } from './inputError'

const ROOT_DEFAULTS = { tolerance: 1e-14, maxIterations: 200 } as const

type RootEnd = 'converged' | 'no-sign-change' | 'max-iterations' | 'not-finite'

interface RootOptions {
  /** Relative width of the final bracket, in units of the root (absolute for roots below 1e-300). */
  readonly tolerance?: number
  readonly maxIterations?: number
}

interface RootResult {
  readonly x: number
  readonly residual: number
  readonly iterations: number
  readonly end: RootEnd
}

/**
 * Finds x in [lo, hi] with f(x) = 0, where f(lo) and f(hi) differ in sign. `end` says how the search ended; only
 * 'converged' is a root. Never throws for the function's sake; throws InputError if lo or hi is not finite.
 */
export function brentRoot(
  f: (x: number) => number,
  lo: number,
  hi: number,
  options: RootOptions = {},
): RootResult {
  if (!Number.isFinite(lo)) throw new InputError('lo', lo, 'a finite number')
  if (!Number.isFinite(hi)) throw new InputError('hi', hi, 'a finite number')
  const tolerance = options.tolerance ?? ROOT_DEFAULTS.tolerance
  const maxIterations = options.maxIterations ?? ROOT_DEFAULTS.maxIterations

  let a = lo
  let b = hi
  let fa = f(a)
  let fb = f(b)
  if (!Number.isFinite(fa) || !Number.isFinite(fb)) {
    return { x: b, residual: fb, iterations: 0, end: 'not-finite' }
  }
  if (fa === 0) return { x: a, residual: 0, iterations: 0, end: 'converged' }
  if (fb === 0) return { x: b, residual: 0, iterations: 0, end: 'converged' }
  if (fa > 0 === fb > 0) return { x: b, residual: fb, iterations: 0, end: 'no-sign-change' }

  // b is the best guess, c keeps the other side of the sign change, a is the guess before b.
  let c = a
  let fc = fa
  let step = b - a
  let stepBefore = step
  for (let iteration = 1; iteration <= maxIterations; iteration++) {
    if (fb > 0 === fc > 0) {
      c = a
      fc = fa
      step = b - a
      stepBefore = step
    }
    if (Math.abs(fc) < Math.abs(fb)) {
      a = b
      b = c
      c = a
      fa = fb
      fb = fc
      fc = fa
    }
    const half = (c - b) / 2
    const smallest = (Math.abs(b) * (tolerance + Number.EPSILON)) / 2 + Number.MIN_VALUE
    if (Math.abs(half) <= smallest || fb === 0) {
      return { x: b, residual: fb, iterations: iteration, end: 'converged' }
    }
    const trial = interpolatedStep(a, fa, b, fb, c, fc)
    const safe = Math.abs(trial) < Math.min(1.5 * Math.abs(half) - smallest / 2, Math.abs(stepBefore) / 2)
    if (safe && trial > 0 === half > 0) {
      stepBefore = step
      step = trial
    } else {
      step = half
      stepBefore = half
    }
    a = b
    fa = fb
    b += Math.abs(step) > smallest ? step : Math.sign(half) * smallest
    fb = f(b)
    if (!Number.isFinite(fb)) return { x: b, residual: fb, iterations: iteration, end: 'not-finite' }
  }
  return { x: b, residual: fb, iterations: maxIterations, end: 'max-iterations' }
}

/** Step from b towards the root: secant with two distinct points, inverse quadratic with three; NaN if neither. */
function interpolatedStep(a: number, fa: number, b: number, fb: number, c: number, fc: number): number {
  const s = fb / fa
  if (a === c) return ((b - c) * s) / (1 - s)
  const q = fa / fc
  const r = fb / fc
  return (s * ((b - a) * (r - 1) - (c - b) * q * (q - r))) / ((q - 1) * (r - 1) * (s - 1))
}
