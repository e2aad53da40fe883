// The loss of a joint in any pose by its real fields: the modes across a gap, a lensed tip among them.
// A pose that no grid holds is drawn back towards the joint until one does, and keeps the difference to Gaussians that it has there.

import { InputError } from '../../numerics/inputError'
import { significantText } from '../../numerics/numberText'
import { type FieldJointSpec, firstGrid, type GaussianJoint, jointLossDb, lossDb } from '../../optics/index'
import { knownPair } from '../field/jointField'
import type { LossOf } from '../tolerance/toleranceCurve'

/** Losses beyond are not resolved by sums of fields. */
export const DARKEST_FIELD_DB = 60
/** Points of a grid that one of some hundred poses may take. */
const MOST_POINTS = 512 * 512
const HALVINGS = 14
const KEPT = 50

const POSE = ['offsetXUm', 'offsetYUm', 'gapUm', 'tiltXRad', 'tiltYRad', 'rollRad'] as const

/** The way from the joint to a pose, as far as `share` of it. */
function between(joint: GaussianJoint, pose: GaussianJoint, share: number): GaussianJoint {
  return {
    ...pose,
    ...Object.fromEntries(POSE.map((axis) => [axis, joint[axis] + share * (pose[axis] - joint[axis])])),
  }
}

/** By the fields of both modes, about the joint as it works. InputError where not even that has a grid. */
export function fieldLossOf(spec: FieldJointSpec, joint: GaussianJoint): LossOf {
  const { pair, jointOn } = knownPair(spec)
  const gridOf = (pose: GaussianJoint) => {
    try {
      const grid = firstGrid(pair, [pose])
      return grid.nx * grid.ny <= MOST_POINTS ? grid : null
    } catch (error) {
      if (error instanceof InputError) return null
      throw error
    }
  }
  const sumDb = (pose: GaussianJoint): number | null => {
    const grid = gridOf(pose)
    if (grid === null) return null
    return lossDb(Math.max(jointOn(pair, grid).efficiency(pose), Number.MIN_VALUE))
  }
  if (gridOf(joint) === null) firstGrid(pair, [joint])
  const held = new Map<string, number>()
  const heldDifferenceDb = (pose: GaussianJoint): number => {
    let inside = 0
    let outside = 1
    for (let i = 0; i < HALVINGS; i++) {
      const middle = (inside + outside) / 2
      if (gridOf(between(joint, pose, middle)) === null) outside = middle
      else inside = middle
    }
    const edge = between(joint, pose, inside)
    const key = POSE.map((axis) => significantText(edge[axis], 4)).join(' ')
    const known = held.get(key) ?? (sumDb(edge) ?? jointLossDb(edge)) - jointLossDb(edge)
    if (held.size > KEPT) held.clear()
    held.set(key, known)
    return known
  }
  return (pose) => sumDb(pose) ?? jointLossDb(pose) + heldDifferenceDb(pose)
}
