// Real less Gaussian loss of a joint at a few sets of coordinates, each summed over plane waves: what a worst case is read from, which a
// fit only finds. Points with modes of the same sizes share their grids, and with them the waves of both modes.

import { InputError } from '../../../numerics/inputError'
import type { Steps } from '../../../numerics/steps'
import {
  type FieldGrid,
  type FieldJoint,
  type FieldPair,
  type FieldPose,
  fieldEfficiency,
  fieldJointOn,
  fieldPairOf,
  firstGrid,
  type JointMemo,
  jointEfficiency,
  jointLossDb,
  lossDb,
} from '../../../optics/index'
import { remembering } from '../remembering'
import { FIT_AXES, gaussianAt, scaledSpec } from './jointAxes'
import type { PointSums } from './knownFits'

/** Grids are doubled until two agree to this share of the light that the Gaussians pass: 0.004 dB. */
const SHARE = 1e-3
/** Least efficiency that this share is taken of. */
const LEAST = 1e-3
/** A loss beyond this is meaningless: the rounding of the fields begins to show. */
const DARKEST_DB = 60

/** Joints on their grids hold a few megabytes each. */
const KEPT_GRIDS = 6

/** The modes of some of the points, and the joints on grids that these points share. */
interface SharedJoint {
  readonly pair: FieldPair
  readonly jointOn: JointMemo
  /** Holds all of the points; absent where no grid does. */
  readonly grid?: FieldGrid
}

const gridText = ({ nx, ny, dxUm, dyUm }: FieldGrid): string => `${nx} ${ny} ${dxUm} ${dyUm}`

/** The grid of all poses, if one holds them. */
function commonGrid(pair: FieldPair, poses: readonly FieldPose[]): { readonly grid?: FieldGrid } {
  try {
    return { grid: firstGrid(pair, poses) }
  } catch (error) {
    if (error instanceof InputError) return {}
    throw error
  }
}

/** Steps of the sums, dB, in the order of the points; NaN where no grid holds the joint or hardly any light passes. */
export function* pointSums({ spec, nominal, points }: PointSums): Steps<readonly number[]> {
  const sizesOf = (at: readonly number[]) => at.slice(FIT_AXES.indexOf('emitterX')).join(' ')
  const joints = remembering<FieldJoint>(KEPT_GRIDS)
  const shared = remembering<SharedJoint>(points.length)
  const sharedAt = (at: readonly number[]): SharedJoint => {
    const key = sizesOf(at)
    return shared(key, () => {
      const poses = points.filter((each) => sizesOf(each) === key).map((each) => gaussianAt(nominal, each))
      const { wavelengthUm } = gaussianAt(nominal, at)
      const pair = { ...fieldPairOf(scaledSpec(spec, at)), wavelengthUm }
      const jointOn: JointMemo = (own, grid) =>
        joints(`${key} ${gridText(grid)}`, () => fieldJointOn(own, grid))
      return { pair, jointOn, ...commonGrid(pair, poses) }
    })
  }
  const sums: number[] = []
  for (const at of points) {
    yield sums.length / points.length
    const moved = gaussianAt(nominal, at)
    try {
      const { pair, jointOn, grid } = sharedAt(at)
      const wanted = SHARE * Math.max(LEAST, jointEfficiency(moved))
      const fieldDb = lossDb(fieldEfficiency(pair, moved, wanted, jointOn, grid).efficiency)
      sums.push(fieldDb < DARKEST_DB ? fieldDb - jointLossDb(moved) : Number.NaN)
    } catch (error) {
      if (!(error instanceof InputError)) throw error
      sums.push(Number.NaN)
    }
  }
  return sums
}
