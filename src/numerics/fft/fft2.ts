// Two-dimensional fast Fourier transforms of row-major arrays, in place, sizes powers of two.
//   forward: F(p, q) = sum f(ix, iy) exp(-2 pi i (p ix / nx + q iy / ny));   inverse: undoes it, the factor included
// The spectrum stays in the order in which the passes leave it (`order`), because products and sums over it do not care,
// and reordering costs as much as a pass.

import { InputError } from '../inputError'
import { foursForward, foursInverse, type Lines, type Twiddles, twiddles, twos } from './passes'

/** Sizes and tables of a transform; make it once for many of the same size. */
export interface FftPlan {
  readonly nx: number
  readonly ny: number
  /** Frequency index, -n/2 .. n/2 - 1, at each place along x and along y of a spectrum. */
  readonly orderX: Int32Array
  readonly orderY: Int32Array
  readonly twiddlesX: Twiddles
  readonly twiddlesY: Twiddles
}

/** Rows that are transformed side by side: their data fit the nearest cache, and each twiddle serves all of them. */
const ROWS_AT_ONCE = 4
const LEAST = 4
const GREATEST = 4096

const isPowerOfTwo = (n: number) => Number.isInteger(n) && (n & (n - 1)) === 0

/** A plan for nx by ny, powers of two from 4 to 4096. Throws InputError for others. */
export function fftPlan(nx: number, ny: number): FftPlan {
  for (const [field, n] of [
    ['nx', nx],
    ['ny', ny],
  ] as const) {
    if (!isPowerOfTwo(n) || n < LEAST || n > GREATEST) {
      throw new InputError(field, n, `a power of two, ${LEAST} to ${GREATEST}`)
    }
  }
  return {
    nx,
    ny,
    orderX: spectrumOrder(nx),
    orderY: spectrumOrder(ny),
    twiddlesX: twiddles(nx),
    twiddlesY: twiddles(ny),
  }
}

/** Which frequency the forward passes leave at each place of a line. */
function spectrumOrder(n: number): Int32Array {
  const within = (length: number): readonly number[] => {
    if (length === 1) return [0]
    const parts = length === 2 ? 2 : 4
    const inner = within(length / parts)
    return Array.from({ length: parts }, (_, part) => inner.map((k) => parts * k + part)).flat()
  }
  return Int32Array.from(within(n), (k) => (k < n / 2 ? k : k - n))
}

function lineForward(re: Float64Array, im: Float64Array, lines: Lines, table: Twiddles): void {
  let length = lines.n
  for (; length >= 4; length /= 4) foursForward(re, im, lines, length, table)
  if (length === 2) twos(re, im, lines)
}

function lineInverse(re: Float64Array, im: Float64Array, lines: Lines, table: Twiddles): void {
  let length = lines.n
  while (length >= 4) length /= 4
  if (length === 2) twos(re, im, lines)
  for (length *= 4; length <= lines.n; length *= 4) foursInverse(re, im, lines, length, table)
}

/**
 * Forward transform of re + i im in place. `filledRows` says that only the first so many rows hold anything, the rest
 * being zero, which saves the passes along the others.
 */
export function forward2(
  plan: FftPlan,
  re: Float64Array,
  im: Float64Array,
  filledRows: number = plan.ny,
): void {
  const { nx, ny } = plan
  const rows: Lines = { start: 0, n: nx, step: 1, lanes: ROWS_AT_ONCE, lane: nx }
  for (let row = 0; row < filledRows; row += ROWS_AT_ONCE) {
    rows.start = row * nx
    lineForward(re, im, rows, plan.twiddlesX)
  }
  lineForward(re, im, { start: 0, n: ny, step: nx, lanes: nx, lane: 1 }, plan.twiddlesY)
}

/** Inverse transform in place of a spectrum in the plan's order, without the factor 1 / (nx ny). */
export function inverse2Unscaled(plan: FftPlan, re: Float64Array, im: Float64Array): void {
  const { nx, ny } = plan
  lineInverse(re, im, { start: 0, n: ny, step: nx, lanes: nx, lane: 1 }, plan.twiddlesY)
  const rows: Lines = { start: 0, n: nx, step: 1, lanes: ROWS_AT_ONCE, lane: nx }
  for (let row = 0; row < ny; row += ROWS_AT_ONCE) {
    rows.start = row * nx
    lineInverse(re, im, rows, plan.twiddlesX)
  }
}

/** Inverse transform in place of a spectrum in the plan's order, 1 / (nx ny) included. */
export function inverse2(plan: FftPlan, re: Float64Array, im: Float64Array): void {
  inverse2Unscaled(plan, re, im)
  const scale = 1 / (plan.nx * plan.ny)
  for (let i = 0; i < re.length; i++) {
    re[i] = (re[i] as number) * scale
    im[i] = (im[i] as number) * scale
  }
}
