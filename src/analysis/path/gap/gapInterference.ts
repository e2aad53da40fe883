// The two faces of a gap as an etalon: the round trips of its light at one vector of values.

import { type EtalonSeries, etalonSeries, type GaussianJoint } from '../../../optics/index'
import type { FaceReader } from '../faces/faceReader'
import type { Values } from '../vector/valueReaders'
import type { GapValues } from './gapValues'

/**
 * The round trips, or null where there is nothing to interfere: a curved tip, which is not a plane mirror, or no light.
 * Unpolarised light is taken as s, which reflects more.
 */
export function gapInterference(
  v: Values,
  n: GapValues,
  joint: GaussianJoint,
  faces: { readonly near: FaceReader; readonly far: FaceReader; readonly plane: 'x' | 'y' },
): EtalonSeries | null {
  const seen = faces.near.seen(v)
  const of = seen === 'both' ? 's' : seen
  const leanNear = n.near.mediumAngleRad
  const leanFar = n.far.mediumAngleRad
  const inX = faces.plane === 'x'
  return etalonSeries({
    joint,
    // The near face turns with the emitter; its normal differs from the beam by the angle of refraction.
    near: { xRad: joint.tiltXRad - (inX ? leanNear : 0), yRad: joint.tiltYRad - (inX ? 0 : leanNear) },
    far: { xRad: inX ? -leanFar : 0, yRad: inX ? 0 : -leanFar },
    nearAmplitude: faces.near.inside(v, n.nearIndex, n.mediumIndex, of),
    farAmplitude: faces.far.inside(v, n.farIndex, n.mediumIndex, of),
  })
}
