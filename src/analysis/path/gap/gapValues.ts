// All numbers of a gap at one vector of values, written into one record that is made once: no allocation in hot loops.

import type { Path } from '../../../model/issue'
import type { GapElement } from '../../../model/schema/candidate'
import type { PoseAxis } from '../../../model/words/candidate'
import type { GaussianJoint } from '../../../optics/index'
import { type BodyPose, contactFromUm, contactOf } from '../../clearance/contact'
import { type ClearanceSetup, clearanceSetup } from '../../clearance/jointClearance'
import type { Contact } from '../../results/contact'
import type { FaceNumbers, Mutable } from '../faces/faceNumbers'
import type { FaceReader } from '../faces/faceReader'
import { angleReaders, endFaceReaders, offsetReaders } from '../faces/jointPose'
import { atAssembly, unlessUnchanged } from '../vector/atAssembly'
import type { ChainContext, PortReaders } from '../vector/elementModels'
import { findMedium } from '../vector/findMedium'
import type { GapParts } from '../vector/gapJoint'
import { type Reader, slotsOf, type Values } from '../vector/valueReaders'
import { type FreePose, poseAligner } from './alignPose'
import { bondMovement } from './bondMovement'
import { ALIGNED } from './jointLines'

/** The joint without its medium, which is named apart, and the wavelength. */
export interface GapValues extends Omit<GaussianJoint, 'wavelengthUm' | 'index'> {
  readonly mediumIndex: number
  readonly nearIndex: number
  readonly farIndex: number
  readonly nearMfdXUm: number
  readonly nearMfdYUm: number
  readonly farMfdXUm: number
  readonly farMfdYUm: number
  readonly near: FaceNumbers
  readonly far: FaceNumbers
}

export interface GapReader {
  /** The record of this gap, overwritten by every `read`. */
  readonly read: (v: Values) => GapValues
  readonly nearFace: FaceReader
  readonly farFace: FaceReader
  /** Angle by which the near guide is turned against the far one, in the plane of the face angles. */
  readonly pointingRad: number
  /** Where glass touches chip in the nominal pose; null where neither chip edge nor outline is stated. */
  readonly contact: Contact | null
  /**
   * Gap less the one at which the pose of the values touches, um: below 0 glass and chip touch. Infinity where nothing is in the way;
   * null where neither chip edge nor outline is stated.
   */
  readonly clearanceUm: Reader | null
  /** Offsets x, y and tilts x, y that are aligned on power. */
  readonly aligned: readonly boolean[]
  /** The record as aligned, without residuals and what moves it later. */
  readonly settled: (v: Values) => GapValues
  /** From now on alignment settles at this distance from the optimum of the Gaussians, in the order of `aligned`, um and rad. */
  readonly settleBeside: (shift: readonly number[]) => void
  /** What it reads; null where a station aligns it or a face is coated. */
  readonly parts: GapParts | null
}

/** The axes of `aligned` and `settleBeside`. */
const SETTLING: readonly PoseAxis[] = ['offsetX', 'offsetY', 'tiltX', 'tiltY']

