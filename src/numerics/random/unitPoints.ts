// Points in the unit cube by their number: the samples of a Monte Carlo run.
// Sobol points serve as many dimensions as have direction numbers, pseudo-random ones the rest.

import { InputError } from '../inputError'
import { mix32, philox, UNIT_PER_WORD } from './randomWords'
import { SOBOL_MOST_DIMENSIONS, sobolSequence } from './sobol'

export const POINT_KINDS = ['sobol', 'random'] as const
export type PointKind = (typeof POINT_KINDS)[number]

export interface UnitPoints {
  readonly dimensions: number
  /** Writes point number `index` (0 to 2^32 - 1); each coordinate lies between 0 and 1, exclusive. */
  readonly point: (index: number, out: Float64Array) => void
  /** Writes `count` points from number `first` on, one after the other: the same ones, faster. */
  readonly fill: (first: number, count: number, out: Float64Array) => void
}

/** Fills the coordinates from number `from` on of points that lie one after the other. */
function randomCoordinates(dimensions: number, from: number, seed: number): UnitPoints['fill'] {
  const words = new Uint32Array(4)
  const stream = mix32(seed ^ 0x5bd1e995)
  return (first, count, out) => {
    for (let i = 0; i < count; i++) {
      const at = i * dimensions
      for (let d = from; d < dimensions; d += 4) {
        philox(first + i, d, 0, 0, seed, stream, words)
        const end = Math.min(4, dimensions - d)
        for (let j = 0; j < end; j++) out[at + d + j] = ((words[j] as number) + 0.5) * UNIT_PER_WORD
      }
    }
  }
}

function pointsBy(dimensions: number, fill: UnitPoints['fill']): UnitPoints {
  return { dimensions, fill, point: (index, out) => fill(index, 1, out) }
}

/** The same kind, dimensions and seed give the same points. Throws InputError for a dimension below 1. */
export function unitPoints(kind: PointKind, dimensions: number, seed: number): UnitPoints {
  if (!Number.isInteger(dimensions) || dimensions < 1) {
    throw new InputError('dimensions', dimensions, 'a whole number, 1 or more')
  }
  if (kind === 'random') return pointsBy(dimensions, randomCoordinates(dimensions, 0, seed))
  const even = sobolSequence(Math.min(dimensions, SOBOL_MOST_DIMENSIONS), seed)
  if (dimensions <= SOBOL_MOST_DIMENSIONS) return pointsBy(dimensions, even.fill)
  const rest = randomCoordinates(dimensions, SOBOL_MOST_DIMENSIONS, seed)
  return pointsBy(dimensions, (first, count, out) => {
    even.fill(first, count, out, dimensions)
    rest(first, count, out)
  })
}
