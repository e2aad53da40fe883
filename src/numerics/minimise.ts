// Minimum of a function of one variable inside an interval, by Brent's method (parabola through three points,
// golden section as the safe step).
// Source: R. P. Brent, Algorithms for Minimization without Derivatives (1973), ch. 5.

import { requireFinite } from './inputError'

const MINIMUM_DEFAULTS = { tolerance: 1e-9, maxIterations: 200 } as const

type MinimumEnd = 'converged' | 'max-iterations' | 'not-finite'

interface MinimumOptions {
  /** Relative position tolerance. Below about 1e-8 rounding in f, not this, limits the position. */
  readonly tolerance?: number
  readonly maxIterations?: number
}

interface MinimumResult {
  readonly x: number
  readonly value: number
  readonly iterations: number
  readonly end: MinimumEnd
}

const GOLDEN = (3 - Math.sqrt(5)) / 2

/**
 * Finds a local minimum of f in [lo, hi] (the global one if f has a single dip there). A minimum at a border is
 * approached to within the tolerance. Throws InputError if lo or hi is not finite.
 */
export function minimiseBrent(
  f: (x: number) => number,
  lo: number,
  hi: number,
  options: MinimumOptions = {},
): MinimumResult {
  const tolerance = options.tolerance ?? MINIMUM_DEFAULTS.tolerance
  const maxIterations = options.maxIterations ?? MINIMUM_DEFAULTS.maxIterations
  let a = Math.min(requireFinite('lo', lo), requireFinite('hi', hi))
  let b = Math.max(lo, hi)
  const absolute = tolerance * (b - a) * 1e-3 + Number.MIN_VALUE

  // x is the best point, w the second best, v the w before.
  let x = a + GOLDEN * (b - a)
  let w = x
  let v = x
  let fx = f(x)
  let fw = fx
  let fv = fx
  let step = 0
  let stepBefore = 0
  for (let iteration = 1; iteration <= maxIterations; iteration++) {
    if (!Number.isFinite(fx)) return { x, value: fx, iterations: iteration, end: 'not-finite' }
    const middle = (a + b) / 2
    const smallest = tolerance * Math.abs(x) + absolute
    if (Math.abs(x - middle) <= 2 * smallest - (b - a) / 2) {
      return { x, value: fx, iterations: iteration, end: 'converged' }
    }
    const trial = parabolaStep(x, fx, w, fw, v, fv)
    const inside = x + trial > a && x + trial < b
    if (inside && Math.abs(trial) < Math.abs(stepBefore) / 2) {
      stepBefore = step
      step = trial
      if (x + step - a < 2 * smallest || b - x - step < 2 * smallest) step = x < middle ? smallest : -smallest
    } else {
      stepBefore = x < middle ? b - x : a - x
      step = GOLDEN * stepBefore
    }
    const u = x + (Math.abs(step) >= smallest ? step : Math.sign(step) * smallest)
    const fu = f(u)
    if (fu <= fx) {
      if (u < x) b = x
      else a = x
      v = w
      fv = fw
      w = x
      fw = fx
      x = u
      fx = fu
      continue
    }
    if (u < x) a = u
    else b = u
    if (fu <= fw || w === x) {
      v = w
      fv = fw
      w = u
      fw = fu
    } else if (fu <= fv || v === x || v === w) {
      v = u
      fv = fu
    }
  }
  return { x, value: fx, iterations: maxIterations, end: 'max-iterations' }
}

/** Step from x to the vertex of the parabola through three points; NaN if they lie on a line. */
function parabolaStep(x: number, fx: number, w: number, fw: number, v: number, fv: number): number {
  const r = (x - w) * (fx - fv)
  const q = (x - v) * (fx - fw)
  return ((x - v) * q - (x - w) * r) / (-2 * (q - r))
}