/** Registers the gap's quantities and returns its reader. Total reflection at the nominal values is reported once. */
export function gapReader(
  context: ChainContext,
  element: GapElement,
  path: Path,
  nearPort: PortReaders,
  farPort: PortReaders,
): GapReader {
  const { quantity } = context.readers
  const { medium, index } = findMedium(context, element.mediumId)
  const gap = quantity(element.gap, 'gap', 'gap', [...path, 'gap'])
  const { offsetX, offsetY } = offsetReaders(context, element, path)
  const { tiltX, tiltY, roll, nearAngle, farAngle } = angleReaders(context, element, path)
  const movements = [
    ...bondMovement(context, element, path, medium.state === 'adhesive' ? 'cure shift' : 'holder drift'),
    ...context.movements(element.id),
  ]
  const inX = element.facePlane === 'x'
  const aligned: ReadonlySet<PoseAxis> = new Set(context.alignsEachChannel ? (element.aligned ?? []) : [])
  const alignPose = poseAligner(aligned, context.wavelengthUm)
  // A round mode has one reader for both axes; a core's mode is then looked up once.
  const nearRound = nearPort.mfdXUm === nearPort.mfdYUm
  const farRound = farPort.mfdXUm === farPort.mfdYUm
  const modes = [nearPort, farPort].flatMap(({ index: own, mfdXUm, mfdYUm, waistXUm, waistYUm }) => [
    ...[own, mfdXUm, mfdYUm, waistXUm, waistYUm],
  ])
  /** A record of the gap, with what fills in its modes and faces: they move less often than the pose. */
  const newRecord = () => {
    const { nearFace, farFace } = endFaceReaders(context, element, path)
    const near = nearFace.face
    const far = farFace.face
    const numbers = newNumbers(near, far)
    const read = [index, ...modes, nearAngle, farAngle, nearFace, farFace]
    const fillFaces = unlessUnchanged(slotsOf(read), (v) => {
      numbers.mediumIndex = index(v)
      numbers.nearIndex = nearPort.index(v)
      numbers.farIndex = farPort.index(v)
      nearFace.fill(v, numbers.nearIndex, numbers.mediumIndex, nearAngle(v))
      farFace.fill(v, numbers.farIndex, numbers.mediumIndex, farAngle(v))
      numbers.nearMfdXUm = nearPort.mfdXUm(v)
      numbers.nearMfdYUm = nearRound ? numbers.nearMfdXUm : nearPort.mfdYUm(v)
      numbers.waistXUm = nearPort.waistXUm(v)
      numbers.waistYUm = nearRound ? numbers.waistXUm : nearPort.waistYUm(v)
      numbers.farMfdXUm = farPort.mfdXUm(v)
      numbers.farMfdYUm = farRound ? numbers.farMfdXUm : farPort.mfdYUm(v)
      numbers.emitterMfdXUm = numbers.nearMfdXUm * (inX ? near.widthScale : 1)
      numbers.emitterMfdYUm = numbers.nearMfdYUm * (inX ? 1 : near.widthScale)
      numbers.receiverMfdXUm = numbers.farMfdXUm * (inX ? far.widthScale : 1)
      numbers.receiverMfdYUm = numbers.farMfdYUm * (inX ? 1 : far.widthScale)
    })
    return { numbers, fillFaces, nearFace, farFace, read }
  }
  const record = newRecord()
  const { numbers, fillFaces, nearFace, farFace } = record
  const { near, far } = numbers

  fillFaces(Float64Array.from(context.readers.variables, (variable) => variable.nominal))
  if (near.blocked || far.blocked) {
    context.report({
      path: [...path, near.blocked ? 'nearFaceAngle' : 'farFaceAngle'],
      code: 'range',
      message: `the ${near.blocked ? 'fibre-side' : 'chip-side'} end face is angled beyond its critical angle to ${medium.name}: all light is totally reflected at it`,
      fix: 'Use a smaller face angle or a medium of higher index.',
    })
  }
  const pointingRad = element.pointing === 'refracted' ? far.slopeRad - near.slopeRad : 0

  let besideXUm = 0
  let besideYUm = 0
  let besideXRad = 0
  let besideYRad = 0
  const moveBeside = () => {
    numbers.offsetXUm += besideXUm
    numbers.offsetYUm += besideYUm
    numbers.tiltXRad += besideXRad
    numbers.tiltYRad += besideYRad
  }
  /** Fills in a record as assembled, before anything moves it. */
  const assemble = (v: Values, { numbers: n, fillFaces: fill }: typeof record) => {
    fill(v)
    // The guides are turned once, for the nominal faces; what sampled faces and indices add is a tilt.
    const leftover = pointingRad + n.near.slopeRad - n.far.slopeRad
    const leftoverX = inX ? leftover : 0
    const leftoverY = inX ? 0 : leftover
    n.offsetXUm = offsetX(v)
    n.offsetYUm = offsetY(v)
    n.gapUm = gap(v)
    n.tiltXRad = tiltX(v) + leftoverX
    n.tiltYRad = tiltY(v) + leftoverY
    n.rollRad = roll(v)
    if (aligned.size > 0) alignPose(n, leftoverX, leftoverY)
  }
  const settles = SETTLING.map((axis) => aligned.has(axis))
  const residuals = [offsetX, offsetY, tiltX, tiltY]
  const settled = (v: Values): GapValues => {
    assemble(v, record)
    moveBeside()
    const [x = 0, y = 0, tx = 0, ty = 0] = residuals.map((residual, i) => (settles[i] ? residual(v) : 0))
    numbers.offsetXUm -= x
    numbers.offsetYUm -= y
    numbers.tiltXRad -= tx
    numbers.tiltYRad -= ty
    return numbers
  }
  const settleBeside = (shift: readonly number[]) => {
    besideXUm = shift[0] as number
    besideYUm = shift[1] as number
    besideXRad = shift[2] as number
    besideYRad = shift[3] as number
  }
  const { operating } = context
  const isAtAssembly = (v: Values) => operating.every((slot) => v[slot] === 0)
  // A run looks at an assembly at several temperatures, and alignment is half of the work: it is kept apart. Once kept, it serves
  // the temperature of assembly too; until then a second record would cost more than it saves.
  const station = newRecord()
  const align = atAssembly(
    operating,
    unlessUnchanged(slotsOf([...station.read, gap, offsetX, offsetY, tiltX, tiltY, roll]), (v) =>
      assemble(v, station),
    ),
  )
  let isKept = false
  /** Alignment happens at assembly; faces refract at the temperature and wavelength of the vector. */
  const asAligned = (v: Values) => {
    isKept = true
    align(v)
    fillFaces(v)
    copyPose(station.numbers, numbers)
    const turned =
      near.slopeRad - far.slopeRad - (station.numbers.near.slopeRad - station.numbers.far.slopeRad)
    if (inX) numbers.tiltXRad += turned
    else numbers.tiltYRad += turned
  }

  /** Contact is that of the nominal pose for every pose: tolerances move it by less than they move the gap. */
  let leastGapUm = 0
  const readAsked = (v: Values): GapValues => {
    if (aligned.size > 0 && (isKept || !isAtAssembly(v))) asAligned(v)
    else assemble(v, record)
    moveBeside()
    for (const movement of movements) {
      numbers.offsetXUm += movement.x(v)
      numbers.offsetYUm += movement.y(v)
      numbers.gapUm += movement.z(v)
    }
    return numbers
  }
  const read = (v: Values): GapValues => {
    readAsked(v)
    // A tolerance may reach past contact; glass and chip then touch.
    if (numbers.gapUm < leastGapUm) numbers.gapUm = leastGapUm
    return numbers
  }
  const setup = setupOf(context, path)
  const common = { nearFace, farFace, pointingRad, read, aligned: settles, settled, settleBeside }
  const isPlain = aligned.size === 0 && element.nearCoating === undefined && element.farCoating === undefined
  const partsFrom = (least: number): GapParts | null =>
    isPlain
      ? {
          ...{ near: nearPort, far: farPort, medium: index, gap, offsetX, offsetY, tiltX, tiltY, roll },
          ...{
            nearAngle,
            farAngle,
            ...endFaceReaders(context, element, path), // its own, to be filled by others
            plane: element.facePlane,
            pointingRad,
            movements,
            leastGapUm: least,
          },
        }
      : null
  if (setup === null) return { ...common, contact: null, clearanceUm: null, parts: partsFrom(0) }
  const { solids, obstacles } = setup
  const nominal = Float64Array.from(context.readers.variables, (variable) => variable.nominal)
  const contact = contactOf(solids, obstacles, poseOf(read(nominal), inX))
  leastGapUm = Math.max(0, contact?.gapUm ?? 0)
  const clearanceUm = (v: Values) => {
    const { gapUm } = readAsked(v)
    const touchedUm = contactFromUm(solids, obstacles, poseOf(numbers, inX), gapUm)
    return touchedUm === null ? Number.POSITIVE_INFINITY : gapUm - touchedUm
  }
  return { ...common, contact, clearanceUm, parts: partsFrom(leastGapUm) }
}

