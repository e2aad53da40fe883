// LU factors of a banded matrix without row exchanges, and solving with them. Safe without exchanges for M-matrices
// (positive diagonal, off-diagonals at most 0, diagonally dominant in a weighted sense), which is what it is for: then all
// pivots are positive, and a pivot at or below 0 says that the matrix is none.
// Source: G. H. Golub and C. F. Van Loan, Matrix Computations, 4.3 (banded elimination); A. Berman and R. J. Plemmons,
// Nonnegative Matrices in the Mathematical Sciences (1979), ch. 6 (pivots of M-matrices). From memory.
// Two rows are eliminated at a time by four pivots at a time: the same sums, with a quarter of the memory traffic.

import { InputError } from '../inputError'

/** Writes the nonzero entries (row, row + d) of a row to target[at + d]; the target has been zeroed. */
type FillRow = (row: number, target: Float64Array, at: number) => void

export interface BandedLu {
  readonly size: number
  readonly band: number
  /** Row r holds entries (r, r) to (r, r + band), padded with three zeros. */
  readonly upper: Float64Array
  /** Row r holds the multipliers of columns r - band to r - 1. */
  readonly lower: Float64Array
  readonly inversePivots: Float64Array
  /** True where every pivot is above 0. */
  readonly positive: boolean
}

const PAD = 3

/** Factors a matrix of `size` rows with `band` diagonals on either side. Throws InputError for impossible sizes. */
export function factorBanded(size: number, band: number, fillRow: FillRow): BandedLu {
  if (!Number.isInteger(size) || size < 1) throw new InputError('size', size, 'a whole number above 0')
  if (!Number.isInteger(band) || band < 1) throw new InputError('band', band, 'a whole number above 0')
  const stride = band + 1 + PAD
  const upper = new Float64Array(size * stride)
  const lower = new Float64Array(size * band)
  const inversePivots = new Float64Array(size)
  const first = new Float64Array(2 * band + 3 + PAD)
  const second = new Float64Array(2 * band + 3 + PAD)
  let positive = true
  const keep = (row: number, from: Float64Array, at: number) => {
    upper.set(from.subarray(at, at + band + 1), row * stride)
    lower.set(from.subarray(at - band, at), row * band)
    const pivot = from[at] as number
    if (!(pivot > 0)) positive = false
    inversePivots[row] = 1 / pivot
  }
  for (let row = 0; row < size; row += 2) {
    const two = row + 1 < size
    first.fill(0)
    second.fill(0)
    fillRow(row, first, band)
    if (two) fillRow(row + 1, second, band + 1)
    eliminate({ row, band, upper, stride, inversePivots }, first, second)
    keep(row, first, band)
    if (!two) break
    const multiplier = (second[band] as number) * (inversePivots[row] as number)
    second[band] = multiplier
    for (let d = 1; d <= band; d++) {
      second[band + d] = (second[band + d] as number) - multiplier * (upper[row * stride + d] as number)
    }
    keep(row + 1, second, band + 1)
  }
  return { size, band, upper, lower, inversePivots, positive }
}

interface Elimination {
  readonly row: number
  readonly band: number
  readonly upper: Float64Array
  readonly stride: number
  readonly inversePivots: Float64Array
}

