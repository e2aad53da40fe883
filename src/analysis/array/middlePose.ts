// Changes of gap and tilts of an array by active alignment: their optimum for a perfect channel in its middle.

import type { PoseAxis, RelayMember } from '../../model/words/candidate'
import { poseAligner } from '../path/gap/alignPose'
import type { JoinModel } from '../path/vector/elementModels'
import type { Values } from '../path/vector/valueReaders'

/** Places of the pose in the vector of values. */
export interface PoseSlots {
  readonly gap: number
  readonly roll: number
  readonly tiltX: number
  readonly tiltY: number
}

export interface Move {
  readonly slot: number
  readonly by: number
}

/** The moves for the values that all channels share, before bonding. */
export type MiddlePose = (v: Values) => readonly Move[]

/** Of a gap: gap and tilts as far as they are aligned. */
export function gapMiddle(
  { view }: JoinModel,
  at: PoseSlots,
  aligned: ReadonlySet<PoseAxis>,
  wavelengthUm: number,
): MiddlePose {
  const align = poseAligner(aligned, wavelengthUm)
  return (v) => {
    const joint = view?.(v).joint
    if (joint === undefined) return []
    const pose = { ...joint, mediumIndex: joint.index }
    // The joint's tilts include the refraction at the faces; the search removes it.
    align(pose, joint.tiltXRad - (v[at.tiltX] ?? 0), joint.tiltYRad - (v[at.tiltY] ?? 0))
    return [
      { slot: at.gap, by: pose.gapUm - joint.gapUm },
      { slot: at.tiltX, by: pose.tiltXRad - joint.tiltXRad },
      { slot: at.tiltY, by: pose.tiltYRad - joint.tiltYRad },
    ]
  }
}

/** Places of a member of a relay along the light and in tilt. */
interface MemberSlots {
  readonly axial: number
  readonly tiltX: number
  readonly tiltY: number
}

/** Of a member of a relay: its place along the light and its tilts, as far as they are aligned. */
export function relayMiddle(
  { alignmentMove }: JoinModel,
  member: RelayMember,
  at: MemberSlots,
  aligned: ReadonlySet<string>,
): MiddlePose {
  return (v) => {
    const move = alignmentMove?.(v, member, aligned)
    if (move === undefined) return []
    return [
      { slot: at.axial, by: move.axialUm },
      { slot: at.tiltX, by: move.tiltXRad },
      { slot: at.tiltY, by: move.tiltYRad },
    ]
  }
}
