import { describe, expect, test } from 'vitest'
import {
  evaluateMeasurement,
  measurementAs,
  newMeasurement,
  possibleKinds,
  readMeasurement,
} from '../../../src/measure/index'
import { lineScans } from '../../../src/measure/reading/lineScans'
import { quantityOf } from '../../../src/model/quantity/quantity'
import { CROSS, crossScanText, radiusByParabola } from '../support/crossScan'

const bytes = new TextEncoder().encode(crossScanText())
const probeMfd = quantityOf(CROSS.probeMfdUm, 'um')
const reading = (answers = {}) => {
  const read = readMeasurement(bytes, 'cross.csv', answers)
  if (read.kind !== 'table') throw new Error('no table')
  return read
}
const kept = (answers = {}) => {
  const measurement = newMeasurement(
    reading(answers),
    { probeMfd },
    { id: 'm', fileName: 'cross.csv', date: '2026-03-14' },
  )
  if (measurement === null) throw new Error('nothing to evaluate')
  return measurement
}

describe('x, y and power on two lines that cross', () => {
  test('are two line scans and not a raster, and the doubt is asked', () => {
    const read = reading()
    expect(read.scanKind).toBe('offset')
    expect(read.doubts).toMatchObject([
      { id: 'layout', assumed: 'two line scans', alternatives: ['a raster'] },
    ])
    expect(read.previews.map(({ label }) => label)).toEqual(['P along x', 'P along y'])
    expect(reading({ layout: 'a raster' }).scanKind).toBe('raster')
    expect(reading({ layout: 'a raster' }).doubts[0]?.alternatives).toEqual(['two line scans'])
  })

  test('give both diameters, as a parabola through the logarithms does', () => {
    const { mfds } = evaluateMeasurement(kept())
    const rows = crossScanText()
      .split('\n')
      .slice(1, -1)
      .map((line) => line.split(',').map(Number))
    const line = (from: number, column: number) => {
      const part = rows.slice(from, from + 65)
      return radiusByParabola(
        part.map((row) => row[column] ?? 0),
        part.map((row) => row[2] ?? 0),
      )
    }
    for (const [axis, column, from, truth] of [
      ['x', 0, 0, CROSS.mfdXUm],
      ['y', 1, 65, CROSS.mfdYUm],
    ] as const) {
      const mfd = mfds.find((each) => each.axis === axis)
      const own = Math.sqrt((2 * line(from, column)) ** 2 - CROSS.probeMfdUm ** 2)
      expect(Math.abs((mfd?.valueUm ?? 0) - own), axis).toBeLessThan(0.05)
      expect(Math.abs((mfd?.valueUm ?? 0) - truth), axis).toBeLessThan((mfd?.expandedUm ?? 0) * 1.5)
    }
  })

  test('kept as a raster say what they are, and become line scans by their kind', () => {
    const raster = kept({ layout: 'a raster' })
    expect(() => evaluateMeasurement(raster)).toThrow(/on lines along x and y.*Transverse-offset scan/)
    expect(possibleKinds(raster)).toContain('offset')
    const lines = measurementAs(raster, 'offset')
    expect(lines && evaluateMeasurement(lines).mfds).toEqual(evaluateMeasurement(kept()).mfds)
  })
})

describe('what is on lines', () => {
  const grid = Array.from({ length: 25 }, (_, i) => [i % 5, Math.floor(i / 5)] as const)
  const columns = (points: readonly (readonly [number, number])[]) =>
    [Float64Array.from(points, ([x]) => x), Float64Array.from(points, ([, y]) => y)] as const

  test('a raster and a diagonal are not', () => {
    expect(lineScans(...columns(grid))).toBeNull()
    expect(lineScans(...columns(grid.map(([x, y]) => [x + 5 * y, x + 5 * y] as const)))).toBeNull()
  })

  test('a line whose other axis wanders by less than 1 % of the travel is one', () => {
    const wandering = Array.from({ length: 21 }, (_, i) => [i, 0.15 * Math.sin(i)] as const)
    expect(lineScans(...columns(wandering.map(([x, y]) => [x, 6 * y] as const)))).toBeNull()
    expect(
      lineScans(...columns(wandering.map(([x, y]) => [x, y / 3] as const)))?.map(({ axis }) => axis),
    ).toEqual(['x'])
  })
})
