// What a joint of sampled fields is made of, and the pose of the emitter in it.

import { requireInRange } from '../../numerics/inputError'
import type { ModeProfile } from './modeProfile'

export type Propagation = 'exact' | 'paraxial'

/** Two modes and what lies between them. */
export interface FieldPair {
  readonly emitter: ModeProfile
  readonly receiver: ModeProfile
  readonly wavelengthUm: number
  readonly index: number
  readonly propagation: Propagation
  /** Share of both modes' power that the profiles hold, 1 by default. */
  readonly powerShare?: number
}

/** Pose of the emitter: the same numbers, signs and axes as in GaussianJoint. */
export interface FieldPose {
  readonly offsetXUm: number
  readonly offsetYUm: number
  readonly gapUm: number
  readonly tiltXRad: number
  readonly tiltYRad: number
  readonly rollRad: number
}

export const ALIGNED_POSE: FieldPose = {
  offsetXUm: 0,
  offsetYUm: 0,
  gapUm: 0,
  tiltXRad: 0,
  tiltYRad: 0,
  rollRad: 0,
}

/** Transverse wavenumber of a beam of slope `tilt`, in units of k. */
export function transverseShare(tiltRad: number, propagation: Propagation): number {
  return propagation === 'exact' ? tiltRad / Math.hypot(1, tiltRad) : tiltRad
}

/** Transverse wave number, 1/um, that a tilt adds to the waves of a mode; `axialShare` is asked at the first tilt. */
export function tiltWaves(
  propagation: Propagation,
  kPerUm: number,
  axialShare: () => number,
): (tiltRad: number) => number {
  let share = Number.NaN
  return (tiltRad) => {
    if (tiltRad === 0) return 0
    if (Number.isNaN(share)) share = propagation === 'paraxial' ? 1 : axialShare()
    return kPerUm * share * transverseShare(tiltRad, propagation)
  }
}

export function requirePose(pose: FieldPose): FieldPose {
  requireInRange('gapUm', pose.gapUm, 0, 1e6)
  requireInRange('offsetXUm', pose.offsetXUm, -1e6, 1e6)
  requireInRange('offsetYUm', pose.offsetYUm, -1e6, 1e6)
  requireInRange('tiltXRad', pose.tiltXRad, -1.5, 1.5)
  requireInRange('tiltYRad', pose.tiltYRad, -1.5, 1.5)
  requireInRange('rollRad', pose.rollRad, -100, 100)
  return pose
}
