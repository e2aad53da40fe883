// Poses of a relay in line that mirrors turn into one another have one loss, which is traced once.

import type { GaussianJoint } from '../../optics/index'
import type { LossOf } from '../tolerance/toleranceCurve'
import { RELAY_AXES, type RelayFields } from './fit/relayAxes'

type Across = readonly [offsetUm: number, tiltRad: number]

/** Offset and tilt of one plane without the sign that a mirror takes away. */
function upright([offsetUm, tiltRad]: Across): Across {
  const isTurned = offsetUm < 0 || (offsetUm === 0 && tiltRad < 0)
  return isTurned ? [-offsetUm, -tiltRad] : [offsetUm, tiltRad]
}

const isBefore = ([offsetA, tiltA]: Across, [offsetB, tiltB]: Across) =>
  offsetA < offsetB || (offsetA === offsetB && tiltA < tiltB)

/** One pose for all its mirror images; with round modes x and y are interchangeable too. */
function mirroredPose(pose: GaussianJoint): GaussianJoint {
  const { emitterMfdXUm, emitterMfdYUm, receiverMfdXUm, receiverMfdYUm, waistXUm, waistYUm } = pose
  const isRound =
    emitterMfdXUm === emitterMfdYUm && receiverMfdXUm === receiverMfdYUm && waistXUm === waistYUm
  if (!isRound && pose.rollRad !== 0) return pose
  const x = upright([pose.offsetXUm, pose.tiltXRad])
  const y = upright([pose.offsetYUm, pose.tiltYRad])
  const [first, second] = isRound && isBefore(x, y) ? [y, x] : [x, y]
  return {
    ...pose,
    offsetXUm: first[0],
    offsetYUm: second[0],
    tiltXRad: first[1],
    tiltYRad: second[1],
    rollRad: 0,
  }
}

const GAPS = 2

/**
 * The loss of every pose about `joint`, each computed once. Where guides and lenses are in line, so that mirrors do not change the relay, one
 * pose stands for all its mirror images.
 */
export function mirrored({ at }: RelayFields, joint: GaussianJoint, lossOf: LossOf): LossOf {
  const across = [joint.offsetXUm, joint.offsetYUm, joint.tiltXRad, joint.tiltYRad]
  const isInLine = [...across, ...at.slice(0, RELAY_AXES.length - GAPS)].every((value) => value === 0)
  const known = new Map<string, number>()
  return (pose) => {
    const seen = isInLine ? mirroredPose(pose) : pose
    const { offsetXUm, offsetYUm, gapUm, tiltXRad, tiltYRad, rollRad } = seen
    const key = [offsetXUm, offsetYUm, gapUm, tiltXRad, tiltYRad, rollRad].join(' ')
    const found = known.get(key) ?? lossOf(seen)
    known.set(key, found)
    return found
  }
}
