// Two end faces across a gap filled with a medium: the exact joint of the two modes, and a reflection at each face.
// Offsets count from the receiver's refracted axis, tilts from the direction that its refracted beam has.

import type { GapElement } from '../../model/candidate'
import type { Path } from '../../model/issue'
import { fresnelLossDb, type GaussianJoint, jointEfficiencyAt, jointLossDb } from '../../optics/index'
import type { JointView, Port } from '../evaluation'
import { gapNotes, gapReturnLossDb } from './gapChecks'
import { type GapNumbers, type GapReader, gapReader } from './gapNumbers'
import { jointLines } from './jointLines'
import type { ChainContext, JoinModel, LineModel, PortReaders } from './models'
import { portAt } from './ports'
import type { Reader, Values } from './readers'

/** A joint with everything that its faces do to it, at one set of values. */
export interface GapState {
  readonly joint: GaussianJoint
  readonly near: Port
  readonly far: Port
  readonly mediumIndex: number
  readonly nearFaceAngleRad: number
  readonly farFaceAngleRad: number
  readonly nearIncidenceRad: number
  readonly farIncidenceRad: number
  readonly pointingRad: number
  /** Slopes in the plane of the lean: of the near guide's beam and of the far guide's own, against their axes. */
  readonly nearSlopeRad: number
  readonly farSlopeRad: number
}

/** The joint that the gap's numbers make, as lasting plain data. */
function jointOf(n: GapNumbers, wavelengthUm: number): GaussianJoint {
  return {
    wavelengthUm,
    index: n.mediumIndex,
    emitterMfdXUm: n.emitterMfdXUm,
    emitterMfdYUm: n.emitterMfdYUm,
    receiverMfdXUm: n.receiverMfdXUm,
    receiverMfdYUm: n.receiverMfdYUm,
    offsetXUm: n.offsetXUm,
    offsetYUm: n.offsetYUm,
    gapUm: n.gapUm,
    tiltXRad: n.tiltXRad,
    tiltYRad: n.tiltYRad,
    rollRad: n.rollRad,
    waistXUm: n.waistXUm,
    waistYUm: n.waistYUm,
  }
}

/** Below this the efficiency leaves the number format, and the loss is computed another way. */
const LEAST_RATIO = 1e-290

/** Loss of the joint and both faces, dB, without allocation; Infinity where a face reflects everything. */
function wholeLoss({ read }: GapReader, wavelengthUm: number): Reader {
  return (v) => {
    const n = read(v)
    const efficiency = jointEfficiencyAt(
      wavelengthUm,
      n.mediumIndex,
      n.emitterMfdXUm,
      n.emitterMfdYUm,
      n.receiverMfdXUm,
      n.receiverMfdYUm,
      n.offsetXUm,
      n.offsetYUm,
      n.gapUm,
      n.tiltXRad,
      n.tiltYRad,
      n.rollRad,
      n.waistXUm,
      n.waistYUm,
    )
    const ratio = efficiency * n.near.transmission * n.far.transmission
    // A drawn core without a mode has a NaN width, and its loss stays NaN.
    if (!(ratio <= LEAST_RATIO)) return -10 * Math.log10(ratio)
    const faces = n.near.transmission * n.far.transmission
    return jointLossDb(jointOf(n, wavelengthUm)) - 10 * Math.log10(faces)
  }
}

export function gapJoin(
  context: ChainContext,
  element: GapElement,
  path: Path,
  near: PortReaders,
  far: PortReaders,
): JoinModel {
  const gap = gapReader(context, element, path, near, far)
  const state = (v: Values): GapState => {
    const n = gap.read(v)
    return {
      joint: jointOf(n, context.wavelengthUm),
      near: portAt(near, v),
      far: portAt(far, v),
      mediumIndex: n.mediumIndex,
      nearFaceAngleRad: n.near.faceAngleRad,
      farFaceAngleRad: n.far.faceAngleRad,
      nearIncidenceRad: n.near.faceAngleRad,
      farIncidenceRad: n.far.mediumAngleRad,
      pointingRad: gap.pointingRad,
      nearSlopeRad: n.near.slopeRad,
      farSlopeRad: n.far.slopeRad,
    }
  }
  const face = (label: string, lossReader: Reader, tag: string): LineModel => ({
    id: `${element.id}/fresnel ${tag}`,
    label,
    kind: 'fresnel',
    provenance: 'computed',
    elementId: element.id,
    lossDb: lossReader,
  })
  const whole = jointLines(element.id, (v) => state(v).joint)
  const nearFresnel: Reader = (v) => {
    const s = state(v)
    return fresnelLossDb({ index1: s.near.index, index2: s.mediumIndex, incidenceRad: s.nearIncidenceRad })
  }
  const farFresnel: Reader = (v) => {
    const s = state(v)
    return fresnelLossDb({ index1: s.mediumIndex, index2: s.far.index, incidenceRad: s.farIncidenceRad })
  }
  return {
    lines: [
      ...whole.lines,
      face('Reflection, near face', nearFresnel, 'near'),
      face('Reflection, far face', farFresnel, 'far'),
    ],
    lossDb: wholeLoss(gap, context.wavelengthUm),
    view: (v) => jointView(state(v), element, path),
    returnLossDb: (v) => gapReturnLossDb(state(v), element.facePlane),
    notes: (v) => gapNotes(state(v), element.id),
  }
}

function jointView(state: GapState, element: GapElement, path: Path): JointView {
  const { joint, near, far, pointingRad, nearSlopeRad, farSlopeRad } = state
  const alongX = (rad: number) => (element.facePlane === 'x' ? rad : 0)
  const alongY = (rad: number) => (element.facePlane === 'y' ? rad : 0)
  // The joint's tilt is what is left of guide axis, refraction and the receiver's refracted axis.
  const turnRad = farSlopeRad - nearSlopeRad
  return {
    elementId: element.id,
    path,
    joint,
    near,
    far,
    pointingXRad: alongX(pointingRad),
    pointingYRad: alongY(pointingRad),
    directions: {
      nearAxisXRad: joint.tiltXRad + alongX(turnRad),
      nearAxisYRad: joint.tiltYRad + alongY(turnRad),
      farBeamXRad: alongX(farSlopeRad),
      farBeamYRad: alongY(farSlopeRad),
    },
  }
}
