// Two end faces across a gap filled with a medium: the exact joint of the two modes, and a reflection at each face.
// Offsets are measured from the receiver's refracted axis, tilts from the direction that its refracted beam has.

import type { Path } from '../../../model/issue'
import type { GapElement } from '../../../model/schema/candidate'
import {
  atMostNoLight,
  fillCurvatureDb,
  type GaussianJoint,
  jointEfficiencyOf,
  jointLossDb,
  lossDb,
  NO_LIGHT_RATIO,
} from '../../../optics/index'
import { FIT_AXES, fillCoordinates, type JointRegion } from '../../field/fit/jointAxes'
import { optimumOf } from '../../field/fit/knownFits'
import type { JointView, Port } from '../../results/evaluation'
import { angledFaceNotes } from '../faces/angledFaceNotes'
import type { FaceNumbers } from '../faces/faceNumbers'
import { gapReflections } from '../faces/reflections'
import { type FieldCorrection, fieldCorrection, type JoinSide, jointFields } from '../guides/fieldCorrection'
import type { ChainContext, JoinModel, LineModel, PortReaders } from '../vector/elementModels'
import { jointRegion } from '../vector/jointRegion'
import { portAt } from '../vector/ports'
import { requiredConditions } from '../vector/requiredConditions'
import type { Reader, Values } from '../vector/valueReaders'
import { gapNotes } from './gapChecks'
import { gapInterference } from './gapInterference'
import { type GapReader, type GapValues, gapReader } from './gapValues'
import { jointLines } from './jointLines'

/** A joint with everything that its faces do to it, at one set of values. */
interface FacedJoint {
  readonly joint: GaussianJoint
  readonly near: Port
  readonly far: Port
  readonly pointingRad: number
  /** Slopes in the plane of the face angles: of the near guide's beam and of the far guide's own, against their axes. */
  readonly nearSlopeRad: number
  readonly farSlopeRad: number
}

