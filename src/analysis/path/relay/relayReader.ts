// Every number of a relay element, read from the vector into one record.

import { alignOrder } from '../../../model/designs/alignOrder'
import type { Path } from '../../../model/issue'
import type { LensPlace, RelayElement } from '../../../model/schema/candidate'
import type { Port } from '../../results/evaluation'
import type { FaceNumbers } from '../faces/faceNumbers'
import { faceReader } from '../faces/faceReader'
import { bondMovement } from '../gap/bondMovement'
import { atAssembly } from '../vector/atAssembly'
import { findMedium, requireGas } from '../vector/findMedium'
import type { AlignedRelay, ChainContext, Movement, PortReaders } from '../vector/models'
import { portAt } from '../vector/ports'
import { constantReader, type Reader, type Values } from '../vector/readers'
import { alignLens, type LensOffset } from './alignLens'
import { alignRelay } from './alignRelay'
import { type LensReaders, lensReaders } from './lensReaders'
import type { RelayGeometry, RelayLens, RelayState } from './relayOptics'

export interface RelayNumbers {
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

export interface DeviceReaders {
  readonly lossDb: Reader
  readonly lengthUm: Reader
  readonly index: Reader
  readonly apertureDiameterUm: Reader
  readonly isolationDb: Reader
}

export interface RelayReader {
  readonly read: (v: Values) => RelayNumbers
  /** Where a station puts the near guide; its tilts less what the faces add then. */
  readonly alignedPose: (v: Values, aligned: ReadonlySet<string>) => AlignedRelay
  readonly lens1: LensReaders
  readonly lens2: LensReaders
  readonly device: DeviceReaders | null
  /** Angle by which the near guide is turned against the far one, in the plane of the lean. */
  readonly pointingRad: number
}

const WHY_GAS = 'a gap medium other than a gas removes the refractive power of the lens faces'

/** How far the channel's lens of an array stands from its guide behind the relay; a single lens has no pitch. */
function lensRowShift({ project, rowShift }: ChainContext, elementId: string, lensId: string): Reader {
  const at = project.lenses.findIndex((each) => each.id === lensId)
  const lens = project.lenses[at]
  if (rowShift === null || lens?.pitch === undefined) return constantReader(0)
  return rowShift(elementId, lens.pitch, `pitch of ${lens.name}`, ['lenses', at, 'pitch'])
}

function lensPlace(
  context: ChainContext,
  place: LensPlace,
  shift: Reader,
  name: string,
  path: Path,
): (v: Values) => Omit<RelayLens, 'matrix' | 'thicknessUm'> {
  const { quantity } = context.readers
  const offset = (field: 'offsetX' | 'offsetY' | 'offsetZ', label: string) =>
    quantity(place[field], 'offset', `${name} ${label}`, [...path, field])
  const tilt = (field: 'tiltX' | 'tiltY', label: string) =>
    quantity(place[field], 'tilt', `${name} ${label}`, [...path, field])
  const [x, y, z] = [offset('offsetX', 'x'), offset('offsetY', 'y'), offset('offsetZ', 'z')]
  const [tiltX, tiltY] = [tilt('tiltX', 'tilt x'), tilt('tiltY', 'tilt y')]
  return (v) => ({
    offsetXUm: x(v) + shift(v),
    offsetYUm: y(v),
    offsetZUm: z(v),
    tiltXRad: tiltX(v),
    tiltYRad: tiltY(v),
  })
}

/** A lens where the station has put it across the light. */
const lensAt = (lens: RelayLens, { offsetXUm, offsetYUm }: LensOffset): RelayLens => ({
  ...lens,
  offsetXUm,
  offsetYUm,
})

function deviceReaders(context: ChainContext, element: RelayElement, path: Path): DeviceReaders | null {
  const { device } = element
  if (device === undefined) return null
  const { quantity } = context.readers
  const own: Path = [...path, 'device']
  return {
    lossDb: quantity(device.loss, 'loss', `loss of ${device.name}`, [...own, 'loss']),
    lengthUm: quantity(device.length, 'stretch', `length of ${device.name}`, [...own, 'length']),
    index: quantity(device.index, 'index', `index of ${device.name}`, [...own, 'index']),
    apertureDiameterUm: quantity(device.clearAperture, 'aperture', `clear aperture of ${device.name}`, [
      ...own,
      'clearAperture',
    ]),
    isolationDb:
      device.isolation === undefined
        ? constantReader(0)
        : quantity(device.isolation, 'returnLoss', `isolation of ${device.name}`, [...own, 'isolation']),
  }
}

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
  const frontGap = quantity(element.frontGap, 'gap', 'end face to lens 1', [...path, 'frontGap'])
  const stretch = quantity(element.stretch, 'stretch', 'collimated section', [...path, 'stretch'])
  const backGap = quantity(element.backGap, 'gap', 'lens 2 to end face', [...path, 'backGap'])
  const place1 = lensPlace(
    context,
    element.lens1,
    lensRowShift(context, element.id, element.lens1Id),
    'lens 1',
    [...path, 'lens1'],
  )
  const place2 = lensPlace(
    context,
    element.lens2,
    lensRowShift(context, element.id, element.lens2Id),
    'lens 2',
    [...path, 'lens2'],
  )
  const offsetX = quantity(element.offsetX, 'offset', 'offset x', [...path, 'offsetX'])
  const offsetY = quantity(element.offsetY, 'offset', 'offset y', [...path, 'offsetY'])
  const tiltX = quantity(element.tiltX, 'tilt', 'tilt x', [...path, 'tiltX'])
  const tiltY = quantity(element.tiltY, 'tilt', 'tilt y', [...path, 'tiltY'])
  const roll = quantity(element.roll, 'roll', 'roll', [...path, 'roll'])
  const nearAngle = quantity(element.nearFaceAngle, 'faceAngle', 'fibre-side face angle', [
    ...path,
    'nearFaceAngle',
  ])
  const farAngle = quantity(element.farFaceAngle, 'faceAngle', 'chip-side face angle', [
    ...path,
    'farFaceAngle',
  ])
  const device = deviceReaders(context, element, path)
  const inX = element.facePlane === 'x'

