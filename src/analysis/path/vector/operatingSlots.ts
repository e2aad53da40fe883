// Places in the vector that no part of the chain fills: the temperature, and the position of a channel of an array.

import type { Path } from '../../../model/issue'
import type { Quantity } from '../../../model/quantity/quantity'
import type { RuleName } from '../../../model/quantity/quantityRules'
import type { Candidate } from '../../../model/schema/candidate'
import type { FibreArray } from '../../../model/schema/fibreArray'
import type { MountLayer } from '../../../model/schema/mount'
import type { Project } from '../../../model/schema/project'
import { MOUNT_SIDES, type MountAxis, type MountSide } from '../../../model/words/mount'
import { SOLIDS } from '../../../optics/index'
import type { ChainContext, Movement } from './elementModels'
import { constantReader, type Reader, type ReaderTable, readerAt } from './valueReaders'

/** Displacement of one channel's near side from its place in the joint's pose, um. */
export interface ChannelSlots {
  readonly x: number
  readonly y: number
  readonly z: number
}

/** Numbers of the slots, for those who write there. */
export interface OperatingSlots {
  /** K above the temperature of assembly. */
  readonly temperatureRise: number
  /** The channel's number from the middle of the row. */
  readonly channel: number
  /** By the id of a gap or relay. */
  readonly displaced: ReadonlyMap<string, ChannelSlots>
  /** um from the project's wavelength. */
  readonly wavelengthShift: number
  /** 0, 1 or 2 as in ChainContext. */
  readonly polarisation: number
}

const joinsOf = (chain: Candidate['chain']) =>
  chain.flatMap(({ kind, id }, at) => (kind === 'gap' || kind === 'relay' ? [{ id, at }] : []))

export function operatingSlots({ addSlot }: ReaderTable, { chain }: Candidate): OperatingSlots {
  return {
    temperatureRise: addSlot('temperature', 'temperature', ['operating', 'temperatureRise']),
    channel: addSlot('offset', 'channel', ['operating', 'channel']),
    displaced: new Map(
      joinsOf(chain).map(({ id }) => {
        const along = (axis: 'x' | 'y' | 'z') =>
          addSlot('offset', `channel ${axis} at ${id}`, ['operating', id, axis])
        return [id, { x: along('x'), y: along('y'), z: along('z') }]
      }),
    ),
    wavelengthShift: addSlot('offset', 'wavelength shift', ['operating', 'wavelengthShift']),
    polarisation: addSlot('exponent', 'polarisation', ['operating', 'polarisation']),
  }
}

export function channelMovement({ x, y, z }: ChannelSlots): Movement {
  return { x: readerAt(x), y: readerAt(y), z: readerAt(z) }
}

/** Places of the pitches of the two rows that face each other across a join. */
export interface RowSlots {
  readonly nearPitch: number
  readonly farPitch: number
}

/** Places of what makes the channels of an array differ. */
export interface ArraySlots {
  readonly coreX: number
  readonly coreY: number
  readonly bow: number
  /** By the id of a gap or relay. */
  readonly rows: ReadonlyMap<string, RowSlots>
}

/** Registers the array's quantities and the pitches of every part in a row, the chip's from the requirements. */
export function arraySlots(
  readers: ReaderTable,
  project: Project,
  candidateAt: number,
  array: FibreArray,
): ArraySlots {
  const path = ['candidates', candidateAt, 'array']
  const chain = project.candidates[candidateAt]?.chain ?? []
  const addQuantity = (quantity: Quantity, rule: RuleName, label: string, own: Path) => {
    readers.quantity(quantity, rule, label, own)
    return readers.variables.findIndex((variable) => variable.path.join('/') === own.join('/'))
  }
  const chipPitch = addQuantity(project.requirements.pitch, 'pitch', 'pitch of the chip', [
    'requirements',
    'pitch',
  ])
  const fibrePitch = addQuantity(array.pitch, 'pitch', 'pitch of the fibres', [...path, 'pitch'])
  const endPitch = (at: number, end: 'inputPitch' | 'outputPitch', otherwise: number): number => {
    const element = chain[at]
    if (element?.kind !== 'taper chip') return otherwise
    const chipAt = project.converters.findIndex((each) => each.id === element.converterId)
    const chip = project.converters[chipAt]
    if (chip?.kind !== 'taper chip') return otherwise
    const what = end === 'inputPitch' ? 'input pitch' : 'output pitch'
    return addQuantity(chip[end], 'pitch', `${what} of ${chip.name}`, ['converters', chipAt, end])
  }
  return {
    rows: new Map(
      joinsOf(chain).map(({ id, at }) => [
        id,
        {
          nearPitch: endPitch(at - 1, 'outputPitch', fibrePitch),
          farPitch: endPitch(at + 1, 'inputPitch', chipPitch),
        },
      ]),
    ),
    coreX: addQuantity(array.coreX, 'offset', 'core position x', [...path, 'coreX']),
    coreY: addQuantity(array.coreY, 'offset', 'core position y', [...path, 'coreY']),
    bow: addQuantity(array.bow, 'offset', 'bow of the array', [...path, 'bow']),
  }
}

/** Readers of the offset of a part of a row from the row behind a join, on the present channel. */
export function rowShift(
  readers: ReaderTable,
  { channel }: OperatingSlots,
  { rows }: ArraySlots,
): NonNullable<ChainContext['rowShift']> {
  const number = readerAt(channel)
  return (elementId, pitch, label, path) => {
    const own = readers.quantity(pitch, 'pitch', label, path)
    const behind = readerAt(rows.get(elementId)?.farPitch ?? -1)
    return (v) => number(v) * (own(v) - behind(v))
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
  const growthPerKelvin = (layer: MountLayer, side: MountSide, at: number): Reader => {
    const path = ['candidates', candidateAt, 'mount', side, at]
    const name = `mount layer ${at + 1}, ${SIDE_LABELS[side]}`
    const length = readers.quantity(layer.length, 'mountLength', `length of ${name}`, [...path, 'length'])
    const expansion =
      layer.expansion.kind === 'material'
        ? constantReader(SOLIDS[layer.expansion.material].perKelvin)
        : readers.quantity(layer.expansion.expansion, 'expansion', `CTE of ${name}`, [
            ...path,
            'expansion',
            'expansion',
          ])
    return (v) => expansion(v) * length(v)
  }
  const layers = MOUNT_SIDES.flatMap((side) =>
    mount[side].map((layer, at) => ({
      axis: layer.axis,
      sign: (side === 'fibreSide' ? 1 : -1) * AXIS_SIGNS[layer.axis],
      perKelvin: growthPerKelvin(layer, side, at),
    })),
  )
  const along = (axis: MountAxis): Reader => {
    const own = layers.filter((layer) => layer.axis === axis)
    if (own.length === 0) return constantReader(0)
    return (v) => {
      const rise = temperatureRise(v)
      if (rise === 0) return 0
      let sum = 0
      for (const layer of own) sum += layer.sign * (layer.perKelvin(v) * rise)
      return sum
    }
  }
  return { x: along('x'), y: along('y'), z: along('z') }
}
