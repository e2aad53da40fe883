// Places in the vector that no part of the chain fills: the temperature, and where a channel of an array stands.

import type { Candidate } from '../../model/candidate'
import type { FibreArray } from '../../model/fibreArray'
import type { Path } from '../../model/issue'
import { MOUNT_SIDES, type MountAxis, type MountLayer, type MountSide } from '../../model/mount'
import type { Project } from '../../model/project'
import type { Quantity } from '../../model/quantity'
import type { RuleName } from '../../model/quantityRules'
import { SOLIDS } from '../../optics/index'
import type { Movement } from './models'
import { constantReader, type Reader, type ReaderTable, readerAt } from './readers'

/** Numbers of the places, for those who write there. */
export interface OperatingPlaces {
  /** K above the temperature of assembly. */
  readonly temperatureRise: number
  /** Displacement of one channel's fibre from its place in the block's pose, um. */
  readonly channelX: number
  readonly channelY: number
  readonly channelZ: number
  /** um from the project's wavelength. */
  readonly wavelengthShift: number
  /** 0, 1 or 2 as in ChainContext. */
  readonly polarisation: number
}

export function operatingPlaces({ place }: ReaderTable): OperatingPlaces {
  return {
    temperatureRise: place('temperature', 'temperature', ['operating', 'temperatureRise']),
    channelX: place('offset', 'channel x', ['operating', 'channelX']),
    channelY: place('offset', 'channel y', ['operating', 'channelY']),
    channelZ: place('offset', 'channel z', ['operating', 'channelZ']),
    wavelengthShift: place('offset', 'wavelength shift', ['operating', 'wavelengthShift']),
    polarisation: place('exponent', 'polarisation', ['operating', 'polarisation']),
  }
}

export function channelMovement(places: OperatingPlaces): Movement {
  return {
    x: readerAt(places.channelX),
    y: readerAt(places.channelY),
    z: readerAt(places.channelZ),
  }
}

/** Places of what makes the channels of an array differ. */
export interface ArrayPlaces {
  readonly chipPitch: number
  readonly fibrePitch: number
  readonly coreX: number
  readonly coreY: number
  readonly bow: number
}

/** Registers the array's quantities, with the chip's pitch from the requirements. */
export function arrayPlaces(
  readers: ReaderTable,
  project: Project,
  candidateAt: number,
  array: FibreArray,
): ArrayPlaces {
  const path = ['candidates', candidateAt, 'array']
  const place = (quantity: Quantity, rule: RuleName, label: string, own: Path) => {
    readers.quantity(quantity, rule, label, own)
    return readers.variables.findIndex((variable) => variable.path.join('/') === own.join('/'))
  }
  return {
    chipPitch: place(project.requirements.pitch, 'pitch', 'pitch of the chip', ['requirements', 'pitch']),
    fibrePitch: place(array.pitch, 'pitch', 'pitch of the fibres', [...path, 'pitch']),
    coreX: place(array.coreX, 'offset', 'core position x', [...path, 'coreX']),
    coreY: place(array.coreY, 'offset', 'core position y', [...path, 'coreY']),
    bow: place(array.bow, 'offset', 'bow of the block', [...path, 'bow']),
  }
}

const SIDE_LABELS: Readonly<Record<MountSide, string>> = { fibreSide: 'fibre side', chipSide: 'chip side' }
const AXIS_SIGNS: Readonly<Record<MountAxis, number>> = { x: 1, y: 1, z: -1 }

/**
 * What the mount's stacks do to the joint as they warm: each layer grows by expansion * length * rise along its axis.
 * x and y are fibre side less chip side; the gap opens by chip side less fibre side. Null without a mount.
 */
export function mountMovement(
  readers: ReaderTable,
  candidate: Candidate,
  candidateAt: number,
  temperatureRise: Reader,
): Movement | null {
  const { mount } = candidate
  if (mount === undefined) return null
  const layerGrowth = (layer: MountLayer, side: MountSide, at: number): Reader => {
    const path = ['candidates', candidateAt, 'mount', side, at]
    const name = `layer ${at + 1} of the ${SIDE_LABELS[side]}`
    const length = readers.quantity(layer.length, 'mountLength', `length of ${name}`, [...path, 'length'])
    const expansion =
      layer.expansion.kind === 'material'
        ? constantReader(SOLIDS[layer.expansion.material].perKelvin)
        : readers.quantity(layer.expansion.expansion, 'expansion', `expansion of ${name}`, [
            ...path,
            'expansion',
            'expansion',
          ])
    return (v) => expansion(v) * length(v) * temperatureRise(v)
  }
  const layers = MOUNT_SIDES.flatMap((side) =>
    mount[side].map((layer, at) => ({
      axis: layer.axis,
      sign: (side === 'fibreSide' ? 1 : -1) * AXIS_SIGNS[layer.axis],
      growth: layerGrowth(layer, side, at),
    })),
  )
  const along = (axis: MountAxis): Reader => {
    const own = layers.filter((layer) => layer.axis === axis)
    if (own.length === 0) return constantReader(0)
    return (v) => {
      let sum = 0
      for (const layer of own) sum += layer.sign * layer.growth(v)
      return sum
    }
  }
  return { x: along('x'), y: along('y'), z: along('z') }
}
