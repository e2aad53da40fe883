// Which inputs make an output vary: first-order and total effect indices by the method of Saltelli.
//   S_i = mean[f(B) (f(AB_i) - f(A))] / V,   T_i = mean[(f(A) - f(AB_i))^2] / (2 V)
// A and B are independent points, AB_i is A with coordinate i from B. S_i is the share of the variance that knowing
// input i alone would take away, T_i the share that stays while only i is unknown; T_i - S_i is interaction.
// Sources: A. Saltelli et al., Comput. Phys. Commun. 181 (2010) 259, table 2 (b) and (f); the total index is
// M. J. W. Jansen, Comput. Phys. Commun. 117 (1999) 35.

import { InputError } from '../inputError'
import { finish, type Steps } from '../steps'
import { type PointKind, unitPoints } from './unitPoints'

interface EffectIndices {
  readonly firstOrder: Float64Array
  readonly total: Float64Array
  /** Standard errors of the total indices, as if the points were independent; Sobol points scatter less. */
  readonly totalErrors: Float64Array
  readonly mean: number
  readonly variance: number
  readonly evaluations: number
}

/** Points between two pauses of the steps. */
const PAUSE_AFTER = 16

/**
 * Indices of `f`, which reads a point of the unit cube and must return a finite number. Costs (dimensions + 2) times
 * `points` calls; with a power of two, Sobol points are at their best. All zero where `f` does not vary.
 */
export function effectIndices(
  f: (point: Float64Array) => number,
  dimensions: number,
  points: number,
  seed: number,
  kind: PointKind = 'sobol',
): EffectIndices {
  return finish(effectIndexSteps(f, dimensions, points, seed, kind))
}

/** The same in steps. */
export function* effectIndexSteps(
  f: (point: Float64Array) => number,
  dimensions: number,
  points: number,
  seed: number,
  kind: PointKind = 'sobol',
): Steps<EffectIndices> {
  if (!Number.isInteger(points) || points < 2)
    throw new InputError('points', points, 'a whole number, 2 or more')
  const source = unitPoints(kind, 2 * dimensions, seed)
  const both = new Float64Array(2 * dimensions)
  const a = both.subarray(0, dimensions)
  const b = both.subarray(dimensions)
  const mixed = new Float64Array(dimensions)
  // A shift by the first value keeps the sums small, so that a large mean does not eat the variance's digits.
  let shift: number | null = null
  let sum = 0
  let squares = 0
  const first = new Float64Array(dimensions)
  const total = new Float64Array(dimensions)
  const totalSquares = new Float64Array(dimensions)
  for (let n = 0; n < points; n++) {
    source.point(n, both)
    shift ??= f(a)
    const atA = f(a) - shift
    const atB = f(b) - shift
    sum += atA + atB
    squares += atA * atA + atB * atB
    mixed.set(a)
    for (let i = 0; i < dimensions; i++) {
      mixed[i] = b[i] as number
      const atMixed = f(mixed) - shift
      mixed[i] = a[i] as number
      first[i] = (first[i] as number) + atB * (atMixed - atA)
      const term = (atA - atMixed) ** 2 / 2
      total[i] = (total[i] as number) + term
      totalSquares[i] = (totalSquares[i] as number) + term * term
    }
    if (n % PAUSE_AFTER === PAUSE_AFTER - 1) yield (n + 1) / points
  }
  const average = sum / (2 * points)
  const variance = Math.max(0, squares / (2 * points) - average * average)
  const perVariance = variance > 0 ? 1 / (points * variance) : 0
  return {
    firstOrder: first.map((each) => each * perVariance),
    total: total.map((each) => each * perVariance),
    totalErrors: total.map(
      (each, i) => Math.sqrt(Math.max(0, (totalSquares[i] as number) - (each * each) / points)) * perVariance,
    ),
    mean: average + (shift ?? 0),
    variance,
    evaluations: points * (dimensions + 2),
  }
}
