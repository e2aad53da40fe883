// The leading full-vector mode. Nearly all the stiffness is in the semivectorial operators and in the coupling of the leading
// component into the other one. Let P be their part of sigma - operator, and C the coupling of the other component back. Solving
// with P takes two solves with factors, one after the other, and P^-1 turns
//   (sigma - operator) E = (sigma - value) E   into   (1 - P^-1 C) E = (sigma - value) P^-1 E,
// where both sides are smooth. It is solved in a small subspace of fields, extended by the residual: a handful is enough.
// Source: E. R. Davidson, J. Comput. Phys. 17 (1975) 87; Y. Saad, Numerical Methods for Large Eigenvalue Problems (2011), ch. 8
// (preconditioning). From memory.

import { dissectGrid } from '../../numerics/linear/dissection'
import { type Eigenpair, greatestEigenpair, nearestEigenpair } from '../../numerics/linear/greatestEigenpair'
import { factorGrid, type GridLu, solveGrid } from '../../numerics/linear/gridLu'
import { addExToEy, addEyToEx, type VectorOperator } from './vectorOperator'
import type { WaveOperator } from './waveOperator'

export interface VectorMode {
  /** beta^2 in 1/um^2. */
  readonly value: number
  /** All of Ex, then all of Ey; of length 1. */
  readonly field: Float64Array
  /** |P^-1 (operator field - value field)| / |value P^-1 field|: about the relative error of the value. */
  readonly residual: number
}

/** A residual of 1e-7 leaves the effective index within about 5e-8. */
const VECTOR_LIMITS = { residual: 1e-7, space: 14, rounds: 4 } as const

/** What distinguishes the wanted mode from others. */
interface Wanted {
  /** Bounds of its value. */
  readonly low: number
  readonly high: number
  /** Least weight of the guess in the mode, 0 to 1: high where the guess is the same mode on a coarser grid. */
  readonly guessWeight: number
  /** Residual at which it is good enough; VECTOR_LIMITS.residual where absent. */
  readonly residual?: number
}

function dot(a: Float64Array, b: Float64Array): number {
  let [even, odd] = [0, 0]
  const last = a.length - 1
  for (let i = 0; i < last; i += 2) {
    even += (a[i] as number) * (b[i] as number)
    odd += (a[i + 1] as number) * (b[i + 1] as number)
  }
  return even + odd + (a.length % 2 === 1 ? (a[last] as number) * (b[last] as number) : 0)
}

function addScaled(target: Float64Array, factor: number, other: Float64Array): void {
  for (let i = 0; i < target.length; i++) target[i] = (target[i] as number) + factor * (other[i] as number)
}

function normalise(field: Float64Array): void {
  const factor = 1 / Math.sqrt(dot(field, field))
  for (let i = 0; i < field.length; i++) field[i] = (field[i] as number) * factor
}

/** Views of the two components of a field. */
function componentsOf({ ex }: VectorOperator, field: Float64Array) {
  const count = ex.nx * ex.ny
  return { ofX: field.subarray(0, count), ofY: field.subarray(count) }
}

const leadingOf = (operator: VectorOperator, field: Float64Array): Float64Array =>
  operator.polarisation === 'TE' ? componentsOf(operator, field).ofX : componentsOf(operator, field).ofY

/** Factors of sigma - semivectorial operator of each component. */
interface Factors {
  readonly ex: GridLu
  readonly ey: GridLu
}

function factorsAt({ ex, ey }: VectorOperator, sigma: number): Factors {
  const factor = (component: WaveOperator) =>
    factorGrid(dissectGrid(component.nx, component.ny), component, sigma)
  return { ex: factor(ex), ey: factor(ey) }
}

/** field = P^-1 field: the leading component first, then the other, into which the leading one couples. */
function precondition(operator: VectorOperator, { ex, ey }: Factors, field: Float64Array): void {
  const { ofX, ofY } = componentsOf(operator, field)
  if (operator.polarisation === 'TE') {
    solveGrid(ex, ofX)
    addExToEy(operator, ofX, ofY)
    solveGrid(ey, ofY)
  } else {
    solveGrid(ey, ofY)
    addEyToEx(operator, ofY, ofX)
    solveGrid(ex, ofX)
  }
}

/** C field: the contribution of the other component to the leading one. */
function coupledBack(operator: VectorOperator, field: Float64Array): Float64Array {
  const out = new Float64Array(field.length)
  const { ofX, ofY } = componentsOf(operator, field)
  if (operator.polarisation === 'TE') addEyToEx(operator, ofY, componentsOf(operator, out).ofX)
  else addExToEy(operator, ofX, componentsOf(operator, out).ofY)
  return out
}

