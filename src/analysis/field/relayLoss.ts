// The loss of a relay in any pose of the chip, by skew rays through its real lenses.

import { type GaussianJoint, jointLossDb } from '../../optics/index'
import type { LossOf } from '../tolerance/toleranceCurve'
import type { RelayFields } from './fit/relayAxes'
import { relayDifference } from './fit/relayDifference'
import { realLensShare } from './relayLimits'

/**
 * Through the real lenses where they are resolved: the fibre and both lenses move as one against the chip, which displaces the facet
 * from the axis of lens 2.
 */
export function relayLossOf({ sides, at, nominalDb }: RelayFields, joint: GaussianJoint): LossOf {
  const difference = relayDifference(sides)
  const tiedDb = nominalDb - difference(at).differenceDb
  const facet = (pose: GaussianJoint) => ({
    xUm: pose.offsetXUm + pose.gapUm * pose.tiltXRad,
    yUm: pose.offsetYUm + pose.gapUm * pose.tiltYRad,
  })
  const from = facet(joint)
  return (pose) => {
    const gaussianDb = jointLossDb(pose)
    const share = realLensShare(gaussianDb)
    if (share === 0) return gaussianDb
    const to = facet(pose)
    const dx = to.xUm - from.xUm
    const dy = to.yUm - from.yUm
    const tx = pose.tiltXRad - joint.tiltXRad
    const ty = pose.tiltYRad - joint.tiltYRad
    const moves = [dx, dy, tx, ty, 0, 0, 0, 0, -dx, -dy, tx, ty, 0, pose.gapUm - joint.gapUm]
    const point = Float64Array.from(at, (value, i) => value + (moves[i] as number))
    return gaussianDb + share * (tiedDb + difference(point).differenceDb)
  }
}

/** Loss at the working point, as `relayLossOf` has it there, without tracing it anew; dB. */
export function relayHereDb({ nominalDb }: RelayFields, joint: GaussianJoint): number {
  const gaussianDb = jointLossDb(joint)
  return gaussianDb + realLensShare(gaussianDb) * nominalDb
}
