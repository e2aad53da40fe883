// What a gap and a relay have in common: the near guide against the far guide's axis, and the two end faces that look at each other.

import type { Path } from '../../../model/issue'
import type { JointFaces, JointPose } from '../../../model/schema/candidate'
import type { ChainContext } from '../vector/elementModels'
import type { Reader } from '../vector/valueReaders'
import { type FaceReader, faceReader } from './faceReader'

/** Registers the offsets of a joint across its axis. */
export function offsetReaders(
  { readers: { quantity } }: ChainContext,
  element: JointPose,
  path: Path,
): { readonly offsetX: Reader; readonly offsetY: Reader } {
  return {
    offsetX: quantity(element.offsetX, 'offset', 'offset x', [...path, 'offsetX']),
    offsetY: quantity(element.offsetY, 'offset', 'offset y', [...path, 'offsetY']),
  }
}

interface AngleReaders {
  readonly tiltX: Reader
  readonly tiltY: Reader
  readonly roll: Reader
  readonly nearAngle: Reader
  readonly farAngle: Reader
}

/** Registers tilts, roll and face angles of a joint. */
export function angleReaders(
  { readers: { quantity } }: ChainContext,
  element: JointPose & JointFaces,
  path: Path,
): AngleReaders {
  const faceAngle = (field: 'nearFaceAngle' | 'farFaceAngle', side: string) =>
    quantity(element[field], 'faceAngle', `${side} face angle`, [...path, field])
  return {
    tiltX: quantity(element.tiltX, 'tilt', 'tilt x', [...path, 'tiltX']),
    tiltY: quantity(element.tiltY, 'tilt', 'tilt y', [...path, 'tiltY']),
    roll: quantity(element.roll, 'roll', 'roll', [...path, 'roll']),
    nearAngle: faceAngle('nearFaceAngle', 'fibre-side'),
    farAngle: faceAngle('farFaceAngle', 'chip-side'),
  }
}

/** The two end faces of a joint with their coatings. */
export function endFaceReaders(
  context: ChainContext,
  element: JointFaces,
  path: Path,
): { readonly nearFace: FaceReader; readonly farFace: FaceReader } {
  const reader = (field: 'nearCoating' | 'farCoating', side: string) =>
    faceReader(context, element[field], element.facePlane, `${side} face`, [...path, field])
  return { nearFace: reader('nearCoating', 'fibre-side'), farFace: reader('farCoating', 'chip-side') }
}