/** A small subspace of fields with both sides of the equation for each, and their products with one another. */
interface Space {
  readonly fields: Float64Array[]
  /** P^-1 field. */
  readonly solved: Float64Array[]
  /** (1 - P^-1 C) field. */
  readonly images: Float64Array[]
  /** Row i holds the inner products of field i with all fields: of the whole fields, and of their leading components alone. */
  readonly withSolved: number[][]
  readonly withImages: number[][]
  readonly leading: number[][]
}

const emptySpace = (): Space => ({
  fields: [],
  solved: [],
  images: [],
  withSolved: [],
  withImages: [],
  leading: [],
})

/** Adds a row and a column to a square matrix of products. */
function extend(square: number[][], product: (row: number, column: number) => number): void {
  const size = square.length
  square.forEach((row, i) => {
    row.push(product(i, size))
  })
  square.push(Array.from({ length: size + 1 }, (_, j) => product(size, j)))
}

/** Adds a field to the subspace, made orthogonal to those in it, twice because of rounding. */
function enlarge(space: Space, operator: VectorOperator, factors: Factors, field: Float64Array): void {
  const { fields, solved, images, withSolved, withImages, leading } = space
  for (let pass = 0; pass < 2; pass++) {
    for (const each of fields) addScaled(field, -dot(each, field), each)
    normalise(field)
  }
  const smooth = field.slice()
  precondition(operator, factors, smooth)
  const image = coupledBack(operator, field)
  precondition(operator, factors, image)
  for (let i = 0; i < image.length; i++) image[i] = (field[i] as number) - (image[i] as number)
  fields.push(field)
  solved.push(smooth)
  images.push(image)
  const at = (list: readonly Float64Array[], i: number) => list[i] as Float64Array
  extend(withSolved, (i, j) => dot(at(fields, i), at(solved, j)))
  extend(withImages, (i, j) => dot(at(fields, i), at(images, j)))
  extend(leading, (i, j) => dot(leadingOf(operator, at(fields, i)), leadingOf(operator, at(fields, j))))
}

function combined(fields: readonly Float64Array[], weights: Float64Array): Float64Array {
  const sum = new Float64Array(fields[0]?.length ?? 0)
  fields.forEach((field, i) => {
    addScaled(sum, weights[i] as number, field)
  })
  return sum
}

/** The wanted mode within the subspace, or the one closest to `expected`. */
function bestPair(space: Space, sigma: number, expected: number, wanted: Wanted): Eigenpair {
  const size = space.fields.length
  const right = Float64Array.from(space.withSolved.flat())
  const images = space.withImages.flat()
  const pencil = { size, right, left: right.map((each, i) => sigma * each - (images[i] as number)) }
  const leadingShare = (vector: Float64Array) => {
    let share = 0
    space.leading.forEach((row, i) => {
      row.forEach((each, j) => {
        share += (vector[i] as number) * each * (vector[j] as number)
      })
    })
    return share
  }
  const accept = ({ vector }: Eigenpair) =>
    Math.abs(vector[0] as number) >= wanted.guessWeight && leadingShare(vector) > 0.5
  return greatestEigenpair(pencil, wanted.low, wanted.high, accept) ?? nearestEigenpair(pencil, expected)
}

/** Grows one subspace to its limit from a starting field, with the factors at one shift. */
function grow(
  operator: VectorOperator,
  start: Float64Array,
  sigma: number,
  expected: number,
  wanted: Wanted,
): VectorMode {
  const factors = factorsAt(operator, sigma)
  const limit = wanted.residual ?? VECTOR_LIMITS.residual
  const space = emptySpace()
  let next: Float64Array = start.slice()
  for (;;) {
    enlarge(space, operator, factors, next)
    const { value, vector } = bestPair(space, sigma, expected, wanted)
    const smooth = combined(space.solved, vector)
    next = combined(space.images, vector)
    addScaled(next, value - sigma, smooth)
    const residual = Math.sqrt(dot(next, next) / dot(smooth, smooth)) / Math.abs(value)
    if (residual < limit || space.fields.length === VECTOR_LIMITS.space) {
      return { value, field: combined(space.fields, vector), residual }
    }
  }
}

/**
 * Iterates from a first guess with a shift near the eigenvalue: the greatest one whose mode is led by the component of the
 * operator's polarisation.
 */
export function refineVectorMode(
  operator: VectorOperator,
  guess: Float64Array,
  sigma: number,
  wanted: Wanted,
): VectorMode {
  const limit = wanted.residual ?? VECTOR_LIMITS.residual
  let mode = grow(operator, guess, sigma, sigma, wanted)
  for (let round = 1; round < VECTOR_LIMITS.rounds && mode.residual > limit; round++) {
    mode = grow(operator, mode.field, mode.value, sigma, wanted)
  }
  return mode
}
