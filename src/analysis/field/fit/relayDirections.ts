// Independent directions of what moves a relay, for its fit. Tolerances of guide and lenses move several coordinates of RELAY_AXES together: a
// box about all of them would reach far beyond any assembly. The directions are those in which deviations of one length are equally
// likely, the image's own ones first:
//   coordinates = nominal + L y,  L lower triangular in either plane, L L' = sum of the squared moves of all quantities
// Source: Cholesky decomposition of a covariance (G. H. Golub and C. F. Van Loan, Matrix Computations, sect. 4.2; from memory).

import { rounded } from '../../../numerics/numberText'

/** Coordinates across the axis, x and y in turn: those of one plane are every second one. */
const ACROSS = 12
const PLANE = ACROSS / 2

/** L of x, then that of y, row by row. Plain data. */
export type RelayDirections = readonly number[]

/** What is left of a coordinate that the ones before determine, as a share of it; gaps change what they determine by a few percent. */
const DETERMINED = 0.08
/** Unit of such a coordinate, in moves of its own: what is left of it then counts as still. */
const STILL_UNIT = 1e7

/** A small edit keeps the directions, and the fit that is known. */
const DIGITS = 2

/**
 * The directions of moves: what each quantity adds to the coordinates, from the nominal ones to the end of its samples. Those of a round
 * relay, the same in x and y, are of the mean of both planes.
 */
export function relayDirections(moves: readonly Float64Array[], isRound: boolean): RelayDirections {
  const directions: number[] = []
  for (const own of [0, 1]) {
    const planes = isRound ? [0, 1] : [own]
    const l = new Float64Array(PLANE * PLANE)
    for (let i = 0; i < PLANE; i++) {
      let whole = 0
      for (let j = 0; j <= i; j++) {
        let sum = 0
        for (const plane of planes)
          for (const move of moves) sum += (move[2 * i + plane] as number) * (move[2 * j + plane] as number)
        sum /= planes.length
        if (i === j) whole = sum
        for (let k = 0; k < j; k++) sum -= (l[i * PLANE + k] as number) * (l[j * PLANE + k] as number)
        if (i === j) l[i * PLANE + i] = unitOf(sum, whole)
        else l[i * PLANE + j] = sum / (l[j * PLANE + j] as number)
      }
    }
    directions.push(...Array.from(l, (value) => rounded(value, DIGITS)))
  }
  return directions
}

function unitOf(left: number, own: number): number {
  if (own === 0) return 1
  return left > DETERMINED * DETERMINED * own ? Math.sqrt(left) : STILL_UNIT * Math.sqrt(own)
}

/** Coordinates to directions, in place; distances stay. */
export function toDirections(directions: RelayDirections, point: Float64Array): void {
  for (let plane = 0; plane < 2; plane++) {
    const start = plane * PLANE * PLANE
    for (let i = 0; i < PLANE; i++) {
      let left = point[2 * i + plane] as number
      for (let k = 0; k < i; k++)
        left -= (directions[start + i * PLANE + k] as number) * (point[2 * k + plane] as number)
      point[2 * i + plane] = left / (directions[start + i * PLANE + i] as number)
    }
  }
}

/** Directions back to coordinates, in place. */
export function fromDirections(directions: RelayDirections, point: Float64Array): void {
  for (let plane = 0; plane < 2; plane++) {
    const start = plane * PLANE * PLANE
    for (let i = PLANE - 1; i >= 0; i--) {
      let sum = 0
      for (let k = 0; k <= i; k++)
        sum += (directions[start + i * PLANE + k] as number) * (point[2 * k + plane] as number)
      point[2 * i + plane] = sum
    }
  }
}
