// What the station's search adds to gap and tilts of a block: their best for a perfect channel in its middle.

import type { PoseAxis } from '../../model/words/candidate'
import { poseAligner } from '../path/gap/alignPose'
import type { JoinModel } from '../path/vector/models'
import type { Values } from '../path/vector/readers'

/** Places of the pose in the vector of values. */
export interface PosePlaces {
  readonly gap: number
  readonly roll: number
  readonly tiltX: number
  readonly tiltY: number
}

export interface Move {
  readonly place: number
  readonly by: number
}

/** The moves for values that all channels share, nothing bonded yet. */
export type MiddlePose = (v: Values) => readonly Move[]

/** Of a gap: gap and tilts as far as they are aligned. */
export function gapMiddle(
  { view }: JoinModel,
  at: PosePlaces,
  aligned: ReadonlySet<PoseAxis>,
  wavelengthUm: number,
): MiddlePose {
  const align = poseAligner(aligned, wavelengthUm)
  return (v) => {
    const joint = view?.(v).joint
    if (joint === undefined) return []
    const pose = { ...joint, mediumIndex: joint.index }
    // The joint's tilts hold what the faces add; the search takes that out.
    align(pose, joint.tiltXRad - (v[at.tiltX] ?? 0), joint.tiltYRad - (v[at.tiltY] ?? 0))
    return [
      { place: at.gap, by: pose.gapUm - joint.gapUm },
      { place: at.tiltX, by: pose.tiltXRad - joint.tiltXRad },
      { place: at.tiltY, by: pose.tiltYRad - joint.tiltYRad },
    ]
  }
}

/** Places of the offsets of both lenses of a relay. */
export interface LensPlaces {
  readonly lens1: { readonly x: number; readonly y: number }
  readonly lens2: { readonly x: number; readonly y: number }
}

/** Of a relay: the tilts of the near guide and the lenses, as far as they are aligned. */
export function relayMiddle(
  { alignedPose }: JoinModel,
  at: PosePlaces,
  lenses: LensPlaces,
  aligned: ReadonlySet<PoseAxis>,
): MiddlePose {
  return (v) => {
    const pose = alignedPose?.(v, aligned)
    if (pose === undefined) return []
    return [
      { place: at.tiltX, by: pose.tiltXRad - (v[at.tiltX] ?? 0) },
      { place: at.tiltY, by: pose.tiltYRad - (v[at.tiltY] ?? 0) },
      ...(['lens1', 'lens2'] as const).flatMap((lens) => [
        { place: lenses[lens].x, by: pose[lens].offsetXUm - (v[lenses[lens].x] ?? 0) },
        { place: lenses[lens].y, by: pose[lens].offsetYUm - (v[lenses[lens].y] ?? 0) },
      ]),
    ]
  }
}
