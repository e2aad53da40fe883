// The coordinates over which the aberration of a relay is fitted (field/fit/relayAxes.ts), and regions of them.

import type { JointRegion } from '../../field/fit/jointAxes'
import type { JointFit } from '../../field/fit/jointFit'
import { RELAY_AXES } from '../../field/fit/relayAxes'
import type { Values } from '../vector/valueReaders'
import type { RelayGeometry } from './relayGeometry'
import type { RelayState } from './relayOptics'

/** Writes the coordinates of RELAY_AXES at a vector of values. */
export type RelayCoordinates = (v: Values, out: Float64Array) => void

/** Where both end distances are among the coordinates. */
export const FRONT = RELAY_AXES.indexOf('frontUm')
export const BACK = RELAY_AXES.indexOf('backUm')

/** How the image meets the far guide, and place and slope of either guide in the frame of its lens; leaves the distances. */
export function fillAcross(g: RelayGeometry, state: RelayState, out: Float64Array): void {
  const { chiefX, chiefY, frontGapUm, backGapUm } = state
  const { lens1: one, lens2: two } = g
  const toLens1 = frontGapUm + one.thicknessUm / 2
  const toLens2 = backGapUm + two.thicknessUm / 2
  out[0] = chiefX.heightUm + backGapUm * chiefX.slopeRad
  out[1] = chiefY.heightUm + backGapUm * chiefY.slopeRad
  out[2] = chiefX.slopeRad
  out[3] = chiefY.slopeRad
  out[4] = g.offsetXUm - one.offsetXUm + one.tiltXRad * toLens1
  out[5] = g.offsetYUm - one.offsetYUm + one.tiltYRad * toLens1
  out[6] = g.tiltXRad - one.tiltXRad
  out[7] = g.tiltYRad - one.tiltYRad
  // Seen from the far guide, slopes of lens 2 turn round.
  out[8] = -two.offsetXUm - two.tiltXRad * toLens2
  out[9] = -two.offsetYUm - two.tiltYRad * toLens2
  out[10] = two.tiltXRad
  out[11] = two.tiltYRad
}

/** Whether anything moves across the axis. */
export const movesAcross = ({ from, to }: JointRegion): boolean =>
  from.some((low, i) => i < FRONT && low !== to[i])

/** Whether the relay in line lies in the region, whatever its distances. */
export function holdsAxis({ from, to }: JointRegion): boolean {
  return from.every((low, i) => i >= FRONT || (low <= 0 && (to[i] as number) >= 0))
}

/** The region to all sides alike: a relay is round, and so is a fit about its axis. */
export function aboutAxis({ from, to }: JointRegion): JointRegion {
  const farthest = (i: number) => Math.max(-(from[i] as number), to[i] as number)
  const reach = from.map((_, i) => (i < FRONT ? Math.max(farthest(i), farthest(i ^ 1)) : 0))
  return {
    from: from.map((low, i) => (i < FRONT ? -(reach[i] as number) : low)),
    to: to.map((high, i) => (i < FRONT ? (reach[i] as number) : high)),
  }
}

/** Whether both distances are within the region of the fit. */
export function isAlongside({ region: { from, to } }: JointFit, frontUm: number, backUm: number): boolean {
  return (
    frontUm >= (from[FRONT] as number) &&
    frontUm <= (to[FRONT] as number) &&
    backUm >= (from[BACK] as number) &&
    backUm <= (to[BACK] as number)
  )
}
