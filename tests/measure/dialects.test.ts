// Scans in dialects unknown to the reader, with answers by scipy (tests/reference/data/dialects).

import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { decodeText, farFieldMfd, offsetScanMfd, readScan } from '../../src/measure'

const folder = new URL('../reference/data/dialects/', import.meta.url)
const bytes = (name: string) => new Uint8Array(readFileSync(new URL(name, folder)))

interface FarFieldTruth {
  readonly wavelengthUm: number
  readonly axisDeg: number
  readonly noise: boolean
  readonly petermann2MfdUm: number
  readonly refused: number
}
interface OffsetTruth {
  readonly probeMfdUm: number
  readonly mfdUm: readonly number[]
  readonly centreUm: readonly number[]
  readonly refused: number
}
const truth = JSON.parse(readFileSync(new URL('truth.json', folder), 'utf8')) as Record<
  string,
  FarFieldTruth & OffsetTruth
>
const names = readdirSync(folder).filter((name) => name.endsWith('.txt'))

test('every file of the folder has an answer', () => {
  expect(names.toSorted()).toEqual(Object.keys(truth).toSorted())
})

describe.each(names.filter((name) => name.startsWith('far-field')))('%s', (name) => {
  test('is read without a doubt and gives the Petermann II diameter of the near field', () => {
    const known = truth[name]!
    const scan = readScan(decodeText(bytes(name)))
    expect(scan).toMatchObject({ kind: 'far-field', doubts: [] })
    expect(scan.refusedLines).toHaveLength(known.refused)
    expect(scan.metadata.wavelengthUm).toBeCloseTo(known.wavelengthUm, 9)
    const result = farFieldMfd({
      angleRad: scan.columns.find((column) => column.role === 'angle')!.values,
      power: scan.columns.find((column) => column.role === 'power')!.values,
      wavelengthUm: known.wavelengthUm,
    })
    expect(Math.abs(result.petermann2MfdUm / known.petermann2MfdUm - 1)).toBeLessThan(
      known.noise ? 0.01 : 0.003,
    )
    expect(Math.abs((result.axisRad * 180) / Math.PI - known.axisDeg)).toBeLessThan(0.05)
  })
})

describe.each(names.filter((name) => name.startsWith('offset')))('%s', (name) => {
  test('is read without a doubt and gives both diameters within 0.5 %', () => {
    const known = truth[name]!
    const scan = readScan(decodeText(bytes(name)))
    expect(scan).toMatchObject({ kind: 'offset', doubts: [] })
    expect(scan.refusedLines).toHaveLength(known.refused)
    expect(scan.metadata.probeMfdUm).toBeCloseTo(known.probeMfdUm, 9)
    const positionUm = scan.columns.find((column) => column.role === 'position')!.values
    const powers = scan.columns.filter((column) => column.role === 'power')
    expect(powers).toHaveLength(2)
    powers.forEach((power, i) => {
      const result = offsetScanMfd({ positionUm, power: power.values, probeMfdUm: known.probeMfdUm })
      expect(Math.abs(result.mfdUm / known.mfdUm[i]! - 1)).toBeLessThan(0.005)
      expect(Math.abs(result.centreUm - known.centreUm[i]!)).toBeLessThan(0.01)
    })
  })
})
