// A joint by the fields of its modes, compared with the joint of two Gaussians. Results are cached by the serialised
// inputs, because drags and redraws request them repeatedly.

import { InputError } from '../../numerics/inputError'
import { refusalText } from '../../numerics/refusalText'
import {
  type FieldEfficiency,
  type FieldJoint,
  type FieldJointSpec,
  type FieldPair,
  type FieldPose,
  fieldEfficiency,
  fieldJointOn,
  fieldPairOf,
  type JointMemo,
  lossDb,
  specKey,
} from '../../optics/index'
import { remembering } from './remembering'

/** Joints on their grids hold a few megabytes each. */
const KEPT_GRIDS = 10
const KEPT_PAIRS = 20

interface KnownPair {
  readonly pair: FieldPair
  readonly jointOn: JointMemo
}

const pairs = remembering<KnownPair>(KEPT_PAIRS)
const joints = remembering<FieldJoint>(KEPT_GRIDS)

/** The profiles of a joint, and its joints on grids, made once. */
export function knownPair(spec: FieldJointSpec): KnownPair {
  const key = specKey(spec)
  return pairs(key, () => ({
    pair: fieldPairOf(spec),
    jointOn: (pair, grid) => {
      const { nx, ny, dxUm, dyUm } = grid
      return joints(`${key} ${nx} ${ny} ${dxUm} ${dyUm}`, () => fieldJointOn(pair, grid))
    },
  }))
}

export function jointByField(spec: FieldJointSpec, pose: FieldPose, error?: number): FieldEfficiency {
  const { pair, jointOn } = knownPair(spec)
  return fieldEfficiency(pair, pose, error, jointOn)
}

/** A joint by its fields, with the same by Gaussians. */
export interface FieldLoss {
  readonly fieldDb: number
  readonly errorDb: number
  readonly gaussianDb: number
}

/** Both losses, or in words why there is none by fields: the modes reach too far apart, or do not exist. */
export function fieldLoss(
  spec: FieldJointSpec,
  pose: FieldPose,
  gaussianDb: number,
): FieldLoss | { readonly refusal: string } {
  try {
    const { efficiency, error } = jointByField(spec, pose)
    if (!(efficiency > 0)) return { refusal: 'no light is coupled between the two fields' }
    return {
      fieldDb: lossDb(efficiency),
      errorDb: (10 / Math.LN10) * (error / efficiency),
      gaussianDb,
    }
  } catch (failure) {
    if (failure instanceof InputError) return { refusal: refusalText(failure) }
    throw failure
  }
}
