// What a joint's real loss is a function of: its pose, the sizes of both modes against the nominal ones, and k in the medium.
// A mode of another size is the nominal field, stretched as its Gaussian is.

import {
  type FieldJointSpec,
  type GaussianJoint,
  MISALIGNMENT_AXES,
  type ModeAtFace,
} from '../../../optics/index'

export const FIT_AXES = [
  ...MISALIGNMENT_AXES,
  'emitterX',
  'emitterY',
  'receiverX',
  'receiverY',
  'wavelength',
] as const
export type FitAxis = (typeof FIT_AXES)[number]

/** Least and most of every coordinate of FIT_AXES; equal where nothing moves it. */
export interface JointRegion {
  readonly from: readonly number[]
  readonly to: readonly number[]
}

/** Numbers of a gap that move its joint: those of GaussianJoint, and the wavelength apart. */
export type MovedJoint = Pick<
  GaussianJoint,
  | 'offsetXUm'
  | 'offsetYUm'
  | 'gapUm'
  | 'tiltXRad'
  | 'tiltYRad'
  | 'rollRad'
  | 'emitterMfdXUm'
  | 'emitterMfdYUm'
  | 'receiverMfdXUm'
  | 'receiverMfdYUm'
  | 'waistXUm'
>

/** Writes the coordinates of a joint: um and rad, sizes and the wavelength in the medium as ratios to the nominal ones. */
export function fillCoordinates(
  n: MovedJoint,
  mediumIndex: number,
  wavelengthUm: number,
  nominal: GaussianJoint,
  out: Float64Array,
): void {
  out[0] = n.offsetXUm
  out[1] = n.offsetYUm
  // A focus that moves takes the field with it.
  out[2] = n.gapUm - (n.waistXUm - nominal.waistXUm)
  out[3] = n.tiltXRad
  out[4] = n.tiltYRad
  out[5] = n.rollRad
  out[6] = n.emitterMfdXUm / nominal.emitterMfdXUm
  out[7] = n.emitterMfdYUm / nominal.emitterMfdYUm
  out[8] = n.receiverMfdXUm / nominal.receiverMfdXUm
  out[9] = n.receiverMfdYUm / nominal.receiverMfdYUm
  out[10] = (wavelengthUm * nominal.index) / (mediumIndex * nominal.wavelengthUm)
}

/** The Gaussian joint at coordinates. */
export function gaussianAt(nominal: GaussianJoint, at: ArrayLike<number>): GaussianJoint {
  return {
    ...nominal,
    offsetXUm: at[0] as number,
    offsetYUm: at[1] as number,
    gapUm: Math.max(0, at[2] as number),
    tiltXRad: at[3] as number,
    tiltYRad: at[4] as number,
    rollRad: at[5] as number,
    emitterMfdXUm: nominal.emitterMfdXUm * (at[6] as number),
    emitterMfdYUm: nominal.emitterMfdYUm * (at[7] as number),
    receiverMfdXUm: nominal.receiverMfdXUm * (at[8] as number),
    receiverMfdYUm: nominal.receiverMfdYUm * (at[9] as number),
    wavelengthUm: nominal.wavelengthUm * (at[10] as number),
  }
}

/** A mode at a face, stretched. A Gaussian keeps its waist; a tip in front of a mode keeps its sphere. */
function stretched(face: ModeAtFace, x: number, y: number): ModeAtFace {
  if (face.mode.kind !== 'gaussian')
    return { ...face, stretchX: face.stretchX * x, stretchY: face.stretchY * y }
  const { mfdXUm, mfdYUm } = face.mode
  return { ...face, mode: { ...face.mode, mfdXUm: mfdXUm * x, mfdYUm: mfdYUm * y } }
}

/** The joint's fields at coordinates, all but its pose. The wavelength is that in the medium: the shapes themselves are kept. */
export function scaledSpec(spec: FieldJointSpec, at: ArrayLike<number>): FieldJointSpec {
  return {
    ...spec,
    emitter: stretched(spec.emitter, at[6] as number, at[7] as number),
    receiver: stretched(spec.receiver, at[8] as number, at[9] as number),
  }
}
