// Points in the unit cube by their number: the samples of a Monte Carlo run.
// Sobol points serve as many dimensions as have direction numbers, pseudo-random ones the rest. Each coordinate of these is a
// series of runs of words, and each run starts from a state that is a function of seed, coordinate and run alone.

import { InputError } from '../inputError'
import { fillRun } from './randomRun'
import { mix32, philox } from './randomWords'
import { type FillPoints, SOBOL_MOST_DIMENSIONS, sobolSequence } from './sobol'

export const POINT_KINDS = ['sobol', 'random'] as const
export type PointKind = (typeof POINT_KINDS)[number]

export interface UnitPoints {
  readonly dimensions: number
  /** Writes point number `index` (0 to 2^32 - 1); each coordinate lies between 0 and 1, exclusive. */
  readonly point: (index: number, out: Float64Array) => void
  /** The same points, many at once: faster. */
  readonly fill: FillPoints
}

/** Points of a run: few enough for any point to be reached quickly. */
const RUN = 128
const STATE_WORDS = 4

/** Fills the coordinates from number `from` on. Consecutive points cost least. */
function randomCoordinates(dimensions: number, from: number, seed: number): FillPoints {
  const states = new Uint32Array(STATE_WORDS * (dimensions - from))
  const start = new Uint32Array(STATE_WORDS)
  const skipped = new Float64Array(1)
  const stream = mix32(seed ^ 0x5bd1e995)
  let next = -1

  /** Moves the states on within a run, or starts a run and moves them there. */
  const goTo = (index: number) => {
    const position = index % RUN
    const isInRun = next <= index && next > index - position
    for (let d = from; d < dimensions; d++) {
      const at = STATE_WORDS * (d - from)
      if (!isInRun) {
        philox(Math.floor(index / RUN), d, 0, 0, seed, stream, start)
        states.set(start, at)
      }
      fillRun(states, at, isInRun ? index - next : position, skipped, 0, 0)
    }
  }
  return (first, count, out, perPoint = dimensions, perCoordinate = 1) => {
    for (let i = 0; i < count; ) {
      const index = first + i
      if (index !== next || index % RUN === 0) goTo(index)
      const some = Math.min(count - i, RUN - (index % RUN))
      for (let d = from; d < dimensions; d++) {
        fillRun(states, STATE_WORDS * (d - from), some, out, i * perPoint + d * perCoordinate, perPoint)
      }
      i += some
      next = index + some
    }
  }
}

function pointsBy(dimensions: number, fill: FillPoints): UnitPoints {
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
  return pointsBy(dimensions, (first, count, out, perPoint = dimensions, perCoordinate = 1) => {
    even.fill(first, count, out, perPoint, perCoordinate)
    rest(first, count, out, perPoint, perCoordinate)
  })
}
