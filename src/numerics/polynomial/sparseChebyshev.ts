// A smooth function of several variables as a sum of products of Chebyshev polynomials (sparseValue.ts), fitted to values at scattered points.
// The orders a form an anisotropic simplex, sum of a_i / most_i <= 1, which holds with every product all its divisors.
// Coefficients by weighted least squares (normal equations, Cholesky), well conditioned where points are several times the terms.
// Source: A. Cohen, M. Davenport and D. Leviatan, Found. Comput. Math. 13 (2013) 819 (points against terms; from memory).

import type { Box, SparseSeries } from './sparseValue'

export type Orders = readonly number[]
/** Of each variable the one that it changes places with, which may be itself. */
export type Exchange = readonly number[]

/** The orders of a term whose variables have changed places. */
export const exchanged = (orders: Orders, exchange: Exchange): Orders =>
  exchange.map((twin) => orders[twin] as number)

/** Whether a term is the one of itself and its exchanged one that is fitted. */
export function isFirstOfBoth(orders: Orders, exchange: Exchange): boolean {
  for (const [i, order] of orders.entries()) {
    const by = order - (orders[exchange[i] as number] as number)
    if (by !== 0) return by > 0
  }
  return true
}

/** Orders a with sum of a_i / most_i <= 1, the constant first; a variable of `most` 0 never appears. */
export function simplexOrders(
  most: readonly number[],
  keep: (orders: Orders) => boolean = () => true,
): readonly Orders[] {
  const found: number[][] = []
  const orders = most.map(() => 0)
  const fill = (at: number, left: number): void => {
    if (at === most.length) {
      if (keep(orders)) found.push([...orders])
      return
    }
    const highest = most[at] as number
    for (let order = 0; order <= highest && order <= left * highest + 1e-9; order++) {
      orders[at] = order
      fill(at + 1, highest === 0 ? left : left - order / highest)
    }
    orders[at] = 0
  }
  fill(0, 1)
  return found
}

/** A series with every coefficient 0. Orders whose divisors are missing get them, at no coefficient of their own. */
function emptySeries(box: Box, wanted: readonly Orders[]): SparseSeries & { readonly own: Int32Array } {
  const width = box.from.length
  const highest = box.from.map((_, i) => wanted.reduce((most, orders) => Math.max(most, orders[i] ?? 0), 0))
  const along = highest.reduce((most, order, i) => (order >= (highest[most] as number) ? i : most), 0)
  const start: number[] = []
  for (let i = 0, at = 0; i < width; i++) {
    start.push(at)
    at += (highest[i] as number) + 1
  }
  const indices = new Map<string, number>()
  const before: number[] = []
  const factor: number[] = []
  const indexOf = (orders: Orders): number => {
    const key = orders.join(' ')
    const known = indices.get(key)
    if (known !== undefined) return known
    // The variable of highest order is multiplied in last, so that sums can run along it.
    const last = (orders[along] ?? 0) > 0 ? along : orders.findLastIndex((order) => order > 0)
    const parent = last < 0 ? -1 : indexOf(orders.with(last, 0))
    indices.set(key, before.length)
    before.push(parent)
    factor.push(last < 0 ? 0 : (start[last] as number) + (orders[last] ?? 0))
    return before.length - 1
  }
  indexOf(box.from.map(() => 0))
  const own = Int32Array.from(wanted, indexOf)
  return {
    box,
    orders: highest,
    before: Int32Array.from(before),
    factor: Int32Array.from(factor),
    coefficients: new Float64Array(before.length),
    own,
  }
}

/** Writes every term of the series at a point to the returned array, which the next call overwrites. */
function termsOf({ box, orders, before, factor }: SparseSeries): (point: ArrayLike<number>) => Float64Array {
  const width = orders.length
  const from = Float64Array.from(box.from)
  const scale = Float64Array.from(box.to, (to, i) => {
    const span = to - (box.from[i] as number)
    return span > 0 ? 2 / span : 0
  })
  const table = new Float64Array(orders.reduce((sum, order) => sum + order + 1, 0))
  const values = new Float64Array(before.length)
  values[0] = 1
  return (point) => {
    for (let i = 0, at = 0; i < width; i++) {
      const order = orders[i] as number
      const step = scale[i] as number
      const raw = step === 0 ? 0 : step * ((point[i] as number) - (from[i] as number)) - 1
      const t = Math.max(-1, Math.min(raw, 1))
      table[at] = 1
      if (order > 0) table[at + 1] = t
      for (let k = 2; k <= order; k++) {
        table[at + k] = 2 * t * (table[at + k - 1] as number) - (table[at + k - 2] as number)
      }
      at += order + 1
    }
    for (let i = 1; i < values.length; i++) {
      values[i] = (values[before[i] as number] as number) * (table[factor[i] as number] as number)
    }
    return values
  }
}

