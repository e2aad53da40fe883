// Light that a curved mirror behind a path of ray matrices couples back into the launched mode: forward to it, back from it, and the
// beam that returns against the mode. Mirrors are treated as centred and upright, which returns the most.
// Source: ray matrices as in optics/beam/abcd.ts; a path run backwards has [d b; c a] / determinant.

import {
  ALIGNED_POSE,
  chainMatrices,
  jointEfficiency,
  type PlacedBeam,
  type RayMatrix,
  requireJoint,
  transformBeam,
} from '../../../optics/index'

/** A mode that leaves a face into a medium; waist distances downstream of the face, um. */
export interface LeavingMode {
  readonly wavelengthUm: number
  readonly index: number
  readonly mfdXUm: number
  readonly mfdYUm: number
  readonly waistXUm: number
  readonly waistYUm: number
}

export const backwards = ({ a, b, c, d }: RayMatrix): RayMatrix => {
  const determinant = a * d - b * c
  return { a: d / determinant, b: b / determinant, c: c / determinant, d: a / determinant }
}

/** A mirror; a positive radius spreads the light. */
const mirror = (spreadingRadiusUm: number): RayMatrix => ({ a: 1, b: 0, c: 2 / spreadingRadiusUm, d: 1 })

/** Share of the reflected light that couples back into the mode, 0..1. */
export function curvedMirrorOverlap(path: RayMatrix, spreadingRadiusUm: number, mode: LeavingMode): number {
  const trip = chainMatrices([path, mirror(spreadingRadiusUm), backwards(path)])
  const beam = (mfdUm: number, waistDistanceUm: number): PlacedBeam => ({
    waistRadiusUm: mfdUm / 2,
    waistDistanceUm,
    wavelengthUm: mode.wavelengthUm,
    index: mode.index,
  })
  const backX = transformBeam(trip, beam(mode.mfdXUm, mode.waistXUm))
  const backY = transformBeam(trip, beam(mode.mfdYUm, mode.waistYUm))
  // Compared in the plane of the mode's own waist, which lies in front of the face by the waist distance.
  return jointEfficiency(
    requireJoint({
      wavelengthUm: mode.wavelengthUm,
      index: mode.index,
      emitterMfdXUm: 2 * backX.waistRadiusUm,
      emitterMfdYUm: 2 * backY.waistRadiusUm,
      receiverMfdXUm: mode.mfdXUm,
      receiverMfdYUm: mode.mfdYUm,
      ...ALIGNED_POSE,
      waistXUm: backX.waistDistanceUm + mode.waistXUm,
      waistYUm: backY.waistDistanceUm + mode.waistYUm,
    }),
  )
}
