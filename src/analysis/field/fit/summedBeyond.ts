// A fit where it was made, and exact sums at poses beyond.

import type { JointRegion } from './jointAxes'

/** Coordinates that nothing moves are as they are to this, in units of the axes. */
const STILL = 1e-6

/** Whether a region holds the coordinates. */
export function holds({ from, to }: JointRegion, at: ArrayLike<number>): boolean {
  for (let i = 0; i < from.length; i++) {
    const x = at[i] as number
    if (x < (from[i] as number) - STILL || x > (to[i] as number) + STILL) return false
  }
  return true
}

export type ValueAt = (at: Float64Array) => number

/**
 * The fit at poses of its region, the sums at others. `sums` is called once, when the first of these is asked for; null where nothing is
 * summed here, which leaves them to the fit.
 */
export function summedBeyond(region: JointRegion, fitted: ValueAt, sums: () => ValueAt | null): ValueAt {
  let summed: ValueAt | null | undefined
  return (at) => {
    if (holds(region, at)) return fitted(at)
    if (summed === undefined) summed = sums()
    return summed === null ? fitted(at) : summed(at)
  }
}
