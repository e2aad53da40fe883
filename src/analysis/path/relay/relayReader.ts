// Every number of a relay element, read from the vector into one record.

import { alignedAxes, alignOrder } from '../../../model/designs/alignOrder'
import type { Path } from '../../../model/issue'
import type { RelayElement } from '../../../model/schema/candidate'
import type { RelayMember } from '../../../model/words/candidate'
import { lensContact } from '../../clearance/lensContact'
import { RELAY_AXES } from '../../field/fit/relayAxes'
import type { Contact } from '../../results/contact'
import type { Port } from '../../results/evaluation'
import type { FaceNumbers } from '../faces/faceNumbers'
import { angleReaders, endFaceReaders, offsetReaders } from '../faces/jointPose'
import { bondMovement } from '../gap/bondMovement'
import { atAssembly, unlessUnchanged } from '../vector/atAssembly'
import type { ChainContext, Movement, PortReaders } from '../vector/elementModels'
import { findMedium, requireGas } from '../vector/findMedium'
import { jointMoves, jointRegion } from '../vector/jointRegion'
import { portAt } from '../vector/ports'
import { requiredConditions } from '../vector/requiredConditions'
import { type Reader, slotsOf, type Values } from '../vector/valueReaders'
import {
  type AberrationOf,
  type AlignedAxes,
  type Alignment,
  alignMember,
  alignmentIn,
  beforeAlignment,
} from './alignMember'
import { type LensReaders, lensReaders } from './lensReaders'
import { type MemberPose, poseOf, takePose } from './memberPose'
import { exactAlong } from './realRelay'
import { type RelayAberration, relayAberration } from './relayAberration'
import { newRelayRecord, type RelayGeometry, type RelayRecord, relayRecordOf } from './relayGeometry'
import type { RelayState } from './relayOptics'
import { type DeviceReaders, deviceReaders, fillLens, lensPoseReaders, shiftAlong } from './relayParts'

interface RelayNumbers {
  readonly geometry: RelayGeometry
  readonly near: Port
  readonly far: Port
  readonly mediumIndex: number
  /** Overwritten by the next read. */
  readonly nearFace: FaceNumbers
  readonly farFace: FaceNumbers
}

/** A relay at one vector of values. */
export interface RelayAt {
  readonly numbers: RelayNumbers
  readonly state: RelayState
}

export interface RelayReader {
  readonly read: (v: Values) => RelayNumbers
  /** The geometry of `read` and the faces alone, overwritten by the next look at the relay: for simulated assemblies. */
  readonly draw: (v: Values) => RelayGeometry
  readonly nearFace: FaceNumbers
  readonly farFace: FaceNumbers
  /** Everything as entered, before any alignment; cheap, and without rays. */
  readonly placed: (v: Values) => RelayGeometry
  /** How far a station moves a member that it aligns in these axes from where the values put it; the residual is theirs. */
  readonly alignmentMove: (v: Values, member: RelayMember, axes: AlignedAxes) => MemberPose
  /** Real less paraxial joint; null where neither lens is known by its faces. */
  readonly aberration: RelayAberration | null
  /** Where lens 2 or its holder touches the chip; null where neither chip edge nor barrel is stated. */
  readonly contact: Contact | null
  readonly lens1: LensReaders
  readonly lens2: LensReaders
  readonly device: DeviceReaders | null
  /** Angle by which the near guide is turned against the far one, in the plane of the face angles. */
  readonly pointingRad: number
}

const WHY_GAS = 'in a gel or an adhesive the lens faces lose much of their refractive power'

