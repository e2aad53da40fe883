// The modes of a joint as pictures and cuts, and its loss for Gaussian modes and from the fields, side by side.

import {
  ALIGNED_POSE,
  centredGrid,
  type FieldJointSpec,
  type FieldMoments,
  type FieldPose,
  fieldMoments,
  firstGrid,
  type GaussianJoint,
  gridProfile,
  jointLossDb,
  lossDb,
  type ModeProfile,
  propagateField,
  type SampledField,
  sampleProfile,
} from '../../optics/index'
import { jointByField, knownPair } from './jointField'

export interface FieldPicturesRequest {
  readonly spec: FieldJointSpec
  readonly joint: GaussianJoint
}

/** Intensities along one axis through the mode's axis, dB below the greatest of the field. */
export interface FieldCut {
  readonly positionsUm: Float64Array
  readonly fieldDb: Float64Array
  /** Of the Gaussian that the closed form takes. */
  readonly gaussianDb: Float64Array
}

export interface ModePicture {
  /** For drawing, about the mode's axis; the greatest amplitude is 1. */
  readonly field: SampledField
  readonly cutX: FieldCut
  readonly cutY: FieldCut
  /** D4-sigma diameters of the sampled window. */
  readonly widthXUm: number
  readonly widthYUm: number
  /** Overlap with the Gaussian that the closed form takes, 0 to 1. */
  readonly gaussianOverlap: number
}

export interface LossPair {
  readonly label: string
  readonly gaussianDb: number
  readonly fieldDb: number
  readonly errorDb: number
}

export interface FieldPictures {
  /** The emitted mode at the chip-side face, and the receiving mode there. */
  readonly arriving: ModePicture
  readonly receiving: ModePicture
  readonly losses: readonly LossPair[]
}

const PICTURE_POINTS = 96
const CUT_POINTS = 161
/** Half of the picture in D4-sigma diameters of the wider mode. */
const HALF_PICTURE = 1.1
const FLOOR_DB = -50

const dB = (ratio: number) => Math.max(FLOOR_DB, 10 * Math.log10(Math.max(ratio, 1e-30)))

function cutOf(
  profile: ModeProfile,
  gaussian: ModeProfile,
  axis: 'x' | 'y',
  halfUm: number,
  peak: number,
): FieldCut {
  const positionsUm = Float64Array.from(
    { length: CUT_POINTS },
    (_, i) => halfUm * ((2 * i) / (CUT_POINTS - 1) - 1),
  )
  const along = (own: ModeProfile, greatest: number) => {
    const out = { re: 0, im: 0 }
    return positionsUm.map((at) => {
      own.at(axis === 'x' ? at : 0, axis === 'y' ? at : 0, out)
      return dB((out.re ** 2 + out.im ** 2) / greatest ** 2)
    })
  }
  const middle = { re: 0, im: 0 }
  gaussian.at(0, 0, middle)
  return {
    positionsUm,
    fieldDb: along(profile, peak),
    gaussianDb: along(gaussian, Math.hypot(middle.re, middle.im)),
  }
}

function pictureOf(
  spec: FieldJointSpec,
  profile: ModeProfile,
  gaussian: ModeProfile,
  halfUm: number,
  gaussianOverlap: number,
  size: FieldMoments,
): ModePicture {
  const step = (2 * halfUm) / PICTURE_POINTS
  const grid = centredGrid(PICTURE_POINTS, PICTURE_POINTS, step, step)
  const field = sampleProfile(profile, grid, spec)
  return {
    field: {
      ...field,
      re: field.re.map((value) => value / size.peak),
      im: field.im.map((value) => value / size.peak),
    },
    cutX: cutOf(profile, gaussian, 'x', halfUm, size.peak),
    cutY: cutOf(profile, gaussian, 'y', halfUm, size.peak),
    widthXUm: size.widthXUm,
    widthYUm: size.widthYUm,
    gaussianOverlap,
  }
}

/** The same joint with a Gaussian on both sides, as the closed form takes them. */
function asGaussians(spec: FieldJointSpec, joint: GaussianJoint): FieldJointSpec {
  const plain = { tip: null, stretchX: 1, stretchY: 1 }
  return {
    ...spec,
    emitter: {
      ...plain,
      mode: {
        kind: 'gaussian',
        mfdXUm: joint.emitterMfdXUm,
        mfdYUm: joint.emitterMfdYUm,
        waistXUm: joint.waistXUm,
        waistYUm: joint.waistYUm,
      },
    },
    receiver: {
      ...plain,
      mode: {
        kind: 'gaussian',
        mfdXUm: joint.receiverMfdXUm,
        mfdYUm: joint.receiverMfdYUm,
        waistXUm: 0,
        waistYUm: 0,
      },
    },
  }
}

/** Throws InputError for modes that do not exist. */
export function* fieldPictures({
  spec,
  joint,
}: FieldPicturesRequest): Generator<number, FieldPictures, void> {
  const gaussians = asGaussians(spec, joint)
  const fields = knownPair(spec).pair
  const shapes = knownPair(gaussians).pair
  const resting: FieldPose = { ...ALIGNED_POSE, gapUm: joint.gapUm, rollRad: joint.rollRad }
  const arrived = (pair: typeof fields) => {
    const grid = firstGrid(pair, [resting])
    const start = sampleProfile(pair.emitter, grid, spec, { rollRad: joint.rollRad })
    return joint.gapUm === 0 ? start : propagateField(start, joint.gapUm, 'exact')
  }
  const arriving = arrived(fields)
  yield 0.2
  const receiving = sampleProfile(fields.receiver, firstGrid(fields, [resting]), spec)
  const [sizeA, sizeR] = [fieldMoments(arriving), fieldMoments(receiving)]
  const halfUm = HALF_PICTURE * Math.max(sizeA.widthXUm, sizeA.widthYUm, sizeR.widthXUm, sizeR.widthYUm)
  const own = (side: 'emitter' | 'receiver') => {
    const pair = { ...spec, emitter: spec[side], receiver: gaussians[side] }
    return jointByField(pair, ALIGNED_POSE).efficiency
  }
  const pictures = {
    arriving: pictureOf(
      spec,
      gridProfile(arriving),
      gridProfile(arrived(shapes)),
      halfUm,
      own('emitter'),
      sizeA,
    ),
    receiving: pictureOf(spec, fields.receiver, shapes.receiver, halfUm, own('receiver'), sizeR),
  }
  yield 0.6
  const waists = { waistXUm: 0, waistYUm: 0 }
  const pairOf = (label: string, own: FieldJointSpec, pose: GaussianJoint): LossPair => {
    const { efficiency, error } = jointByField(own, pose)
    return {
      label,
      gaussianDb: jointLossDb(pose),
      fieldDb: lossDb(efficiency),
      errorDb: (10 / Math.LN10) * (error / efficiency),
    }
  }
  const touching = { ...joint, ...ALIGNED_POSE, ...waists }
  const losses = [
    ...(spec.emitter.tip === null && joint.waistXUm === 0 && joint.waistYUm === 0
      ? [pairOf('faces in contact, coaxial', spec, touching)]
      : []),
    pairOf('at the working point, paraxial over the gap', { ...spec, propagation: 'paraxial' }, joint),
    pairOf('at the working point, exact over the gap', { ...spec, propagation: 'exact' }, joint),
  ]
  return { ...pictures, losses }
}
