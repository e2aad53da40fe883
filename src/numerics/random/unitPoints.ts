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
}

/** Fills out[from..dimensions) with the pseudo-random coordinates of a point. */
function randomCoordinates(dimensions: number, from: number, seed: number): UnitPoints['point'] {
  const words = new Uint32Array(4)
  const stream = mix32(seed ^ 0x5bd1e995)
  return (index, out) => {
    for (let d = from; d < dimensions; d += 4) {
      philox(index, d, 0, 0, seed, stream, words)
      for (let j = 0; j < 4 && d + j < dimensions; j++)
        out[d + j] = ((words[j] as number) + 0.5) * UNIT_PER_WORD
    }
  }
}

/** The same kind, dimensions and seed give the same points. Throws InputError for a dimension below 1. */
export function unitPoints(kind: PointKind, dimensions: number, seed: number): UnitPoints {
  if (!Number.isInteger(dimensions) || dimensions < 1) {
    throw new InputError('dimensions', dimensions, 'a whole number, 1 or more')
  }
  if (kind === 'random') return { dimensions, point: randomCoordinates(dimensions, 0, seed) }
  const even = sobolSequence(Math.min(dimensions, SOBOL_MOST_DIMENSIONS), seed)
  if (dimensions <= SOBOL_MOST_DIMENSIONS) return even
  const rest = randomCoordinates(dimensions, SOBOL_MOST_DIMENSIONS, seed)
  return {
    dimensions,
    point: (index, out) => {
      even.point(index, out)
      rest(index, out)
    },
  }
}
