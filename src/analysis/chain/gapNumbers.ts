// All numbers of a gap at one vector of values, written into one record that is made once: no allocation in hot loops.

import type { GapElement, PoseAxis } from '../../model/candidate'
import type { Path } from '../../model/issue'
import { alignPose } from './alignPose'
import { indexReader } from './indexReader'
import type { ChainContext, Movement, PortReaders } from './models'
import type { Reader, Values } from './readers'

type Mutable<T> = { -readonly [K in keyof T]: T[K] }

/** One end face between a guide and the gap. */
export interface FaceNumbers {
  readonly faceAngleRad: number
  /** Angle to the face normal in the gap medium. */
  readonly mediumAngleRad: number
  /** Slope of the beam in the medium against the guide's axis. */
  readonly slopeRad: number
  /** Width of the beam in the plane of the lean, in the medium over in the guide. */
  readonly widthScale: number
  /** Unpolarised Fresnel transmission. */
  readonly transmission: number
  /** Whether all light is totally reflected. */
  readonly blocked: boolean
}

export interface GapNumbers {
  readonly mediumIndex: number
  readonly nearIndex: number
  readonly farIndex: number
  readonly nearMfdXUm: number
  readonly nearMfdYUm: number
  readonly farMfdXUm: number
  readonly farMfdYUm: number
  readonly emitterMfdXUm: number
  readonly emitterMfdYUm: number
  readonly receiverMfdXUm: number
  readonly receiverMfdYUm: number
  readonly offsetXUm: number
  readonly offsetYUm: number
  readonly gapUm: number
  readonly tiltXRad: number
  readonly tiltYRad: number
  readonly rollRad: number
  readonly near: FaceNumbers
  readonly far: FaceNumbers
}

const newFace = (): Mutable<FaceNumbers> => ({
  faceAngleRad: 0,
  mediumAngleRad: 0,
  slopeRad: 0,
  widthScale: 1,
  transmission: 1,
  blocked: false,
})

/**
 * What a leaning face does to the beam: Snell, footprint, Fresnel (see optics/snell.ts and optics/fresnel.ts, whose
 * results these are, without records and checks).
 */
function fillFace(
  face: Mutable<FaceNumbers>,
  guideIndex: number,
  mediumIndex: number,
  angleRad: number,
): void {
  const sine = (guideIndex * Math.sin(angleRad)) / mediumIndex
  face.faceAngleRad = angleRad
  face.blocked = Math.abs(sine) >= 1
  const refracted = face.blocked ? 0 : Math.asin(sine)
  const cosGuide = face.blocked ? 1 : Math.cos(angleRad)
  const cosMedium = Math.cos(refracted)
  const s =
    (guideIndex * cosGuide - mediumIndex * cosMedium) / (guideIndex * cosGuide + mediumIndex * cosMedium)
  const p =
    (guideIndex * cosMedium - mediumIndex * cosGuide) / (guideIndex * cosMedium + mediumIndex * cosGuide)
  face.mediumAngleRad = refracted
  face.slopeRad = face.blocked ? 0 : refracted - angleRad
  face.widthScale = cosMedium / cosGuide
  face.transmission = face.blocked ? 0 : 1 - (s * s + p * p) / 2
}

export interface GapReader {
  /** The record of this gap, overwritten by every `read`. */
  readonly read: (v: Values) => GapNumbers
  /** Angle by which the near guide is turned against the far one, in the plane of the lean. */
  readonly pointingRad: number
}

