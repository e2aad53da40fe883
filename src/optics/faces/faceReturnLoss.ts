// Return loss of a guided mode: from its own end face, cut at an angle, and from a flat face beyond a gap.
//   own face:  RL = RL0 + 10 log10(e) (2 pi n w theta / lambda)^2, the overlap of the mode with itself turned by
//              2 theta; elliptical modes add the two axes
//   far face:  the mode against its own mirror image, 2 gap away, turned by 2 beta and shifted by -2 beta gap, where
//              beta is the angle between the beam and the far face's normal
// Source: D. Marcuse, Appl. Opt. 14 (1975) 3016 (from memory); the far face is the same integral with a gap.
// Neglects scatter, non-Gaussian tails and multiple passes: real angled faces reach about 60 to 65 dB.
// Micrometres, radians, dB.

import { requireInRange, requirePositive } from '../../numerics/inputError'
import { type GaussianJoint, JOINT_RANGES, requireJoint } from '../joint/gaussianJoint'
import { jointEfficiency } from '../joint/joint'
import { fresnelReflectance } from './fresnel'

/** Return losses computed above this are not to be trusted: scatter dominates. Common practice, no source. */
export const RETURN_LOSS_TRUST_DB = 65

export interface AngledFace {
  readonly wavelengthUm: number
  readonly guideIndex: number
  readonly mediumIndex: number
  readonly mfdXUm: number
  readonly mfdYUm: number
  /** Angle of the face's normal to the guide's axis, per axis. */
  readonly angleXRad: number
  readonly angleYRad: number
}

export interface FarFace {
  readonly wavelengthUm: number
  readonly guideIndex: number
  readonly mediumIndex: number
  readonly farIndex: number
  readonly mfdXUm: number
  readonly mfdYUm: number
  readonly gapUm: number
  /** Angle of the beam in the medium to the far face's normal, per axis. */
  readonly incidenceXRad: number
  readonly incidenceYRad: number
  /** Distance from the near face to the mode's waist; 0 (the default) for a flat end face. */
  readonly waistXUm?: number
  readonly waistYUm?: number
}

/**
 * Return loss of a guide's own end face, with the reflectance of normal incidence as in the source; Infinity where
 * the indices are equal. Throws InputError for indices, MFDs or wavelength at 0 or below, or angles beyond 0.7 rad.
 */
export function faceReturnLoss(face: AngledFace): number {
  const { unpolarised } = fresnelReflectance({ index1: face.guideIndex, index2: face.mediumIndex })
  return 0 - 10 * Math.log10(unpolarised) + turnedReturnDb(face)
}

/**
 * Increase of the return loss by the angle of an end face, dB, independent of its reflectance: the overlap of the
 * mode with itself tilted by twice the angle. Throws InputError for numbers as faceReturnLoss does.
 */
export function turnedReturnDb(face: Omit<AngledFace, 'mediumIndex'>): number {
  requirePositive('wavelengthUm', face.wavelengthUm)
  requirePositive('guideIndex', face.guideIndex)
  requirePositive('mfdXUm', face.mfdXUm)
  requirePositive('mfdYUm', face.mfdYUm)
  requireInRange('angleXRad', face.angleXRad, -0.7, 0.7)
  requireInRange('angleYRad', face.angleYRad, -0.7, 0.7)
  const x = face.mfdXUm * face.angleXRad
  const y = face.mfdYUm * face.angleYRad
  const turned = ((Math.PI * face.guideIndex) / face.wavelengthUm) ** 2 * (x * x + y * y)
  return (10 * turned) / Math.LN10
}

/**
 * The face angle, 0 or more, at which a guide's own face returns `returnLossDb`; 0 where the square face already does.
 * `mfdUm` is the diameter in the plane of the face angle. Throws InputError for a reflectance outside 0 to 1.
 */
export function faceAngleForReturnLoss(
  guide: { readonly wavelengthUm: number; readonly guideIndex: number; readonly mfdUm: number },
  reflectance: number,
  returnLossDb: number,
): number {
  requireInRange('reflectance', reflectance, 0, 1)
  requireInRange('returnLossDb', returnLossDb, 0, 200)
  const mfdUm = requirePositive('mfdUm', guide.mfdUm)
  const missingDb = returnLossDb + 10 * Math.log10(reflectance)
  if (!(missingDb > 0)) return 0
  const perRadian = (Math.PI * requirePositive('guideIndex', guide.guideIndex) * mfdUm) / guide.wavelengthUm
  return Math.sqrt((missingDb * Math.LN10) / 10) / perRadian
}

/**
 * Return loss from a flat face beyond a gap, seen through the guide's own (square or nearly square) face: one
 * reflection, two passes of the near face. Infinity where the far indices are equal. Throws InputError as
 * jointEfficiency does.
 */
export function farFaceReturnLoss(face: FarFace): number {
  const near = fresnelReflectance({ index1: face.guideIndex, index2: face.mediumIndex }).unpolarised
  const far = fresnelReflectance({ index1: face.mediumIndex, index2: face.farIndex }).unpolarised
  return 0 - 10 * Math.log10(far) - 20 * Math.log10(1 - near) - 10 * Math.log10(mirrorOverlap(face))
}

/** Power that the mode keeps against its mirror image in a far face, 0..1. Throws InputError as jointEfficiency does. */
export function mirrorOverlap(face: Omit<FarFace, 'guideIndex' | 'farIndex'>): number {
  requireInRange('gapUm', face.gapUm, ...JOINT_RANGES.gapUm)
  const image = imageJoint(face)
  const steepest = Math.max(Math.abs(image.tiltXRad), Math.abs(image.tiltYRad))
  return steepest > JOINT_RANGES.tiltXRad[1] ? 0 : jointEfficiency(requireJoint(image))
}

/** The mode against its mirror image, compared at the image's waist. */
function imageJoint(face: Omit<FarFace, 'guideIndex' | 'farIndex'>): GaussianJoint {
  const tiltXRad = 2 * face.incidenceXRad
  const tiltYRad = 2 * face.incidenceYRad
  const pathXUm = face.gapUm - (face.waistXUm ?? 0)
  const pathYUm = face.gapUm - (face.waistYUm ?? 0)
  return {
    wavelengthUm: face.wavelengthUm,
    index: face.mediumIndex,
    emitterMfdXUm: face.mfdXUm,
    emitterMfdYUm: face.mfdYUm,
    receiverMfdXUm: face.mfdXUm,
    receiverMfdYUm: face.mfdYUm,
    offsetXUm: pathXUm * tiltXRad,
    offsetYUm: pathYUm * tiltYRad,
    gapUm: 0,
    tiltXRad,
    tiltYRad,
    rollRad: 0,
    waistXUm: -2 * pathXUm,
    waistYUm: -2 * pathYUm,
  }
}