/** The series without its smallest coefficients, whose root sum of squares stays within `most`. */
export function pruned(series: SparseSeries, most: number): SparseSeries {
  const bySize = Array.from(series.coefficients, (value, i) => ({ size: Math.abs(value), i })).sort(
    (a, b) => a.size - b.size,
  )
  const coefficients = Float64Array.from(series.coefficients)
  let squares = 0
  for (const { size, i } of bySize) {
    squares += size * size
    if (squares > most * most) break
    coefficients[i] = 0
  }
  return { ...series, coefficients }
}

/** Keeps the equations of nearly dependent terms solvable; far below the accuracy required of any fit. */
const RIDGE = 1e-10

/** Equations that are taken into the normal equations together: each number of these is then read and written once for four. */
type Four = readonly [Float64Array, Float64Array, Float64Array, Float64Array]

/** Adds the products of each row with itself to a lower triangle. */
function addSquares(gram: Float64Array, [r0, r1, r2, r3]: Four, n: number): void {
  for (let i = 0; i < n; i++) {
    const a0 = r0[i] as number
    const a1 = r1[i] as number
    const a2 = r2[i] as number
    const a3 = r3[i] as number
    const to = i * n
    for (let j = 0; j <= i; j++) {
      const added =
        a0 * (r0[j] as number) + a1 * (r1[j] as number) + a2 * (r2[j] as number) + a3 * (r3[j] as number)
      gram[to + j] = (gram[to + j] as number) + added
    }
  }
}

/**
 * The series of the wanted orders that fits the values best. `weights` multiply the residuals. A function that stays the same when all its
 * variables change places with those of `exchange`, each other's and of one range, has one coefficient for a term and the term exchanged:
 * one of both is wanted.
 */
export function fitSparse(
  box: Box,
  wanted: readonly Orders[],
  points: readonly ArrayLike<number>[],
  values: ArrayLike<number>,
  weights: ArrayLike<number>,
  exchange: Exchange = box.from.map((_, i) => i),
): SparseSeries {
  const n = wanted.length
  const empty = emptySeries(box, [...wanted, ...wanted.map((orders) => exchanged(orders, exchange))])
  const at = termsOf(empty)
  const own = empty.own.subarray(0, n)
  const twin = empty.own.subarray(n)
  const gram = new Float64Array(n * n)
  const right = new Float64Array(n)
  const rows: Four = [new Float64Array(n), new Float64Array(n), new Float64Array(n), new Float64Array(n)]
  for (let start = 0; start < points.length; start += rows.length) {
    for (const [r, row] of rows.entries()) {
      const p = start + r
      const point = points[p]
      row.fill(0)
      if (point === undefined) continue
      const terms = at(point)
      const weight = weights[p] as number
      const value = weight * (values[p] as number)
      for (let i = 0; i < n; i++) {
        const one = own[i] as number
        const other = twin[i] as number
        const a = weight * ((terms[one] as number) + (one === other ? 0 : (terms[other] as number)))
        row[i] = a
        right[i] = (right[i] as number) + a * value
      }
    }
    addSquares(gram, rows, n)
  }
  solveSymmetric(gram, right, n)
  const coefficients = new Float64Array(empty.coefficients.length)
  for (let i = 0; i < n; i++) {
    coefficients[own[i] as number] = right[i] as number
    coefficients[twin[i] as number] = right[i] as number
  }
  const { orders, before, factor } = empty
  return { box, orders, before, factor, coefficients }
}

/** Solves A x = b by Cholesky in place; A is the lower triangle, row-major, b becomes x. */
function solveSymmetric(a: Float64Array, b: Float64Array, n: number): void {
  let trace = 0
  for (let i = 0; i < n; i++) trace += a[i * n + i] as number
  const ridge = (RIDGE * trace) / n
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = (a[i * n + j] as number) + (i === j ? ridge : 0)
      for (let k = 0; k < j; k++) sum -= (a[i * n + k] as number) * (a[j * n + k] as number)
      a[i * n + j] = i === j ? Math.sqrt(Math.max(sum, ridge)) : sum / (a[j * n + j] as number)
    }
    let sum = b[i] as number
    for (let k = 0; k < i; k++) sum -= (a[i * n + k] as number) * (b[k] as number)
    b[i] = sum / (a[i * n + i] as number)
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = b[i] as number
    for (let k = i + 1; k < n; k++) sum -= (a[k * n + i] as number) * (b[k] as number)
    b[i] = sum / (a[i * n + i] as number)
  }
}