/** Registers the gap's quantities and returns its reader. Total reflection at the nominal values is reported once. */
export function gapReader(
  context: ChainContext,
  element: GapElement,
  path: Path,
  nearPort: PortReaders,
  farPort: PortReaders,
): GapReader {
  const { quantity } = context.readers
  const at = context.project.media.findIndex((medium) => medium.id === element.mediumId)
  const medium = context.project.media[at]
  if (medium === undefined) throw new Error(`no medium ${element.mediumId}`)
  const mediumPath: Path = ['media', at]
  const index = indexReader(
    context,
    medium.index,
    `index of ${medium.name}`,
    [...mediumPath, 'index'],
    medium.thermoOptic === undefined
      ? undefined
      : { quantity: medium.thermoOptic, path: [...mediumPath, 'thermoOptic'] },
  )
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
  const movements = [...bondMovement(context, element, path), ...context.movements(element.id)]
  const inX = element.facePlane === 'x'
  const aligned: ReadonlySet<PoseAxis> = new Set(context.alignsEachChannel ? (element.aligned ?? []) : [])
  const near = newFace()
  const far = newFace()
  const numbers: Mutable<GapNumbers> = {
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
    offsetXUm: 0,
    offsetYUm: 0,
    gapUm: 0,
    tiltXRad: 0,
    tiltYRad: 0,
    rollRad: 0,
    near,
    far,
  }
  const fillFaces = (v: Values) => {
    numbers.mediumIndex = index(v)
    numbers.nearIndex = nearPort.index(v)
    numbers.farIndex = farPort.index(v)
    fillFace(near, numbers.nearIndex, numbers.mediumIndex, nearAngle(v))
    fillFace(far, numbers.farIndex, numbers.mediumIndex, farAngle(v))
    numbers.nearMfdXUm = nearPort.mfdXUm(v)
    numbers.nearMfdYUm = nearPort.mfdYUm(v)
    numbers.farMfdXUm = farPort.mfdXUm(v)
    numbers.farMfdYUm = farPort.mfdYUm(v)
    numbers.emitterMfdXUm = numbers.nearMfdXUm * (inX ? near.widthScale : 1)
    numbers.emitterMfdYUm = numbers.nearMfdYUm * (inX ? 1 : near.widthScale)
    numbers.receiverMfdXUm = numbers.farMfdXUm * (inX ? far.widthScale : 1)
    numbers.receiverMfdYUm = numbers.farMfdYUm * (inX ? 1 : far.widthScale)
  }

  fillFaces(Float64Array.from(context.readers.variables, (variable) => variable.nominal))
  if (near.blocked || far.blocked) {
    context.report({
      path: [...path, near.blocked ? 'nearFaceAngle' : 'farFaceAngle'],
      code: 'range',
      message: `the ${near.blocked ? 'near' : 'far'} end face leans so far that all light is totally reflected in ${medium.name}`,
      fix: 'Use a smaller face angle or a medium of higher index.',
    })
  }
  const pointingRad = element.pointing === 'refracted' ? far.slopeRad - near.slopeRad : 0

  /** The pose as assembled, before anything moves it. */
  const assemble = (v: Values) => {
    fillFaces(v)
    // The guides are turned once, for the nominal faces; what drawn faces and indices add is a tilt.
    const leftover = pointingRad + near.slopeRad - far.slopeRad
    const leftoverX = inX ? leftover : 0
    const leftoverY = inX ? 0 : leftover
    numbers.offsetXUm = offsetX(v)
    numbers.offsetYUm = offsetY(v)
    numbers.gapUm = gap(v)
    numbers.tiltXRad = tiltX(v) + leftoverX
    numbers.tiltYRad = tiltY(v) + leftoverY
    numbers.rollRad = roll(v)
    if (aligned.size > 0) alignPose(numbers, aligned, context.wavelengthUm, leftoverX, leftoverY)
  }
  const { temperatureRise, risePlace } = context
  /** Alignment happens at the temperature of assembly; faces refract at the temperature of the vector. */
  const assembleCold = (v: Values) => {
    const rise = temperatureRise(v)
    v[risePlace] = 0
    assemble(v)
    const before = near.slopeRad - far.slopeRad
    v[risePlace] = rise
    fillFaces(v)
    const turned = near.slopeRad - far.slopeRad - before
    if (inX) numbers.tiltXRad += turned
    else numbers.tiltYRad += turned
  }

  return {
    pointingRad,
    read: (v) => {
      if (aligned.size > 0 && temperatureRise(v) !== 0) assembleCold(v)
      else assemble(v)
      for (const movement of movements) {
        numbers.offsetXUm += movement.x(v)
        numbers.offsetYUm += movement.y(v)
        numbers.gapUm += movement.z(v)
      }
      if (numbers.gapUm < 0) numbers.gapUm = 0 // a tolerance may reach past contact; the faces then touch
      return numbers
    },
  }
}

function bondMovement(context: ChainContext, element: GapElement, path: Path): readonly Movement[] {
  const { bondShift } = element
  if (bondShift === undefined) return []
  const along = (axis: 'x' | 'y' | 'z'): Reader =>
    context.readers.quantity(bondShift[axis], 'offset', `bonding shift ${axis}`, [...path, 'bondShift', axis])
  return [{ x: along('x'), y: along('y'), z: along('z') }]
}