  const plane = element.facePlane
  const nearReader = faceReader(context, element.nearCoating, plane, 'fibre-side face', [
    ...path,
    'nearCoating',
  ])
  const farReader = faceReader(context, element.farCoating, plane, 'chip-side face', [...path, 'farCoating'])
  const faces = { near: nearReader.face, far: farReader.face }
  const fillFaces = (v: Values) => {
    nearReader.fill(v, nearPort.index(v), index(v), nearAngle(v))
    farReader.fill(v, farPort.index(v), index(v), farAngle(v))
  }
  fillFaces(Float64Array.from(context.readers.variables, (variable) => variable.nominal))
  for (const side of ['near', 'far'] as const) {
    if (!faces[side].blocked) continue
    context.report({
      path: [...path, `${side}FaceAngle`],
      code: 'range',
      message: `the ${side} end face is angled beyond the critical angle: all light is totally reflected in ${found.medium.name}`,
      fix: 'Use a smaller face angle.',
    })
  }
  const nearSlope = faces.near.slopeRad
  const farSlope = faces.far.slopeRad
  const aligned: ReadonlySet<string> = new Set(context.alignsEachChannel ? (element.aligned ?? []) : [])
  const lensAxes = { lens1: element.lens1.aligned ?? [], lens2: element.lens2.aligned ?? [] }
  const alignsLenses = lensAxes.lens1.length + lensAxes.lens2.length > 0
  const aligns = aligned.size > 0 || (alignsLenses && context.alignsEachChannel)
  const order = alignOrder(element)
  const movements = [
    ...bondMovement(context, element, path, 'holder drift'),
    ...context.movements(element.id),
  ]
  const moved = (along: keyof Movement, v: Values) => {
    let sum = 0
    for (const movement of movements) sum += movement[along](v)
    return sum
  }
  /** Both guides are turned once, so that their nominal beams lie on the axis; drawn faces and indices add a tilt. */
  const leftover = () => faces.near.slopeRad - nearSlope - (faces.far.slopeRad - farSlope)