/** The joint that the gap's numbers make, as lasting plain data. */
function jointOf(n: GapValues, wavelengthUm: number): GaussianJoint {
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

/** Of a joint beyond NO_LIGHT_DB: the loss assigned to it. */
type Beyond = (jointLossDb: number) => number

/** Real less Gaussian joint, dB. */
type Beside = FieldCorrection['differenceDb']

const unchanged: Beyond = (loss) => loss

/**
 * Loss of the joint and both faces, dB, without allocation; `beside` adds to it. `beyond` gives the loss of a joint that no
 * light passes.
 */
function wholeLoss(
  { read }: GapReader,
  wavelength: Reader,
  beside: Beside,
  beyond: Beyond = atMostNoLight,
): Reader {
  return (v) => {
    const n = read(v)
    const wavelengthUm = wavelength(v)
    const efficiency = jointEfficiencyOf(n, n.mediumIndex, wavelengthUm)
    const ratio = efficiency * n.near.transmission * n.far.transmission
    if (ratio > NO_LIGHT_RATIO) return beside(v, n, n.mediumIndex, wavelengthUm) - 10 * Math.log10(ratio)
    const faces = lossDb(n.near.transmission) + lossDb(n.far.transmission)
    // A sampled core without a mode has a NaN width.
    const joint = Number.isNaN(efficiency) ? efficiency : jointLossDb(jointOf(n, wavelengthUm))
    return beside(v, n, n.mediumIndex, wavelengthUm) + beyond(joint) + faces
  }
}

/** Where tolerances, temperatures and the band take the joint; null where they leave it in place. */
function reachedRegion(
  context: ChainContext,
  { read }: GapReader,
  nominal: Values,
  joint: GaussianJoint,
  path: Path,
): JointRegion | null {
  const region = jointRegion(
    context.readers.variables,
    nominal,
    (v, out) => {
      const n = read(v)
      fillCoordinates(n, n.mediumIndex, context.wavelength(v), joint, out)
    },
    requiredConditions(context, path),
    FIT_AXES,
  )
  return region.from.every((low, i) => low === region.to[i]) ? null : region
}

/** A side of the join: its port, and how much its face stretches the mode. */
const joinSide =
  ({ facePlane }: GapElement) =>
  (port: PortReaders, { widthScale }: FaceNumbers): JoinSide => ({
    port,
    stretchX: facePlane === 'x' ? widthScale : 1,
    stretchY: facePlane === 'x' ? 1 : widthScale,
  })

/** Alignment on power settles where the fields couple most. Whether that is provisional, as it is computed elsewhere. */
function alignOnFields(
  gap: GapReader,
  { wavelengthUm }: ChainContext,
  nominal: Values,
  side: ReturnType<typeof joinSide>,
  [near, far]: readonly [PortReaders, PortReaders],
): boolean {
  if (near.shape === undefined && far.shape === undefined) return false
  const numbers = gap.settled(nominal)
  const joint = jointOf(numbers, wavelengthUm)
  const spec = jointFields(side(near, numbers.near), side(far, numbers.far), nominal, joint)
  if (spec === null) return false
  const { shift, isProvisional } = optimumOf({ kind: 'optimum', spec, nominal: joint, free: gap.aligned })
  gap.settleBeside(shift)
  return isProvisional
}

export function gapJoin(
  context: ChainContext,
  element: GapElement,
  path: Path,
  near: PortReaders,
  far: PortReaders,
): JoinModel {
  const gap = gapReader(context, element, path, near, far)
  const state = (v: Values): FacedJoint => {
    const n = gap.read(v)
    return {
      joint: jointOf(n, context.wavelength(v)),
      near: portAt(near, v),
      far: portAt(far, v),
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
  const nominal = Float64Array.from(context.readers.variables, (variable) => variable.nominal)
  const side = joinSide(element)
  const awaitsOptimum =
    gap.aligned.some((each) => each) && alignOnFields(gap, context, nominal, side, [near, far])
  const numbers = gap.read(nominal)
  const nominalJoint = jointOf(numbers, context.wavelengthUm)
  const correction = fieldCorrection(
    element.id,
    side(near, numbers.near),
    side(far, numbers.far),
    nominal,
    nominalJoint,
    (joint) => reachedRegion(context, gap, nominal, joint, path),
    context.sums,
  )
  const beside: Beside = correction?.differenceDb ?? (() => 0)
  const coordinates = (v: Values): readonly number[] => {
    const n = gap.read(v)
    const at = new Float64Array(FIT_AXES.length)
    fillCoordinates(n, n.mediumIndex, context.wavelength(v), nominalJoint, at)
    return [...at]
  }
  const form = { curvatureDb: new Float64Array(16), slopeDb: new Float64Array(4) }
  const pose = new Float64Array(4)
  const joint = jointLines(element.id, (v) => state(v).joint)
  const whole = wholeLoss(gap, context.wavelength, beside)
  const { parts } = gap
  const through = (side: 'near' | 'far'): Reader => {
    return (v) => lossDb(gap.read(v)[side].transmission)
  }
  return {
    lines: [
      ...joint.lines,
      ...(correction?.line
        ? [
            {
              ...correction.line,
              lossDb: (v: Values) => {
                const n = gap.read(v)
                return beside(v, n, n.mediumIndex, context.wavelength(v))
              },
            },
          ]
        : []),
      face('Fresnel loss, fibre-side face', through('near'), 'near'),
      face('Fresnel loss, chip-side face', through('far'), 'far'),
    ],
    lossDb: whole,
    ...(parts &&
      correction === null && { gapJoint: { ...parts, wavelength: context.wavelength, lossDb: whole } }),
    searchDb: wholeLoss(gap, context.wavelength, beside, unchanged),
    ...(correction?.beyondFitDb && {
      beyondFitDb: (at) => correction.beyondFitDb?.(at.map(coordinates)) ?? [],
    }),
    ...(correction?.fitMissesDb !== undefined && { fitMissesDb: correction.fitMissesDb }),
    ...(gap.contact && { contact: gap.contact }),
    ...(gap.clearanceUm && { clearanceUm: gap.clearanceUm }),
    ...((awaitsOptimum || correction?.awaitsFit) && { awaitsFit: () => true }),
    poseForm: (v) => {
      const n = gap.read(v)
      fillCurvatureDb(jointOf(n, context.wavelength(v)), form.curvatureDb)
      pose[0] = n.offsetXUm
      pose[1] = n.offsetYUm
      pose[2] = n.tiltXRad
      pose[3] = n.tiltYRad
      for (let i = 0; i < 4; i++) {
        let slope = 0
        for (let j = 0; j < 4; j++) slope += (form.curvatureDb[4 * i + j] ?? 0) * (pose[j] ?? 0)
        form.slopeDb[i] = slope
      }
      return form
    },
    view: (v) => ({
      ...jointView(state(v), element, path),
      ...(gap.contact && { contact: gap.contact }),
      ...(correction?.view && { field: correction.view }),
    }),
    reflections: (v) => {
      const { joint, near: nearPort, far: farPort } = state(v)
      const n = gap.read(v)
      const inX = element.facePlane === 'x'
      // At no tilt each side's beam meets the other face as that face's own beam would leave it.
      const met = (face: FaceNumbers, sign: 1 | -1) => ({
        reflectance: face.reflectance,
        transmission: face.transmission,
        faceAngleRad: face.faceAngleRad,
        incidenceXRad: (inX ? face.mediumAngleRad : 0) + sign * joint.tiltXRad,
        incidenceYRad: (inX ? 0 : face.mediumAngleRad) + sign * joint.tiltYRad,
      })
      return gapReflections({
        elementId: element.id,
        wavelengthUm: joint.wavelengthUm,
        mediumIndex: n.mediumIndex,
        gapUm: joint.gapUm,
        plane: element.facePlane,
        near: nearPort,
        far: farPort,
        nearFace: met(n.near, -1),
        farFace: met(n.far, 1),
      })
    },
    etalon: (v) => {
      const n = gap.read(v)
      if (near.tip !== undefined || n.near.reflectance * n.far.reflectance === 0) return null
      const faces = { near: gap.nearFace, far: gap.farFace, plane: element.facePlane }
      return gapInterference(v, n, jointOf(n, context.wavelength(v)), faces)
    },
    notes: (v) => {
      const { joint, near: nearPort, far: farPort } = state(v)
      const n = gap.read(v)
      return [
        ...gapNotes(joint, element.id),
        ...angledFaceNotes(element.id, joint.wavelengthUm, [
          { name: 'fibre-side face', port: nearPort, faceAngleRad: n.near.faceAngleRad },
          { name: 'chip-side face', port: farPort, faceAngleRad: n.far.faceAngleRad },
        ]),
        ...(correction?.notes ?? []),
      ]
    },
  }
}

function jointView(state: FacedJoint, element: GapElement, path: Path): JointView {
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
