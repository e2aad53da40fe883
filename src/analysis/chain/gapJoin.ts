// Two end faces across a gap filled with a medium: the exact joint of the two modes, and a reflection at each face.
// Offsets count from the receiver's refracted axis, tilts from the direction that its refracted beam has.

import type { GapElement } from '../../model/candidate'
import type { Path } from '../../model/issue'
import { fresnelLossDb, type GaussianJoint } from '../../optics/index'
import type { JointView, Port } from '../evaluation'
import { faceSide, pointingRad } from './faceGeometry'
import { findMedium } from './findMedium'
import { gapNotes, gapReturnLossDb } from './gapChecks'
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
}

/** Reader of the gap's whole state. Total reflection at the nominal values is reported once, here. */
function stateReader(
  context: ChainContext,
  element: GapElement,
  path: Path,
  nearPort: PortReaders,
  farPort: PortReaders,
): (v: Values) => GapState {
  const { quantity } = context.readers
  const { medium, index } = findMedium(context, element.mediumId)
  const gap = quantity(element.gap, 'gap', 'gap', [...path, 'gap'])
  const offsetX = quantity(element.offsetX, 'offset', 'offset x', [...path, 'offsetX'])
  const offsetY = quantity(element.offsetY, 'offset', 'offset y', [...path, 'offsetY'])
  const tiltX = quantity(element.tiltX, 'tilt', 'tilt x', [...path, 'tiltX'])
  const tiltY = quantity(element.tiltY, 'tilt', 'tilt y', [...path, 'tiltY'])
  const roll = quantity(element.roll, 'roll', 'roll', [...path, 'roll'])
  const nearAngle = quantity(element.nearFaceAngle, 'faceAngle', 'near face angle', [
    ...path,
    'nearFaceAngle',
  ])
  const farAngle = quantity(element.farFaceAngle, 'faceAngle', 'far face angle', [...path, 'farFaceAngle'])
  const inX = element.facePlane === 'x'

  const sides = (v: Values) => ({
    near: faceSide(nearPort.index(v), index(v), nearAngle(v)),
    far: faceSide(farPort.index(v), index(v), farAngle(v)),
  })
  const nominal = Float64Array.from(context.readers.variables, (variable) => variable.nominal)
  const set = sides(nominal)
  if (set.near === null || set.far === null) {
    const field = set.near === null ? 'nearFaceAngle' : 'farFaceAngle'
    context.report({
      path: [...path, field],
      code: 'range',
      message: `the ${field === 'nearFaceAngle' ? 'near' : 'far'} end face leans so far that all light is totally reflected in ${medium.name}`,
      fix: 'Use a smaller face angle or a medium of higher index.',
    })
  }
  const turned = set.near === null || set.far === null ? 0 : pointingRad(set.near, set.far, element.pointing)

  return (v) => {
    const { near, far } = sides(v)
    const leftover = near === null || far === null ? 0 : turned + near.slopeRad - far.slopeRad
    const nearScale = near?.widthScale ?? 1
    const farScale = far?.widthScale ?? 1
    const nearMode = portAt(nearPort, v)
    const farMode = portAt(farPort, v)
    const mediumIndex = index(v)
    return {
      joint: {
        wavelengthUm: context.wavelengthUm,
        index: mediumIndex,
        emitterMfdXUm: nearMode.mfdXUm * (inX ? nearScale : 1),
        emitterMfdYUm: nearMode.mfdYUm * (inX ? 1 : nearScale),
        receiverMfdXUm: farMode.mfdXUm * (inX ? farScale : 1),
        receiverMfdYUm: farMode.mfdYUm * (inX ? 1 : farScale),
        offsetXUm: offsetX(v),
        offsetYUm: offsetY(v),
        gapUm: Math.max(0, gap(v)), // a tolerance may reach past contact; the faces then touch
        tiltXRad: tiltX(v) + (inX ? leftover : 0),
        tiltYRad: tiltY(v) + (inX ? 0 : leftover),
        rollRad: roll(v),
        waistXUm: nearMode.waistXUm,
        waistYUm: nearMode.waistYUm,
      },
      near: nearMode,
      far: farMode,
      mediumIndex,
      nearFaceAngleRad: nearAngle(v),
      farFaceAngleRad: farAngle(v),
      nearIncidenceRad: near?.incidenceInGuideRad ?? 0,
      farIncidenceRad: far?.incidenceInMediumRad ?? 0,
      pointingRad: turned,
    }
  }
}

export function gapJoin(
  context: ChainContext,
  element: GapElement,
  path: Path,
  near: PortReaders,
  far: PortReaders,
): JoinModel {
  const state = stateReader(context, element, path, near, far)
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
    lossDb: (v) => whole.lossDb(v) + nearFresnel(v) + farFresnel(v),
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
