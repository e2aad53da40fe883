// Two end faces across a gap filled with a medium: the exact joint of the two modes, and a reflection at each face.
// Offsets count from the receiver's refracted axis, tilts from the direction that its refracted beam has.

import type { GapElement } from '../../model/candidate'
import type { Path } from '../../model/issue'
import { fresnelLossDb, type GaussianJoint, jointEfficiencyAt, jointLossDb } from '../../optics/index'
import type { JointView, LineKind, Port } from '../evaluation'
import { gapNotes, gapReturnLossDb } from './gapChecks'
import { type GapNumbers, type GapReader, gapReader } from './gapNumbers'
import type { ChainContext, JoinModel, LineModel, PortReaders } from './models'
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
}

/** The record of the gap's numbers as lasting plain data. */
function stateOf(n: GapNumbers, wavelengthUm: number, pointingRad: number): GapState {
  return {
    joint: {
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
      waistXUm: 0,
      waistYUm: 0,
    },
    near: { mfdXUm: n.nearMfdXUm, mfdYUm: n.nearMfdYUm, index: n.nearIndex },
    far: { mfdXUm: n.farMfdXUm, mfdYUm: n.farMfdYUm, index: n.farIndex },
    mediumIndex: n.mediumIndex,
    nearFaceAngleRad: n.near.faceAngleRad,
    farFaceAngleRad: n.far.faceAngleRad,
    nearIncidenceRad: n.near.faceAngleRad,
    farIncidenceRad: n.far.mediumAngleRad,
    pointingRad,
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
      0,
      0,
    )
    const ratio = efficiency * n.near.transmission * n.far.transmission
    // A drawn core without a mode has a NaN width, and its loss stays NaN.
    if (!(ratio <= LEAST_RATIO)) return -10 * Math.log10(ratio)
    const faces = n.near.transmission * n.far.transmission
    return jointLossDb(stateOf(n, wavelengthUm, 0).joint) - 10 * Math.log10(faces)
  }
}

const ALIGNED = { offsetXUm: 0, offsetYUm: 0, gapUm: 0, tiltXRad: 0, tiltYRad: 0, rollRad: 0 } as const

type Part = Exclude<LineKind, 'fresnel'> & ('mode mismatch' | 'gap' | 'lateral offset' | 'tilt' | 'roll')

/** The joint with only one kind of misalignment left in it. */
function only(joint: GaussianJoint, part: Part): GaussianJoint {
  const aligned = { ...joint, ...ALIGNED }
  const { offsetXUm, offsetYUm, gapUm, tiltXRad, tiltYRad, rollRad } = joint
  switch (part) {
    case 'mode mismatch':
      return aligned
    case 'gap':
      return { ...aligned, gapUm }
    case 'lateral offset':
      return { ...aligned, offsetXUm, offsetYUm }
    case 'tilt':
      return { ...aligned, tiltXRad, tiltYRad }
    case 'roll':
      return { ...aligned, rollRad }
  }
}

const PARTS: readonly (readonly [Part, string])[] = [
  ['mode mismatch', 'Mode mismatch'],
  ['gap', 'Gap'],
  ['lateral offset', 'Lateral offset'],
  ['tilt', 'Tilt'],
  ['roll', 'Roll'],
]

export function gapJoin(
  context: ChainContext,
  element: GapElement,
  path: Path,
  near: PortReaders,
  far: PortReaders,
): JoinModel {
  const gap = gapReader(context, element, path, near, far)
  const state = (v: Values) => stateOf(gap.read(v), context.wavelengthUm, gap.pointingRad)
  const joint = (v: Values) => state(v).joint
  const alignedLoss: Reader = (v) => jointLossDb(only(joint(v), 'mode mismatch'))
  const partLoss = (part: Part): Reader =>
    part === 'mode mismatch' ? alignedLoss : (v) => jointLossDb(only(joint(v), part)) - alignedLoss(v)
  const fullLoss: Reader = (v) => jointLossDb(joint(v))
  const line = (kind: LineKind, label: string, reader: Reader, tag: string = kind): LineModel => ({
    id: `${element.id}/${tag}`,
    label,
    kind,
    provenance: 'computed',
    elementId: element.id,
    lossDb: reader,
  })
  const partLines = PARTS.map(([part, label]) => line(part, label, partLoss(part)))
  const combined: Reader = (v) => fullLoss(v) - partLines.reduce((sum, part) => sum + part.lossDb(v), 0)
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
      ...partLines,
      line('combined', 'Combined misalignment', combined),
      line('fresnel', 'Reflection, near face', nearFresnel, 'fresnel near'),
      line('fresnel', 'Reflection, far face', farFresnel, 'fresnel far'),
    ],
    lossDb: wholeLoss(gap, context.wavelengthUm),
    view: (v) => jointView(state(v), element, path),
    returnLossDb: (v) => gapReturnLossDb(state(v), element.facePlane),
    notes: (v) => gapNotes(state(v), element.id),
  }
}

function jointView(state: GapState, element: GapElement, path: Path): JointView {
  const inX = element.facePlane === 'x'
  return {
    elementId: element.id,
    path,
    joint: state.joint,
    near: state.near,
    far: state.far,
    pointingXRad: inX ? state.pointingRad : 0,
    pointingYRad: inX ? 0 : state.pointingRad,
  }
}
