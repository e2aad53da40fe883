// Readers of what a relay holds between its end faces: where each lens is, and the component in the collimated section.

import type { Path } from '../../../model/issue'
import { quantityOf } from '../../../model/quantity/quantity'
import type { RelayElement } from '../../../model/schema/candidate'
import type { ChainContext } from '../vector/elementModels'
import { constantReader, type Reader, type Values } from '../vector/valueReaders'
import type { LensReaders } from './lensReaders'
import type { RelayRecord } from './relayGeometry'

export interface DeviceReaders {
  readonly lossDb: Reader
  readonly lengthUm: Reader
  readonly index: Reader
  readonly apertureDiameterUm: Reader
  readonly isolationDb: Reader
}

/** Offset of the channel's lens of an array from its guide behind the relay; a single lens has no pitch. */
function lensRowShift({ project, rowShift }: ChainContext, elementId: string, lensId: string): Reader {
  const at = project.lenses.findIndex((each) => each.id === lensId)
  const lens = project.lenses[at]
  if (rowShift === null || lens?.pitch === undefined) return constantReader(0)
  return rowShift(elementId, lens.pitch, `pitch of ${lens.name}`, ['lenses', at, 'pitch'])
}

/** Shift of the fibre side along the light; 0 where none is entered and the station does not search it. */
export function shiftAlong({ readers }: ChainContext, element: RelayElement, path: Path): Reader {
  const { offsetZ, aligned = [] } = element
  if (offsetZ === undefined && !aligned.includes('offsetZ')) return constantReader(0)
  return readers.quantity(offsetZ ?? quantityOf(0, 'um'), 'offset', 'axial shift z', [...path, 'offsetZ'])
}

/** Readers of where a lens is against its place. */
interface LensPoseReaders {
  readonly offsetXUm: Reader
  readonly offsetYUm: Reader
  readonly offsetZUm: Reader
  readonly tiltXRad: Reader
  readonly tiltYRad: Reader
}

/** Where lens 1 or lens 2 is; that of an array, on the present channel. */
export function lensPoseReaders(
  context: ChainContext,
  element: RelayElement,
  lens: 'lens1' | 'lens2',
  relayPath: Path,
): LensPoseReaders {
  const { quantity } = context.readers
  const { id, [lens]: pose, [`${lens}Id` as const]: lensId } = element
  const name = lens === 'lens1' ? 'lens 1' : 'lens 2'
  const path: Path = [...relayPath, lens]
  const shift = lensRowShift(context, id, lensId)
  const offset = (field: 'offsetX' | 'offsetY' | 'offsetZ', label: string) =>
    quantity(pose[field], 'offset', `${name} ${label}`, [...path, field])
  const tilt = (field: 'tiltX' | 'tiltY', label: string) =>
    quantity(pose[field], 'tilt', `${name} ${label}`, [...path, field])
  const [x, y, z] = [
    offset('offsetX', 'decentre x'),
    offset('offsetY', 'decentre y'),
    offset('offsetZ', 'axial shift z'),
  ]
  const [tiltX, tiltY] = [tilt('tiltX', 'tilt x'), tilt('tiltY', 'tilt y')]
  return {
    offsetXUm: (v) => x(v) + shift(v),
    offsetYUm: y,
    offsetZUm: z,
    tiltXRad: tiltX,
    tiltYRad: tiltY,
  }
}

/** Fills in a lens as it is and where it is. */
export function fillLens(
  lens: RelayRecord['lens1'],
  { matrix, thicknessUm }: Pick<LensReaders, 'matrix' | 'thicknessUm'>,
  pose: LensPoseReaders,
  v: Values,
): void {
  lens.matrix = matrix(v)
  lens.thicknessUm = thicknessUm(v)
  lens.offsetXUm = pose.offsetXUm(v)
  lens.offsetYUm = pose.offsetYUm(v)
  lens.offsetZUm = pose.offsetZUm(v)
  lens.tiltXRad = pose.tiltXRad(v)
  lens.tiltYRad = pose.tiltYRad(v)
}

export function deviceReaders(
  context: ChainContext,
  element: RelayElement,
  path: Path,
): DeviceReaders | null {
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