const newNumbers = (near: FaceNumbers, far: FaceNumbers): Mutable<GapValues> => ({
  mediumIndex: 1,
  nearIndex: 1,
  farIndex: 1,
  nearMfdXUm: 1,
  nearMfdYUm: 1,
  farMfdXUm: 1,
  farMfdYUm: 1,
  emitterMfdXUm: 1,
  emitterMfdYUm: 1,
  receiverMfdXUm: 1,
  receiverMfdYUm: 1,
  ...ALIGNED,
  near,
  far,
})

function copyPose(from: GapValues, to: FreePose): void {
  to.offsetXUm = from.offsetXUm
  to.offsetYUm = from.offsetYUm
  to.gapUm = from.gapUm
  to.tiltXRad = from.tiltXRad
  to.tiltYRad = from.tiltYRad
  to.rollRad = from.rollRad
}

/** Slopes of the guide and of the chip's own beam, as the joint's view states them. */
function poseOf(n: GapValues, inX: boolean): BodyPose {
  const turnRad = n.far.slopeRad - n.near.slopeRad
  return {
    axisXRad: n.tiltXRad + (inX ? turnRad : 0),
    axisYRad: n.tiltYRad + (inX ? 0 : turnRad),
    rollRad: n.rollRad,
    beamXRad: inX ? n.far.slopeRad : 0,
    beamYRad: inX ? 0 : n.far.slopeRad,
    offsetXUm: n.offsetXUm,
    offsetYUm: n.offsetYUm,
  }
}

function setupOf({ project }: ChainContext, path: Path): ClearanceSetup | null {
  const candidate = project.candidates[Number(path[1])]
  return candidate === undefined ? null : clearanceSetup(project, candidate, Number(path[3]))
}
