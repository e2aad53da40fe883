// Readers of what a relay holds between its end faces: where each lens is, and the component in the collimated section.

import type { Path } from '../../../model/issue'
import type { LensPlace, RelayElement } from '../../../model/schema/candidate'
import type { ChainContext } from '../vector/models'
import { constantReader, type Reader, type Values } from '../vector/readers'
import type { RelayLens } from './relayOptics'

export interface DeviceReaders {
  readonly lossDb: Reader
  readonly lengthUm: Reader
  readonly index: Reader
  readonly apertureDiameterUm: Reader
  readonly isolationDb: Reader
}

/** Offset of the channel's lens of an array from its guide behind the relay; a single lens has no pitch. */
export function lensRowShift({ project, rowShift }: ChainContext, elementId: string, lensId: string): Reader {
  const at = project.lenses.findIndex((each) => each.id === lensId)
  const lens = project.lenses[at]
  if (rowShift === null || lens?.pitch === undefined) return constantReader(0)
  return rowShift(elementId, lens.pitch, `pitch of ${lens.name}`, ['lenses', at, 'pitch'])
}

export function lensPlace(
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
