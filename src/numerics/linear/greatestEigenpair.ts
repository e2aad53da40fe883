// The greatest real eigenvalue of a small pencil, left v = value right v, within a bracket, and its vector: the determinant of
// s right - left changes sign there first on the way down, and inverse iteration gives the vector. Pairs of complex eigenvalues
// change no sign.

import { InputError } from '../inputError'

/** Two matrices, row-major. With the unit matrix on the right the eigenvalues are those of the one on the left. */
export interface SmallPencil {
  readonly size: number
  readonly left: Float64Array
  readonly right: Float64Array
}

export interface Eigenpair {
  readonly value: number
  /** Of length 1. */
  readonly vector: Float64Array
}

interface Factors {
  readonly lu: Float64Array
  readonly order: Int32Array
  /** Sign of the determinant. */
  readonly sign: number
}

/** Factors of shift right - left with row exchanges. */
function factorShifted({ size, left, right }: SmallPencil, shift: number): Factors {
  const lu = left.map((value, at) => shift * (right[at] as number) - value)
  const order = Int32Array.from({ length: size }, (_, i) => i)
  let sign = 1
  for (let k = 0; k < size; k++) {
    let best = k
    for (let i = k + 1; i < size; i++) {
      if (Math.abs(lu[i * size + k] as number) > Math.abs(lu[best * size + k] as number)) best = i
    }
    if (best !== k) {
      sign = -sign
      for (let j = 0; j < size; j++) {
        const kept = lu[k * size + j] as number
        lu[k * size + j] = lu[best * size + j] as number
        lu[best * size + j] = kept
      }
      const kept = order[k] as number
      order[k] = order[best] as number
      order[best] = kept
    }
    const pivot = lu[k * size + k] || Number.EPSILON * Math.abs(shift)
    lu[k * size + k] = pivot
    if (pivot < 0) sign = -sign
    for (let i = k + 1; i < size; i++) {
      const multiplier = (lu[i * size + k] as number) / pivot
      lu[i * size + k] = multiplier
      for (let j = k + 1; j < size; j++) {
        lu[i * size + j] = (lu[i * size + j] as number) - multiplier * (lu[k * size + j] as number)
      }
    }
  }
  return { lu, order, sign }
}

/** Row-major matrix times vector. */
function times(matrix: Float64Array, vector: Float64Array): Float64Array {
  const size = vector.length
  return vector.map((_, i) =>
    vector.reduce((sum, value, j) => sum + (matrix[i * size + j] as number) * value, 0),
  )
}

function solve({ lu, order }: Factors, right: Float64Array): Float64Array {
  const size = right.length
  const x = Float64Array.from(order, (from) => right[from] as number)
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < i; j++) x[i] = (x[i] as number) - (lu[i * size + j] as number) * (x[j] as number)
  }
  for (let i = size - 1; i >= 0; i--) {
    for (let j = i + 1; j < size; j++)
      x[i] = (x[i] as number) - (lu[i * size + j] as number) * (x[j] as number)
    x[i] = (x[i] as number) / (lu[i * size + i] as number)
  }
  return x
}

const STEPS = 160
const SHRINK = 0.97
const BISECTIONS = 60
const INVERSE_ITERATIONS = 14

/** The eigenvector of the eigenvalue nearest to `near`, and its quotient. */
export function nearestEigenpair(pencil: SmallPencil, near: number): Eigenpair {
  const { size, left, right } = requireSquare(pencil)
  const factors = factorShifted(pencil, near + 1e-11 * Math.abs(near))
  // Uneven, so that no eigenvector is missing from it by accident.
  let vector: Float64Array = Float64Array.from({ length: size }, (_, i) => 1 + ((0.618 * i) % 1))
  for (let i = 0; i < INVERSE_ITERATIONS; i++) {
    vector = solve(factors, times(right, vector))
    const length = Math.hypot(...vector)
    vector = vector.map((each) => each / length)
  }
  const [onLeft, onRight] = [times(left, vector), times(right, vector)]
  let [above, below] = [0, 0]
  onRight.forEach((weight, i) => {
    above += weight * (onLeft[i] as number)
    below += weight * weight
  })
  return { value: above / below, vector }
}

/** The eigenvalue between two shifts at which the determinant differs in sign. */
function between(pencil: SmallPencil, above: number, below: number, signAbove: number): Eigenpair {
  let [upper, lower] = [above, below]
  for (let i = 0; i < BISECTIONS && upper - lower > 1e-15 * Math.abs(upper); i++) {
    const middle = (upper + lower) / 2
    if (factorShifted(pencil, middle).sign === signAbove) upper = middle
    else lower = middle
  }
  return nearestEigenpair(pencil, (upper + lower) / 2)
}

/**
 * The greatest acceptable eigenvalue between `low` and `high`, looked for from above in steps that shrink with the distance to
 * `low`; null where none is found.
 */
export function greatestEigenpair(
  pencil: SmallPencil,
  low: number,
  high: number,
  accept: (pair: Eigenpair) => boolean = () => true,
): Eigenpair | null {
  requireSquare(pencil)
  let above = high
  let sign = factorShifted(pencil, high).sign
  for (let step = 1; step <= STEPS; step++) {
    const below = low + (high - low) * SHRINK ** step
    const signBelow = factorShifted(pencil, below).sign
    if (signBelow !== sign) {
      const pair = between(pencil, above, below, sign)
      if (accept(pair)) return pair
    }
    above = below
    sign = signBelow
  }
  return null
}

function requireSquare(pencil: SmallPencil): SmallPencil {
  const wanted = pencil.size ** 2
  for (const side of ['left', 'right'] as const) {
    const { length } = pencil[side]
    if (length !== wanted) throw new InputError(`${side}.length`, length, `${wanted}, the square of the size`)
  }
  return pencil
}