/** Registers the relay's quantities. Faces that reflect everything and fillings are reported. */
export function relayReader(
  context: ChainContext,
  element: RelayElement,
  path: Path,
  nearPort: PortReaders,
  farPort: PortReaders,
): RelayReader {
  const { quantity } = context.readers
  const found = findMedium(context, element.mediumId)
  requireGas(context, found, path, 'a relay', WHY_GAS)
  const { index } = found
  const lens1 = lensReaders(context, element.lens1Id, 1, index)
  const lens2 = lensReaders(context, element.lens2Id, 2, index)
  const frontGap = quantity(element.frontGap, 'gap', 'fibre face to lens 1', [...path, 'frontGap'])
  const stretch = quantity(element.stretch, 'stretch', 'collimated section', [...path, 'stretch'])
  const enteredBackGap = quantity(element.backGap, 'gap', 'lens 2 to facet', [...path, 'backGap'])
  const contact = lensContact(context.project, path)
  const leastBackUm = Math.max(0, contact?.gapUm ?? 0)
  /** Lens 2 and its holder stop at contact. */
  const backGap: Reader = (v) => Math.max(leastBackUm, enteredBackGap(v))
  const pose1 = lensPoseReaders(context, element, 'lens1', path)
  const pose2 = lensPoseReaders(context, element, 'lens2', path)
  const { offsetX, offsetY } = offsetReaders(context, element, path)
  const offsetZ = shiftAlong(context, element, path)
  const { tiltX, tiltY, roll, nearAngle, farAngle } = angleReaders(context, element, path)
  const device = deviceReaders(context, element, path)
  const inX = element.facePlane === 'x'
  const { nearFace: nearReader, farFace: farReader } = endFaceReaders(context, element, path)
  const faces = { near: nearReader.face, far: farReader.face }
  const faceReads = [index, nearPort.index, farPort.index, nearAngle, farAngle, nearReader, farReader]
  const fillFaces = unlessUnchanged(slotsOf(faceReads), (v) => {
    nearReader.fill(v, nearPort.index(v), index(v), nearAngle(v))
    farReader.fill(v, farPort.index(v), index(v), farAngle(v))
  })
  fillFaces(Float64Array.from(context.readers.variables, (variable) => variable.nominal))
  for (const side of ['near', 'far'] as const) {
    if (!faces[side].blocked) continue
    context.report({
      path: [...path, `${side}FaceAngle`],
      code: 'range',
      message: `the ${side === 'near' ? 'fibre-side' : 'chip-side'} end face is angled beyond its critical angle to ${found.medium.name}: all light is totally reflected at it`,
      fix: 'Use a smaller face angle.',
    })
  }
  const nearSlope = faces.near.slopeRad
  const farSlope = faces.far.slopeRad
  const alignedMembers = alignOrder(element)
    .map((member) => alignmentIn(member, alignedAxes(element, member)))
    .filter(({ axes }) => axes.size > 0)
  const members = context.alignsEachChannel ? alignedMembers : []
  const movements = [
    ...bondMovement(context, element, path, 'holder drift'),
    ...context.movements(element.id),
  ]
  const moved = (along: keyof Movement, v: Values) => {
    let sum = 0
    for (const movement of movements) sum += movement[along](v)
    return sum
  }
  /** Both guides are turned once, so that their nominal beams lie on the axis; sampled faces and indices add a tilt. */
  const leftover = () => faces.near.slopeRad - nearSlope - (faces.far.slopeRad - farSlope)

  /** Fills in everything as assembled, before the joint moves; the faces are those filled last. */
  const assemble = (v: Values, g: RelayRecord) => {
    g.wavelengthUm = context.wavelength(v)
    g.mediumIndex = index(v)
    g.emitterMfdXUm = nearPort.mfdXUm(v) * (inX ? faces.near.widthScale : 1)
    g.emitterMfdYUm = nearPort.mfdYUm(v) * (inX ? 1 : faces.near.widthScale)
    g.waistXUm = nearPort.waistXUm(v)
    g.waistYUm = nearPort.waistYUm(v)
    g.receiverMfdXUm = farPort.mfdXUm(v) * (inX ? faces.far.widthScale : 1)
    g.receiverMfdYUm = farPort.mfdYUm(v) * (inX ? 1 : faces.far.widthScale)
    g.offsetXUm = offsetX(v)
    g.offsetYUm = offsetY(v)
    g.tiltXRad = tiltX(v) + (inX ? leftover() : 0)
    g.tiltYRad = tiltY(v) + (inX ? 0 : leftover())
    g.rollRad = roll(v)
    g.frontGapUm = frontGap(v) - offsetZ(v)
    g.stretchUm = stretch(v)
    g.backGapUm = backGap(v)
    g.leastBackUm = leastBackUm
    g.deviceLengthUm = device === null ? 0 : device.lengthUm(v)
    g.deviceIndex = device === null ? 1 : device.index(v)
    fillLens(g.lens1, lens1, pose1, v)
    fillLens(g.lens2, lens2, pose2, v)
  }
  /** How far along the light a nominal assembly's members go from their entered places; empty until one has been aligned. */
  const nominalShiftUm = new Map<RelayMember, number>()
  const guidePose = {
    offsetXUm: offsetX,
    offsetYUm: offsetY,
    offsetZUm: offsetZ,
    tiltXRad: tiltX,
    tiltYRad: tiltY,
  }
  /** How a member is aligned: residuals are the values of its aligned axes. */
  const fillAlignment = (v: Values, how: Alignment) => {
    const { member, residual } = how
    const pose = member === 'lens1' ? pose1 : member === 'lens2' ? pose2 : guidePose
    how.enteredAxialUm = member === 'guide' ? -frontGap(v) : 0
    how.searchFromUm = nominalShiftUm.get(member) ?? 0
    residual.offsetXUm = pose.offsetXUm(v)
    residual.offsetYUm = pose.offsetYUm(v)
    residual.axialUm = pose.offsetZUm(v)
    residual.tiltXRad = pose.tiltXRad(v)
    residual.tiltYRad = pose.tiltYRad(v)
  }
  /** Fills in everything as the station leaves it; the faces are those filled last. */
  const asAligned = (v: Values, which: readonly Alignment[], differenceDb: AberrationOf, g: RelayRecord) => {
    assemble(v, g)
    for (const how of which) {
      fillAlignment(v, how)
      beforeAlignment(g, how)
    }
    for (const how of which) alignMember(g, how, differenceDb)
  }
  // The aberration is tabled about where the station leaves a nominal assembly; that is also where the search for others starts.
  let atNominal: { readonly nominal: Values; readonly geometry: RelayGeometry } | null = null
  const nominalStation = () => {
    if (atNominal !== null) return atNominal
    const nominal = Float64Array.from(context.readers.variables, (variable) => variable.nominal)
    fillFaces(nominal)
    const shapes = [lens1.real?.(nominal) ?? null, lens2.real?.(nominal) ?? null] as const
    const isReal = shapes.some((shape) => shape !== null)
    const geometry = newRelayRecord()
    asAligned(nominal, alignedMembers, isReal ? exactAlong(shapes) : null, geometry)
    for (const { member, axes, residual, enteredAxialUm } of alignedMembers) {
      const { axialUm } = poseOf(geometry, member)
      if (axes.has('offsetZ')) nominalShiftUm.set(member, axialUm - residual.axialUm - enteredAxialUm)
    }
    atNominal = { nominal, geometry }
    return atNominal
  }
  const aberration = relayAberration(
    { lens1, lens2 },
    nominalStation,
    {
      geometryAt: (v) => read(v).geometry,
      movesOf: (coordinates) =>
        jointMoves(
          context.readers.variables,
          nominalStation().nominal,
          coordinates,
          requiredConditions(context, path),
          RELAY_AXES.length,
        ),
      regionOf: (coordinates) => {
        const { nominal } = nominalStation()
        const conditions = requiredConditions(context, path)
        const region = jointRegion(context.readers.variables, nominal, coordinates, conditions, RELAY_AXES)
        return region.from.every((low, i) => low === region.to[i]) ? null : region
      },
    },
    context.sums,
  )
  const alongDb = aberration?.alongDb ?? null
  const station = newRelayRecord()
  const turnBy = (g: RelayRecord, byRad: number) => {
    if (inX) g.tiltXRad += byRad
    else g.tiltYRad += byRad
  }
  const align = atAssembly(
    context.operating,
    unlessUnchanged(null, (v) => {
      nominalStation()
      fillFaces(v)
      // Kept as it would be entered: the tilts of the fibre side less what the faces add.
      const addedRad = leftover()
      asAligned(v, members, alongDb, station)
      turnBy(station, -addedRad)
    }),
  )
  const fill = (v: Values, g: RelayRecord): RelayGeometry => {
    if (members.length > 0) align(v)
    fillFaces(v)
    assemble(v, g)
    for (const { member } of members) {
      takePose(g, station, member)
      if (member === 'guide') turnBy(g, leftover())
    }
    g.offsetXUm += moved('x', v)
    g.offsetYUm += moved('y', v)
    g.frontGapUm += moved('z', v)
    return g
  }
  const read = (v: Values): RelayNumbers => {
    const geometry = fill(v, newRelayRecord())
    return {
      near: portAt(nearPort, v),
      far: portAt(farPort, v),
      mediumIndex: geometry.mediumIndex,
      nearFace: faces.near,
      farFace: faces.far,
      geometry,
    }
  }
  const picture = newRelayRecord()

  return {
    read,
    draw: (v) => fill(v, picture),
    nearFace: faces.near,
    farFace: faces.far,
    placed: (v) => {
      fillFaces(v)
      const g = newRelayRecord()
      assemble(v, g)
      return g
    },
    alignmentMove: (v, member, axes) => {
      nominalStation()
      const { geometry } = read(v)
      const aligned = relayRecordOf(geometry)
      const how = alignmentIn(member, axes)
      fillAlignment(v, how)
      alignMember(aligned, how, alongDb)
      const [from, to] = [poseOf(geometry, member), poseOf(aligned, member)]
      return {
        offsetXUm: to.offsetXUm - from.offsetXUm,
        offsetYUm: to.offsetYUm - from.offsetYUm,
        axialUm: to.axialUm - from.axialUm,
        tiltXRad: to.tiltXRad - from.tiltXRad,
        tiltYRad: to.tiltYRad - from.tiltYRad,
      }
    },
    aberration,
    contact,
    lens1,
    lens2,
    device,
    pointingRad: farSlope - nearSlope,
  }
}
