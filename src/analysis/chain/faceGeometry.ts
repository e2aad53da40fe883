// What leaning end faces do to a gap: the beam leaves and enters under Snell's angle and changes its in-plane width.
// Both face angles count as positive when the faces are parallel to each other, so that equal positive angles mate.

import type { GapElement } from '../../model/candidate'
import { facePointing } from '../../optics/index'

export interface FaceSide {
  /** Slope of the beam in the medium against the guide's axis. */
  readonly slopeRad: number
  /** Width of the beam in the face plane, in the medium over in the guide. */
  readonly widthScale: number
  readonly incidenceInGuideRad: number
  readonly incidenceInMediumRad: number
}

/** One end face, or null where the light is totally reflected. Angles in rad. */
export function faceSide(guideIndex: number, mediumIndex: number, faceAngleRad: number): FaceSide | null {
  if (faceAngleRad === 0) {
    return { slopeRad: 0, widthScale: 1, incidenceInGuideRad: 0, incidenceInMediumRad: 0 }
  }
  const pointing = facePointing({ guideIndex, mediumIndex, faceAngleRad })
  if (pointing.totalInternalReflection) return null
  return {
    slopeRad: pointing.exitDeviationRad,
    widthScale: pointing.footprintScale,
    incidenceInGuideRad: pointing.incidenceRad,
    incidenceInMediumRad: pointing.refractedRad,
  }
}

/** Angle by which the emitting guide is turned against the receiving one, in the face plane. */
export function pointingRad(near: FaceSide, far: FaceSide, pointing: GapElement['pointing']): number {
  return pointing === 'refracted' ? far.slopeRad - near.slopeRad : 0
}
