// What a lensed tip in front of a Gaussian mode loses off its axis beyond what it loses centred at the same gap, real less Gaussian, as
// polynomials over the region of the tolerances: in each plane of offset and tilt, a parabola over the gap. Both planes add up, to
// 0.01 dB of a tenth (recipes/tip_tolerances.py draws them together).

import { planeTable } from '../../../numerics/polynomial/planeTable'
import type { GaussianJoint } from '../../../optics/index'
import type { JointRegion } from '../../field/fit/jointAxes'

/** The part of a joint that moves across the axis, and its gap. */
export type TipPlace = Pick<GaussianJoint, 'offsetXUm' | 'offsetYUm' | 'tiltXRad' | 'tiltYRad' | 'gapUm'>

/** The same at coordinates of FIT_AXES. */
export const tipPlaceAt = (at: ArrayLike<number>): TipPlace => ({
  offsetXUm: at[0] as number,
  offsetYUm: at[1] as number,
  gapUm: Math.max(0, at[2] as number),
  tiltXRad: at[3] as number,
  tiltYRad: at[4] as number,
})

const POINTS = 5
/** Of an axis that nothing moves: any place on it is then the middle. */
const LEAST_HALF = 1e-9

const clamped = (value: number, least: number, most: number) => Math.min(most, Math.max(least, value))

/** `excessDb` is the real less Gaussian loss at a place; beyond the region its ends hold. */
export function tipOffAxis(
  excessDb: (place: TipPlace) => number,
  { from, to }: JointRegion,
): (place: TipPlace) => number {
  const ends = (axis: number) => [from[axis] as number, to[axis] as number] as const
  const [leastGap, mostGap] = ends(2)
  const gaps = [leastGap, (leastGap + mostGap) / 2, mostGap]
  const half = Math.max(LEAST_HALF, (mostGap - leastGap) / 2)
  const plane = (offset: number, tilt: number, placeOf: (offsetUm: number, tiltRad: number) => TipPlace) => {
    const [o, t] = [ends(offset), ends(tilt)]
    const middle = ([least, most]: readonly [number, number]) => (least + most) / 2
    const reach = ([least, most]: readonly [number, number]) => Math.max(LEAST_HALF, (most - least) / 2)
    const tables = gaps.map((gapUm) =>
      planeTable([middle(o), middle(t)], [reach(o), reach(t)], POINTS, (offsetUm, tiltRad) => {
        return excessDb({ ...placeOf(offsetUm, tiltRad), gapUm }) - excessDb({ ...CENTRED, gapUm })
      }),
    )
    return (i: number, offsetUm: number, tiltRad: number): number =>
      tables[i]?.(clamped(offsetUm, ...o), clamped(tiltRad, ...t)) ?? Number.NaN
  }
  const x = plane(0, 3, (offsetXUm, tiltXRad) => ({ ...CENTRED, offsetXUm, tiltXRad }))
  const y = plane(1, 4, (offsetYUm, tiltYRad) => ({ ...CENTRED, offsetYUm, tiltYRad }))
  return ({ offsetXUm, offsetYUm, tiltXRad, tiltYRad, gapUm }) => {
    const s = clamped((gapUm - (leastGap + mostGap) / 2) / half, -1, 1)
    const at = (i: number) => x(i, offsetXUm, tiltXRad) + y(i, offsetYUm, tiltYRad)
    const here = at(1)
    if (s === 0) return here
    const [below, above] = [at(0), at(2)]
    return here + (s * (above - below)) / 2 + (s * s * (above + below - 2 * here)) / 2
  }
}

const CENTRED: TipPlace = { offsetXUm: 0, offsetYUm: 0, tiltXRad: 0, tiltYRad: 0, gapUm: 0 }
