// The window and the sampling that a joint of fields needs.

import { requirePositive } from '../../numerics/inputError'
import { centredGrid, type FieldGrid, gridFor } from './fieldGrid'
import type { FieldPair, FieldPose } from './fieldPose'

/** The first grid that holds both modes in every pose of a list, and all their waves. */
export function firstGrid(pair: FieldPair, poses: readonly FieldPose[]): FieldGrid {
  const k =
    (2 * Math.PI * requirePositive('index', pair.index)) / requirePositive('wavelengthUm', pair.wavelengthUm)
  const { emitter, receiver } = pair
  const most = (value: (pose: FieldPose) => number) => Math.max(...poses.map(value))
  const rolls = !emitter.plane?.isRound && poses.some((pose) => pose.rollRad !== 0)
  const across = Math.hypot(emitter.reachXUm, emitter.reachYUm)
  const finest = Math.min(emitter.stepXUm, emitter.stepYUm)
  const axis = (own: {
    emitterReachUm: number
    receiverReachUm: number
    emitterStepUm: number
    receiverStepUm: number
    tilt: (pose: FieldPose) => number
    offset: (pose: FieldPose) => number
  }) => {
    const waves = Math.PI / (rolls ? finest : own.emitterStepUm)
    const steepest = Math.min(
      1,
      most((pose) => Math.abs(own.tilt(pose))),
    )
    // Only waves that both modes have contribute, so that the window need not hold the lateral shift of the others.
    const shared = Math.min(waves + k * steepest, Math.PI / own.receiverStepUm)
    const walk = most(({ gapUm }) => gapUm) * Math.min(1, shared / k)
    return {
      windowUm:
        (rolls ? across : own.emitterReachUm) +
        own.receiverReachUm +
        walk +
        most((pose) => Math.abs(own.offset(pose))),
      stepUm: Math.PI / Math.max(waves + k * steepest, Math.PI / own.receiverStepUm),
    }
  }
  const x = axis({
    emitterReachUm: emitter.reachXUm,
    receiverReachUm: receiver.reachXUm,
    emitterStepUm: emitter.stepXUm,
    receiverStepUm: receiver.stepXUm,
    tilt: (pose) => pose.tiltXRad,
    offset: (pose) => pose.offsetXUm,
  })
  const y = axis({
    emitterReachUm: emitter.reachYUm,
    receiverReachUm: receiver.reachYUm,
    emitterStepUm: emitter.stepYUm,
    receiverStepUm: receiver.stepYUm,
    tilt: (pose) => pose.tiltYRad,
    offset: (pose) => pose.offsetYUm,
  })
  return gridFor(
    Math.max(x.windowUm, 2 * emitter.reachXUm, 2 * receiver.reachXUm),
    Math.max(y.windowUm, 2 * emitter.reachYUm, 2 * receiver.reachYUm),
    x.stepUm,
    y.stepUm,
  )
}

/** A finer grid than the loss needs, so that a map over offsets is smooth to look at. */
const MAP_POINTS = 256

/** The grid of a map over all offsets: that of the pose, with at least MAP_POINTS a side. */
export function fieldMapGrid(pair: FieldPair, pose: FieldPose): FieldGrid {
  const { nx, ny, dxUm, dyUm } = firstGrid(pair, [{ ...pose, offsetXUm: 0, offsetYUm: 0 }])
  const finer = (n: number) => Math.max(1, MAP_POINTS / n)
  return centredGrid(nx * finer(nx), ny * finer(ny), dxUm / finer(nx), dyUm / finer(ny))
}
