// The greatest eigenvalue of a wave operator and its positive field, by inverse iteration.
// sigma - operator has positive pivots exactly where sigma lies above the eigenvalue, so a rough bisection by the sign of
// the pivots finds it without a first guess, and no other mode can be mistaken for it (Perron and Frobenius).

import { type Dissection, dissectGrid } from '../../numerics/linear/dissection'
import { factorGrid, hasPositivePivots, solveGrid } from '../../numerics/linear/gridLu'
import { applyOperator, type WaveOperator } from './waveOperator'

export interface Eigenmode {
  /** beta^2 in 1/um^2. */
  readonly value: number
  /** Row-major like the operator; positive, its greatest value is 1. */
  readonly field: Float64Array
  /** |operator field - value field| / |value field|. */
  readonly residual: number
  readonly factorisations: number
}

const EIGEN_LIMITS = { residual: 1e-9, iterations: 12, factorisations: 6 } as const

function greatest(field: Float64Array): number {
  let most = 0
  for (const value of field) if (Math.abs(value) > Math.abs(most)) most = value
  return most
}

/**
 * Iterates from a first guess of the field with a shift above, or very near to, the eigenvalue.
 * Ends once the residual is small; a shift that proves far off is moved closer.
 */
export function refineMode(
  operator: WaveOperator,
  guess: Float64Array,
  sigma: number,
  dissection: Dissection = dissectGrid(operator.nx, operator.ny),
): Eigenmode {
  const { area } = operator
  const field = guess.slice()
  let shift = sigma
  let value = sigma
  let residual = Number.POSITIVE_INFINITY
  const product = new Float64Array(field.length)
  for (let factorisations = 1; ; factorisations++) {
    const factors = factorGrid(dissection, operator, shift)
    for (let iteration = 0; iteration < EIGEN_LIMITS.iterations; iteration++) {
      solveGrid(factors, field)
      const most = greatest(field)
      for (let i = 0; i < field.length; i++) field[i] = (field[i] as number) / most
      applyOperator(operator, field, product)
      let above = 0
      let below = 0
      for (let i = 0; i < field.length; i++) {
        const weighted = (area[i] as number) * (field[i] as number)
        above += weighted * (product[i] as number)
        below += weighted * (field[i] as number)
      }
      value = above / below
      let left = 0
      for (let i = 0; i < field.length; i++) {
        left += (area[i] as number) * ((product[i] as number) - value * (field[i] as number)) ** 2
      }
      residual = Math.sqrt(left / below) / Math.abs(value)
      if (residual < EIGEN_LIMITS.residual) return { value, field, residual, factorisations }
    }
    if (factorisations >= EIGEN_LIMITS.factorisations) return { value, field, residual, factorisations }
    shift = value + Math.max(1e-9 * Math.abs(value), 0.02 * (shift - value))
  }
}

const BISECTIONS = 9

/**
 * The mode without a first guess, or null where its eigenvalue lies below `least`. `greatestValue` is k^2 times the greatest
 * permittivity; `near`, an eigenvalue of a similar operator, saves most of the bisection where it is right.
 */
export function findMode(
  operator: WaveOperator,
  least: number,
  greatestValue: number,
  near = Number.NaN,
): Eigenmode | null {
  const dissection = dissectGrid(operator.nx, operator.ny)
  const above = (sigma: number) => hasPositivePivots(dissection, operator, sigma)
  const finest = (greatestValue - least) / 2 ** BISECTIONS
  const around = Math.min(finest / 2, 0.02 * (near - least))
  let low = least
  let high = greatestValue
  let isAboveLeast = false
  for (const sigma of [near - around, near + around]) {
    if (!(sigma > low && sigma < high)) continue
    if (above(sigma)) high = sigma
    else {
      low = sigma
      isAboveLeast = true
    }
  }
  if (!isAboveLeast && above(least)) return null
  for (; high - low > 1.001 * finest; ) {
    const middle = (low + high) / 2
    if (above(middle)) high = middle
    else low = middle
  }
  return refineMode(operator, new Float64Array(operator.own.length).fill(1), high, dissection)
}