  /** Everything as assembled, before the joint moves; the faces are those filled last. */
  const assembled = (v: Values, near: Port, far: Port): RelayGeometry => ({
    wavelengthUm: context.wavelength(v),
    mediumIndex: index(v),
    emitterMfdXUm: near.mfdXUm * (inX ? faces.near.widthScale : 1),
    emitterMfdYUm: near.mfdYUm * (inX ? 1 : faces.near.widthScale),
    waistXUm: near.waistXUm,
    waistYUm: near.waistYUm,
    receiverMfdXUm: far.mfdXUm * (inX ? faces.far.widthScale : 1),
    receiverMfdYUm: far.mfdYUm * (inX ? 1 : faces.far.widthScale),
    offsetXUm: offsetX(v),
    offsetYUm: offsetY(v),
    tiltXRad: tiltX(v) + (inX ? leftover() : 0),
    tiltYRad: tiltY(v) + (inX ? 0 : leftover()),
    rollRad: roll(v),
    frontGapUm: frontGap(v),
    stretchUm: stretch(v),
    backGapUm: backGap(v),
    deviceLengthUm: device === null ? 0 : device.lengthUm(v),
    deviceIndex: device === null ? 1 : device.index(v),
    lens1: { matrix: lens1.matrix(v), thicknessUm: lens1.thicknessUm(v), ...place1(v) },
    lens2: { matrix: lens2.matrix(v), thicknessUm: lens2.thicknessUm(v), ...place2(v) },
  })
  const alignedPose = (v: Values, axes: ReadonlySet<string>): AlignedRelay => {
    fillFaces(v)
    const residual = {
      offsetXUm: offsetX(v),
      offsetYUm: offsetY(v),
      tiltXRad: tiltX(v),
      tiltYRad: tiltY(v),
    }
    let g = assembled(v, portAt(nearPort, v), portAt(farPort, v))
    for (const member of order) {
      if (member === 'guide') {
        if (axes.size > 0) g = { ...g, ...alignRelay(g, axes, residual) }
      } else if (lensAxes[member].length > 0) {
        g = { ...g, [member]: { ...g[member], ...alignLens(g, member, lensAxes[member]) } }
      }
    }
    return {
      offsetXUm: g.offsetXUm,
      offsetYUm: g.offsetYUm,
      tiltXRad: g.tiltXRad - (inX ? leftover() : 0),
      tiltYRad: g.tiltYRad - (inX ? 0 : leftover()),
      lens1: g.lens1,
      lens2: g.lens2,
    }
  }
  let station: AlignedRelay | null = null
  const align = atAssembly(context.operating, (v) => {
    station = alignedPose(v, aligned)
  })

  return {
    alignedPose,
    lens1,
    lens2,
    device,
    pointingRad: farSlope - nearSlope,
    read: (v) => {
      if (aligns) align(v)
      fillFaces(v)
      const { near, far } = faces
      const nearMode = portAt(nearPort, v)
      const farMode = portAt(farPort, v)
      const placed = assembled(v, nearMode, farMode)
      const pose =
        station === null
          ? placed
          : {
              ...station,
              tiltXRad: station.tiltXRad + (inX ? leftover() : 0),
              tiltYRad: station.tiltYRad + (inX ? 0 : leftover()),
            }
      return {
        near: nearMode,
        far: farMode,
        mediumIndex: placed.mediumIndex,
        nearFace: near,
        farFace: far,
        geometry: {
          ...placed,
          offsetXUm: pose.offsetXUm + moved('x', v),
          offsetYUm: pose.offsetYUm + moved('y', v),
          tiltXRad: pose.tiltXRad,
          tiltYRad: pose.tiltYRad,
          frontGapUm: placed.frontGapUm + moved('z', v),
          ...(station !== null && {
            lens1: lensAt(placed.lens1, station.lens1),
            lens2: lensAt(placed.lens2, station.lens2),
          }),
        },
      }
    },
  }
}
