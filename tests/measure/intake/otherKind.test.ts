import { describe, expect, test } from 'vitest'
import {
  evaluateMeasurement,
  newMeasurement,
  type Reading,
  readMeasurement,
} from '../../../src/measure/index'
import {
  answersForKind,
  factForKind,
  measurementAs,
  needsAngleUnit,
  possibleKinds,
} from '../../../src/measure/intake/otherKind'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { Measurement } from '../../../src/model/schema/measurement'
import { benchBytes, truth } from '../support/truth'

const origin = { id: 'm', fileName: 'scan.csv', date: '2026-03-14' }
const wavelength = quantityOf(1.55, 'um')
const probeMfd = quantityOf(10.4, 'um')
const bytes = (text: string) => new TextEncoder().encode(text)

function kept(reading: Reading): Measurement {
  const measurement = newMeasurement(reading, { wavelength, probeMfd }, origin)
  if (measurement === null) throw new Error('nothing to evaluate')
  return measurement
}

const petermann2 = (measurement: Measurement) =>
  evaluateMeasurement(measurement).mfds.find(({ label }) => /Petermann II/.test(label))?.valueUm

// The far-field reference scan as a table without headings: 20 numbers wide, so that it looks like a stage.
const farField = readMeasurement(benchBytes('far-field-1.csv'), 'far-field-1.csv')

describe('before a file is imported', () => {
  const table = bytes('s,signal\n-4,1\n-2,20\n0,100\n2,20\n4,1\n')

  test('the coordinate column is read as the kind needs it', () => {
    const first = readMeasurement(table, 'scan.csv')
    expect(first.kind === 'table' && first.scanKind).toBe('offset')
    if (first.kind !== 'table') return
    for (const kind of ['far-field', 'loopback', 'offset'] as const) {
      const again = readMeasurement(table, 'scan.csv', answersForKind(first.columns, kind))
      expect(again.kind === 'table' && again.scanKind).toBe(kind)
    }
  })

  test('without a coordinate the first column becomes one', () => {
    expect(answersForKind([{ role: 'other' }, { role: 'power' }], 'loopback')).toEqual({ 'role:0': 'length' })
    expect(answersForKind([{ role: 'position' }, { role: 'position' }], 'raster')).toEqual({
      'role:0': 'position',
      'role:1': 'position',
      layout: 'a raster',
    })
  })
})

describe('a kept measurement', () => {
  test('read as a stage by mistake gives the Petermann II diameter once it is a far field again', () => {
    const right = kept(farField)
    // One µm for every degree: what a reader that took the angles for positions would have kept.
    const wrong = measurementAs(right, 'offset', { probeMfd })!
    expect(wrong.method).toBe('offset')
    expect(needsAngleUnit(wrong, 'far-field')).toBe(true)
    expect(factForKind(wrong, 'far-field')).toBe('wavelength')
    const again = measurementAs(wrong, 'far-field', { wavelength })!
    expect(petermann2(again)).toBeCloseTo(petermann2(right)!, 6)
    expect(Math.abs(petermann2(again)! / truth['far-field-1.csv']!.petermann2MfdUm - 1)).toBeLessThan(0.003)
  })

  test('needs the fact of the other kind', () => {
    const right = kept(farField)
    expect(measurementAs(right, 'offset')).toBeNull()
    expect(measurementAs(right, 'loopback')?.method).toBe('loopback')
    expect(factForKind(right, 'loopback')).toBeNull()
  })

  test('becomes a raster only with two coordinates', () => {
    expect(possibleKinds(kept(farField))).toEqual(['far-field', 'offset', 'loopback'])
    const raster = readMeasurement(
      bytes('x um,y um,power uW\n0,0,1\n1,0,2\n0,1,3\n1,1,4\n2,0,1\n2,1,1\n'),
      'r.csv',
    )
    expect(possibleKinds(kept(raster))).toContain('raster')
  })

  test('turns losses into powers where powers are evaluated', () => {
    const loopback = kept(readMeasurement(bytes('length mm,loss dB\n10,3\n20,4\n30,5\n40,6\n'), 'l.csv'))
    const offset = measurementAs(loopback, 'offset', { probeMfd })
    expect(
      offset?.method === 'offset' && offset.columns.map(({ role, coreUnit }) => [role, coreUnit]),
    ).toEqual([
      ['position', 'um'],
      ['power', 'relative'],
    ])
  })

  test('that has no columns stays what it is', () => {
    const list = kept(readMeasurement(bytes('3.1\n3.2\n3.0\n3.1\n'), 'l.csv'))
    expect(possibleKinds(list)).toEqual([])
    expect(measurementAs(list, 'offset', { probeMfd })).toBeNull()
  })
})