/** Eliminates all earlier rows from rows `row` and `row + 1`; column c of either is at place c - row + band. */
function eliminate(
  { row, band, upper, stride, inversePivots }: Elimination,
  w: Float64Array,
  v: Float64Array,
): void {
  let k = Math.max(0, row - band)
  for (; k + 4 <= row; k += 4) {
    const u0 = k * stride
    const u1 = u0 + stride
    const u2 = u1 + stride
    const u3 = u2 + stride
    const at = k - row + band
    const a01 = upper[u0 + 1] as number
    const a02 = upper[u0 + 2] as number
    const a03 = upper[u0 + 3] as number
    const a12 = upper[u1 + 1] as number
    const a13 = upper[u1 + 2] as number
    const a23 = upper[u2 + 1] as number
    const i0 = inversePivots[k] as number
    const i1 = inversePivots[k + 1] as number
    const i2 = inversePivots[k + 2] as number
    const i3 = inversePivots[k + 3] as number
    const w0 = (w[at] as number) * i0
    const w1 = ((w[at + 1] as number) - w0 * a01) * i1
    const w2 = ((w[at + 2] as number) - w0 * a02 - w1 * a12) * i2
    const w3 = ((w[at + 3] as number) - w0 * a03 - w1 * a13 - w2 * a23) * i3
    const v0 = (v[at] as number) * i0
    const v1 = ((v[at + 1] as number) - v0 * a01) * i1
    const v2 = ((v[at + 2] as number) - v0 * a02 - v1 * a12) * i2
    const v3 = ((v[at + 3] as number) - v0 * a03 - v1 * a13 - v2 * a23) * i3
    w[at] = w0
    w[at + 1] = w1
    w[at + 2] = w2
    w[at + 3] = w3
    v[at] = v0
    v[at + 1] = v1
    v[at + 2] = v2
    v[at + 3] = v3
    let p0 = u0 + 4
    let p1 = u1 + 3
    let p2 = u2 + 2
    let p3 = u3 + 1
    const end = at + 4 + band
    for (let q = at + 4; q < end; q++) {
      const x0 = upper[p0++] as number
      const x1 = upper[p1++] as number
      const x2 = upper[p2++] as number
      const x3 = upper[p3++] as number
      w[q] = (w[q] as number) - (w0 * x0 + w1 * x1 + w2 * x2 + w3 * x3)
      v[q] = (v[q] as number) - (v0 * x0 + v1 * x1 + v2 * x2 + v3 * x3)
    }
  }
  for (; k < row; k++) {
    const at = k - row + band
    const inverse = inversePivots[k] as number
    const ofW = (w[at] as number) * inverse
    const ofV = (v[at] as number) * inverse
    w[at] = ofW
    v[at] = ofV
    for (let d = 1; d <= band; d++) {
      const entry = upper[k * stride + d] as number
      w[at + d] = (w[at + d] as number) - ofW * entry
      v[at + d] = (v[at + d] as number) - ofV * entry
    }
  }
}

/** Sum of products of two stretches, in four sums side by side so that none waits for the other. */
function product(a: Float64Array, atA: number, b: Float64Array, atB: number, count: number): number {
  let [s0, s1, s2, s3] = [0, 0, 0, 0]
  const even = count - (count % 4)
  let i = 0
  for (; i < even; i += 4) {
    s0 += (a[atA + i] as number) * (b[atB + i] as number)
    s1 += (a[atA + i + 1] as number) * (b[atB + i + 1] as number)
    s2 += (a[atA + i + 2] as number) * (b[atB + i + 2] as number)
    s3 += (a[atA + i + 3] as number) * (b[atB + i + 3] as number)
  }
  for (; i < count; i++) s0 += (a[atA + i] as number) * (b[atB + i] as number)
  return s0 + s1 + (s2 + s3)
}

/** Solves in place: `x` comes in as the right side and goes out as the solution. */
export function solveBanded({ size, band, upper, lower, inversePivots }: BandedLu, x: Float64Array): void {
  if (x.length !== size) throw new InputError('x.length', x.length, `${size}, the size of the matrix`)
  const stride = band + 1 + PAD
  for (let row = 1; row < size; row++) {
    const from = Math.max(0, row - band)
    x[row] = (x[row] as number) - product(lower, row * band + from - row + band, x, from, row - from)
  }
  for (let row = size - 1; row >= 0; row--) {
    const reach = Math.min(band, size - 1 - row)
    const rest = (x[row] as number) - product(upper, row * stride + 1, x, row + 1, reach)
    x[row] = rest * (inversePivots[row] as number)
  }
}
