// The greatest eigenvalue of a wave operator and its positive field, by inverse iteration with banded factors.
// sigma - operator has positive pivots exactly where sigma lies above the eigenvalue, so a rough bisection by the sign of
// the pivots finds it from nothing, and no other mode can be mistaken for it (Perron and Frobenius).

import { type BandedLu, factorBanded, solveBanded } from '../../numerics/linear/bandedLu'
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

/** Cells in the order of the shorter side first, which makes the band narrow. */
function orderOf({ nx, ny }: WaveOperator) {
  const alongX = nx <= ny
  return alongX ? { band: nx, stepX: 1, stepY: nx } : { band: ny, stepX: ny, stepY: 1 }
}

/** Factors of sigma - operator. */
export function factorShifted(operator: WaveOperator, sigma: number): BandedLu {
  const { nx, ny, own, west, east, south, north } = operator
  const { band, stepX, stepY } = orderOf(operator)
  return factorBanded(nx * ny, band, (row, target, at) => {
    const ix = stepX === 1 ? row % nx : Math.floor(row / ny)
    const iy = stepX === 1 ? Math.floor(row / nx) : row % ny
    const place = iy * nx + ix
    target[at] = sigma - (own[place] as number)
    if (ix > 0) target[at - stepX] = -(west[place] as number)
    if (ix < nx - 1) target[at + stepX] = -(east[place] as number)
    if (iy > 0) target[at - stepY] = -(south[place] as number)
    if (iy < ny - 1) target[at + stepY] = -(north[place] as number)
  })
}

/** Solves (sigma - operator) out = right for row-major fields. */
export function solveShifted({ nx, ny }: WaveOperator, factors: BandedLu, right: Float64Array): Float64Array {
  const exchange = nx > ny
  const ordered = reordered(right, nx, ny, exchange)
  solveBanded(factors, ordered)
  return reordered(ordered, ny, nx, exchange)
}

/** Exchanges row-major by x with row-major by y; a copy where nothing is to be exchanged. */
function reordered(field: Float64Array, nx: number, ny: number, exchange: boolean): Float64Array {
  if (!exchange) return field.slice()
  const out = new Float64Array(field.length)
  for (let iy = 0; iy < ny; iy++) {
    for (let ix = 0; ix < nx; ix++) out[ix * ny + iy] = field[iy * nx + ix] as number
  }
  return out
}

function greatest(field: Float64Array): number {
  let most = 0
  for (const value of field) if (Math.abs(value) > Math.abs(most)) most = value
  return most
}

/**
 * Iterates from a first guess of the field with a shift above, or very near to, the eigenvalue.
 * Ends once the residual is small; a shift that proves far off is moved closer.
 */
export function refineMode(operator: WaveOperator, guess: Float64Array, sigma: number): Eigenmode {
  const { area } = operator
  let field: Float64Array = guess.slice()
  let shift = sigma
  let value = sigma
  let residual = Number.POSITIVE_INFINITY
  const product = new Float64Array(field.length)
  for (let factorisations = 1; ; factorisations++) {
    const factors = factorShifted(operator, shift)
    for (let iteration = 0; iteration < EIGEN_LIMITS.iterations; iteration++) {
      field = solveShifted(operator, factors, field)
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

/** The mode from nothing, or null where its eigenvalue lies below `least`. `greatestValue` is k^2 times the greatest permittivity. */
export function findMode(operator: WaveOperator, least: number, greatestValue: number): Eigenmode | null {
  const above = (sigma: number) => factorShifted(operator, sigma).positive
  if (above(least)) return null
  let low = least
  let high = greatestValue
  for (let i = 0; i < BISECTIONS; i++) {
    const middle = (low + high) / 2
    if (above(middle)) high = middle
    else low = middle
  }
  return refineMode(operator, new Float64Array(operator.own.length).fill(1), high)
}
