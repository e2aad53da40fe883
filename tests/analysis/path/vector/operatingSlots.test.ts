// Movements of a mount and pitches of an array, against sums by hand.

import { describe, expect, test } from 'vitest'
import {
  arraySlots,
  channelMovement,
  mountMovement,
  operatingSlots,
  rowShift,
} from '../../../../src/analysis/path/vector/operatingSlots'
import { readerAt, readerTable } from '../../../../src/analysis/path/vector/valueReaders'
import { quantityOf } from '../../../../src/model/quantity/quantity'
import type { FibreArray } from '../../../../src/model/schema/fibreArray'
import type { MountLayer } from '../../../../src/model/schema/mount'
import { familiesProject } from '../../support/families'

const project = familiesProject()
const candidateOf = (id: string) => {
  const at = project.candidates.findIndex((each) => each.id === id)
  const candidate = project.candidates[at]
  if (candidate === undefined) throw new Error(id)
  return { at, candidate }
}

/** Grown by its own coefficient, in 1e-6 per kelvin, or by that of silicon. */
const layer = (axis: 'x' | 'y' | 'z', lengthMm: number, ppm?: number): MountLayer => ({
  axis,
  length: quantityOf(lengthMm, 'mm'),
  expansion:
    ppm === undefined
      ? { kind: 'material', material: 'silicon' }
      : { kind: 'value', expansion: quantityOf(ppm, 'ppm/K') },
})

describe('a mount', () => {
  test('moves x and y by what the fibre side grows more than the chip side, and opens the gap by what it grows less', () => {
    const { at, candidate } = candidateOf('relay')
    const readers = readerTable()
    const rise = readers.addSlot('temperature', 'temperature', ['operating', 'temperatureRise'])
    const mount = {
      assemblyTemperature: quantityOf(20, 'degC'),
      fibreSide: [layer('x', 10, 20), layer('y', 4, 5), layer('z', 8, 10), layer('x', 2)],
      chipSide: [layer('x', 3, 7), layer('y', 6, 15), layer('z', 2, 30)],
    }
    const moved = mountMovement(readers, { ...candidate, mount }, at, readerAt(rise))
    const v = Float64Array.from(readers.variables, ({ nominal }) => nominal)
    const along = () => [moved?.x(v), moved?.y(v), moved?.z(v)]
    expect(along()).toEqual([0, 0, 0])
    v[rise] = 40
    // Silicon grows by 2.6e-6 per kelvin (see temperatureSweep.test.ts). 10 mm at 20e-6 over 40 K make 8 um.
    const byHand = [
      40 * 1e-3 * (10 * 20 + 2 * 2.6 - 3 * 7),
      40 * 1e-3 * (4 * 5 - 6 * 15),
      40 * 1e-3 * (2 * 30 - 8 * 10),
    ]
    expect(along()).toEqual(byHand.map((each) => expect.closeTo(each, 9)))
    expect(readers.variables.map(({ label }) => label)).toContain('CTE of mount layer 2, chip side')
    expect(mountMovement(readers, candidate, at, readerAt(rise))).toBeNull()
  })
})

describe('an array of fibres', () => {
  const array: FibreArray = {
    pitch: quantityOf(250, 'um'),
    coreX: quantityOf(0, 'um'),
    coreY: quantityOf(0, 'um'),
    bow: quantityOf(0, 'um'),
    aim: 'outer two',
  }
  const [chip] = project.converters.filter((each) => each.kind === 'taper chip')
  if (chip === undefined) throw new Error('no taper chip')
  chip.inputPitch = quantityOf(249, 'um')
  chip.outputPitch = quantityOf(128, 'um')
  project.requirements.pitch = quantityOf(127, 'um')
  const registered = (id: string) => {
    const { at, candidate } = candidateOf(id)
    const readers = readerTable()
    const operating = operatingSlots(readers, candidate)
    const slots = arraySlots(readers, project, at, array)
    return { readers, operating, slots }
  }

  test('faces the input pitch of a taper chip, and its output pitch faces the chip', () => {
    const { readers, slots } = registered('taper')
    const pitchOf = (slot: number | undefined) => readers.variables[slot ?? -1]?.nominal
    const row = (id: string) => [slots.rows.get(id)?.nearPitch, slots.rows.get(id)?.farPitch].map(pitchOf)
    expect(row('gap-1')).toEqual([250, 249])
    expect(row('gap-2')).toEqual([128, 127])
    const direct = registered('cleaved-dry')
    const { nearPitch, farPitch } = direct.slots.rows.get('gap') ?? {}
    expect([nearPitch, farPitch].map((slot) => direct.readers.variables[slot ?? -1]?.nominal)).toEqual([
      250, 127,
    ])
    expect([slots.coreX, slots.coreY, slots.bow].map((slot) => readers.variables[slot]?.label)).toEqual([
      'core position x',
      'core position y',
      'bow of the array',
    ])
  })

  test('is off a part in a row by the difference of their pitches, for each channel from the middle', () => {
    const { readers, operating, slots } = registered('taper')
    const shift = rowShift(readers, operating, slots)('gap-1', quantityOf(251, 'um'), 'pitch of lenses', [
      'lenses',
      0,
      'pitch',
    ])
    const v = Float64Array.from(readers.variables, ({ nominal }) => nominal)
    v[operating.channel] = -2.5
    expect(shift(v)).toBe(-5)
  })

  test('moves each joint by what is written for its channel', () => {
    const { readers, operating } = registered('taper')
    const v = Float64Array.from(readers.variables, ({ nominal }) => nominal)
    const places = operating.displaced.get('gap-2')
    if (places === undefined) throw new Error('no place')
    const { x, y, z } = channelMovement(places)
    v[places.x] = 1
    v[places.y] = 2
    v[places.z] = 3
    expect([x(v), y(v), z(v)]).toEqual([1, 2, 3])
    expect(new Set([...operating.displaced.values()].flatMap((each) => Object.values(each))).size).toBe(6)
  })
})
