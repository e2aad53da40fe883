// How a joint lies in one plane of the drawing, against the chip's guide axis: what is angled, what is tilted, where
// the fibre's axis meets its face.

import type { JointView } from '../../analysis/results/evaluation'

export interface LeaningFaces {
  /** Both positive when the faces are parallel; a positive face is further downstream on the positive side. */
  readonly nearFaceAngleRad: number
  readonly farFaceAngleRad: number
  /** The plane in which the faces are angled. */
  readonly facePlane: 'x' | 'y'
}

export interface JointPlane {
  /** Where the receiver's own beam passes the height of the emitting face; the offset is measured from here. */
  readonly originVUm: number
  /** Middle of the emitting face. */
  readonly centreVUm: number
  /** Slope of the emitting guide's axis. */
  readonly nearAxisRad: number
  /** Slope of the emitted beam in the medium, and of the beam that the receiver would take up whole. */
  readonly beamRad: number
  readonly farBeamRad: number
  /** dz/dv of the two end faces. */
  readonly nearFaceSlope: number
  readonly farFaceSlope: number
}

export function jointPlane(
  { joint, directions }: Pick<JointView, 'joint' | 'directions'>,
  faces: LeaningFaces,
  axis: 'x' | 'y',
): JointPlane {
  const inX = axis === 'x'
  const tiltRad = inX ? joint.tiltXRad : joint.tiltYRad
  const offsetUm = inX ? joint.offsetXUm : joint.offsetYUm
  const farBeamRad = (inX ? directions?.farBeamXRad : directions?.farBeamYRad) ?? 0
  const nearAxisRad = (inX ? directions?.nearAxisXRad : directions?.nearAxisYRad) ?? tiltRad
  const leans = faces.facePlane === axis
  const originVUm = -joint.gapUm * Math.tan(farBeamRad)
  return {
    originVUm,
    centreVUm: originVUm + offsetUm,
    nearAxisRad,
    beamRad: tiltRad + farBeamRad,
    farBeamRad,
    nearFaceSlope: Math.tan((leans ? faces.nearFaceAngleRad : 0) - nearAxisRad),
    farFaceSlope: leans ? Math.tan(faces.farFaceAngleRad) : 0,
  }
}
