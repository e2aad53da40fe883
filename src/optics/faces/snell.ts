// Direction of the light that leaves a guide through an angled end face.
//   n_guide sin(i) = n_medium sin(t),  deviation = t - i,  in-plane width scales by cos(t) / cos(i)
// The face angle is positive when the guide is longer on the + side, so that the face's normal points towards -.
// The beam is then deflected towards + (the longer side) in a medium of lower index, towards - in one of higher index.
// Source: Snell's law; the width scale follows from the footprint on the face, which both beams share.
// Plane wave along the axis; angles in radians.

import { InputError, requireInRange, requirePositive } from '../../numerics/inputError'

export interface EndFace {
  readonly guideIndex: number
  readonly mediumIndex: number
  /** -pi/2 to pi/2, exclusive; 0 is a square cut. */
  readonly faceAngleRad: number
}

export interface FacePointing {
  readonly totalInternalReflection: false
  /** Beam direction in the medium relative to the guide's axis. */
  readonly exitDeviationRad: number
  readonly incidenceRad: number
  readonly refractedRad: number
  /** Beam width in the plane of incidence, after over before. */
  readonly footprintScale: number
}

export interface NoPointing {
  readonly totalInternalReflection: true
  readonly incidenceRad: number
  readonly criticalRad: number
}

/** Pointing of the exit beam, or the critical angle where none leaves. Throws InputError for bad indices or angle. */
export function facePointing(face: EndFace): FacePointing | NoPointing {
  const n1 = requirePositive('guideIndex', face.guideIndex)
  const n2 = requirePositive('mediumIndex', face.mediumIndex)
  const incidenceRad = requireInRange('faceAngleRad', face.faceAngleRad, -Math.PI / 2, Math.PI / 2)
  if (Math.abs(incidenceRad) === Math.PI / 2) {
    throw new InputError('faceAngleRad', incidenceRad, 'between -pi/2 and pi/2, exclusive')
  }
  const sine = (n1 * Math.sin(incidenceRad)) / n2
  if (Math.abs(sine) >= 1) {
    return { totalInternalReflection: true, incidenceRad, criticalRad: Math.asin(n2 / n1) }
  }
  const refractedRad = Math.asin(sine)
  return {
    totalInternalReflection: false,
    exitDeviationRad: refractedRad - incidenceRad,
    incidenceRad,
    refractedRad,
    footprintScale: Math.cos(refractedRad) / Math.cos(incidenceRad),
  }
}
