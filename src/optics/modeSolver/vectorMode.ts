// The leading full-vector mode by Davidson's method: a small space of fields, enlarged by what the semivectorial operators
// make of the residual, first of the leading component, then of the other with the coupling taken in. The semivectorial
// operators carry all that is stiff, so a handful of fields is enough.
// Source: E. R. Davidson, J. Comput. Phys. 17 (1975) 87 (from memory).

import type { BandedLu } from '../../numerics/linear/bandedLu'
import { type Eigenpair, greatestEigenpair, nearestEigenpair } from '../../numerics/linear/greatestEigenpair'
import { factorShifted, solveShifted } from './fundamental'
import { addExToEy, addEyToEx, applyVector, type VectorOperator } from './vectorOperator'

export interface VectorMode {
  /** beta^2 in 1/um^2. */
  readonly value: number
  /** All of Ex, then all of Ey; of length 1. */
  readonly field: Float64Array
  /** |operator field - value field| / |value|. */
  readonly residual: number
}

/** A residual of 3e-6 leaves the effective index within about 1e-8. */
const VECTOR_LIMITS = { residual: 3e-6, space: 20, rounds: 4 } as const

/** What distinguishes the wanted mode from others. */
interface Wanted {
  /** Bounds of its value. */
  readonly low: number
  readonly high: number
  /** Least weight of the guess in it, 0 to 1: much where the guess is its own picture on a coarser grid. */
  readonly guessWeight: number
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0
  for (let i = 0; i < a.length; i++) sum += (a[i] as number) * (b[i] as number)
  return sum
}

function addScaled(target: Float64Array, factor: number, other: Float64Array): void {
  for (let i = 0; i < target.length; i++) target[i] = (target[i] as number) + factor * (other[i] as number)
}

function normalise(field: Float64Array): Float64Array {
  const length = Math.sqrt(dot(field, field))
  return field.map((value) => value / length)
}

interface Preconditioner {
  readonly ex: BandedLu
  readonly ey: BandedLu
}

/** (sigma - operator)^-1 of the residual with the coupling taken in one way only. */
function improved(operator: VectorOperator, factors: Preconditioner, residual: Float64Array): Float64Array {
  const { ex, ey, polarisation } = operator
  const count = ex.nx * ex.ny
  const ofX = residual.slice(0, count)
  const ofY = residual.slice(count)
  const out = new Float64Array(residual.length)
  if (polarisation === 'TE') {
    const first = solveShifted(ex, factors.ex, ofX)
    addExToEy(operator, first, ofY)
    out.set(first)
    out.set(solveShifted(ey, factors.ey, ofY), count)
  } else {
    const first = solveShifted(ey, factors.ey, ofY)
    addEyToEx(operator, first, ofX)
    out.set(solveShifted(ex, factors.ex, ofX))
    out.set(first, count)
  }
  return out
}

/** Least overlap of a guess with what smoothing leaves of it: below, another mode has come in. */
const SMOOTHED_OVERLAP = 0.98

/**
 * A guess from another grid after a step of inverse iteration, which takes out what interpolation leaves at walls: a residual many
 * times the value. Where it turns to another mode, or the guess does not resemble the mode, the guess itself.
 */
function smoothed(
  operator: VectorOperator,
  factors: Preconditioner,
  guess: Float64Array,
  guessWeight: number,
): Float64Array {
  if (guessWeight === 0) return guess
  const field = normalise(improved(operator, factors, guess))
  return Math.abs(dot(field, guess)) < SMOOTHED_OVERLAP ? guess : field
}

/** Share of the leading component in a combination of fields. */
function leadingWeight(
  { ex, polarisation }: VectorOperator,
  fields: readonly Float64Array[],
  weights: Float64Array,
): number {
  const count = ex.nx * ex.ny
  const sum = new Float64Array(fields[0]?.length ?? 0)
  fields.forEach((field, i) => {
    addScaled(sum, weights[i] as number, field)
  })
  const leading = polarisation === 'TE' ? sum.subarray(0, count) : sum.subarray(count)
  return dot(leading, leading) / dot(sum, sum)
}

/** One space grown to its limit from a start, with the factors at one shift. */
function grow(
  operator: VectorOperator,
  start: Float64Array,
  sigma: number,
  expected: number,
  wanted: Wanted,
): VectorMode {
  const factors = { ex: factorShifted(operator.ex, sigma), ey: factorShifted(operator.ey, sigma) }
  const fields: Float64Array[] = [smoothed(operator, factors, normalise(start), wanted.guessWeight)]
  const products: Float64Array[] = []
  let best: VectorMode = { value: sigma, field: start, residual: Number.POSITIVE_INFINITY }
  for (let size = 1; size <= VECTOR_LIMITS.space; size++) {
    const newest = fields[size - 1] as Float64Array
    const product = new Float64Array(newest.length)
    applyVector(operator, newest, product)
    products.push(product)
    const values = new Float64Array(size * size)
    fields.forEach((field, i) => {
      products.forEach((each, j) => {
        values[i * size + j] = dot(field, each)
      })
    })
    const accept = ({ vector }: Eigenpair) =>
      Math.abs(vector[0] as number) >= wanted.guessWeight && leadingWeight(operator, fields, vector) > 0.5
    const small = { size, values }
    const pair =
      greatestEigenpair(small, wanted.low, wanted.high, accept) ?? nearestEigenpair(small, expected)
    const field = new Float64Array(newest.length)
    const residual = new Float64Array(newest.length)
    pair.vector.forEach((weight, i) => {
      addScaled(field, weight, fields[i] as Float64Array)
      addScaled(residual, weight, products[i] as Float64Array)
    })
    addScaled(residual, -pair.value, field)
    best = { value: pair.value, field, residual: Math.sqrt(dot(residual, residual)) / Math.abs(pair.value) }
    if (best.residual < VECTOR_LIMITS.residual || size === VECTOR_LIMITS.space) break
    const next = improved(operator, factors, residual)
    for (let pass = 0; pass < 2; pass++) {
      for (const each of fields) addScaled(next, -dot(each, next), each)
      const length = Math.sqrt(dot(next, next))
      addScaled(next, 1 / length - 1, next)
    }
    fields.push(next)
  }
  return best
}

/**
 * Iterates from a first guess with a shift near the value: the greatest wanted one in which the component of the
 * operator's polarisation leads.
 */
export function refineVectorMode(
  operator: VectorOperator,
  guess: Float64Array,
  sigma: number,
  wanted: Wanted,
): VectorMode {
  let mode = grow(operator, guess, sigma, sigma, wanted)
  for (let round = 1; round < VECTOR_LIMITS.rounds && mode.residual > VECTOR_LIMITS.residual; round++) {
    mode = grow(operator, mode.field, mode.value, sigma, wanted)
  }
  return mode
}
