import { describe, expect, test } from 'vitest'
import { lossCurve, toleranceWindows } from '../../src/analysis/toleranceCurve'
import { axisRange, MAP_CEILING_DB, toleranceMap } from '../../src/analysis/toleranceMap'
import type { GaussianJoint } from '../../src/optics/index'
import { lossCurveFigure } from '../../src/plots/lossCurveFigure'
import { lossMapFigure } from '../../src/plots/lossMapFigure'

const JOINT: GaussianJoint = {
  wavelengthUm: 1.6537,
  index: 1.475,
  emitterMfdXUm: 3.3,
  emitterMfdYUm: 3.3,
  receiverMfdXUm: 3.4,
  receiverMfdYUm: 2.8,
  offsetXUm: 0.2,
  offsetYUm: 0,
  gapUm: 3,
  tiltXRad: 0,
  tiltYRad: 0,
  rollRad: 0,
  waistXUm: 0,
  waistYUm: 0,
}
const THEME = { ink: '#000', rule: '#ccc', accent: '#00f', font: 'serif' }
const UM = { name: 'Offset x', unit: 'µm', perCore: 1 }
const DEG = { name: 'Tilt x', unit: '°', perCore: 180 / Math.PI }

type Points = { readonly x: ArrayLike<number>; readonly y: ArrayLike<number> }
const points = (trace: Readonly<Record<string, unknown>> | undefined) => trace as unknown as Points

describe('the map', () => {
  test('has its least loss nowhere above the working point, and no value that cannot be drawn', () => {
    const map = toleranceMap(JOINT, 'offsetXUm', 'offsetYUm', 41)
    expect(map.leastDb).toBeLessThanOrEqual(map.hereDb)
    const values = map.rowsDb.flatMap((row) => [...row])
    expect(values).toHaveLength(41 * 41)
    expect(values.every((value) => value >= 0 && value <= MAP_CEILING_DB)).toBe(true)
    expect(map.rowsDb[20]?.[20]).toBeCloseTo(map.hereDb, 12)
  })

  test('never goes to a negative gap', () => {
    expect(axisRange({ ...JOINT, gapUm: 0 }, 'gapUm')[0]).toBe(0)
  })

  test('draws the box of the station around the working point, in the units of the screen', () => {
    const map = toleranceMap(JOINT, 'offsetXUm', 'tiltXRad', 21)
    const half = { halfX: 0.5, halfY: Math.PI / 360 }
    const box = points(lossMapFigure(map, UM, DEG, half, THEME).data[2])
    expect(Math.min(...Array.from(box.x))).toBeCloseTo(0.2 - 0.5, 12)
    expect(Math.max(...Array.from(box.y))).toBeCloseTo(0.5, 12)
  })

  test('ends the box of the station at contact, and tables every cell', () => {
    const touching = { ...JOINT, gapUm: 0.2 }
    const map = toleranceMap(touching, 'offsetXUm', 'gapUm', 11)
    const gap = { name: 'Gap', unit: 'µm', perCore: 1, least: 0 }
    const figure = lossMapFigure(map, UM, gap, { halfX: 0.5, halfY: 1 }, THEME)
    const box = points(figure.data[2])
    expect(Math.min(...Array.from(box.y))).toBe(0)
    expect(Math.max(...Array.from(box.y))).toBeCloseTo(1.2, 12)
    expect(figure.table.rows).toHaveLength(11 * 11)
    expect(figure.table.rows[12]).toEqual([map.x[1], map.y[1], map.rowsDb[1]?.[1]])
  })
})

describe('the curve', () => {
  test('marks 0.5, 1 and 3 dB on both sides, on the curve itself', () => {
    const window = toleranceWindows(JOINT).find((each) => each.axis === 'offsetXUm')!
    const curve = lossCurve(JOINT, 'offsetXUm', -2, 2, 401)
    const here = lossCurve(JOINT, 'offsetXUm', 0.2, 0.2, 2).lossesDb[0] ?? 0
    const figure = lossCurveFigure(curve, window, here, UM, THEME)
    const marks = figure.data.slice(2).map(points)
    expect(marks.map((mark) => mark.x.length)).toEqual([2, 2, 2])
    for (const mark of marks) {
      for (const [i, x] of Array.from(mark.x).entries()) {
        const onCurve = lossCurve(JOINT, 'offsetXUm', x, x, 2).lossesDb[0]
        expect(mark.y[i]).toBeCloseTo(onCurve ?? 0, 6)
      }
    }
    expect(figure.sentence).toContain('1 dB more at')
  })

  test('says only the side on which the loss is reached', () => {
    const touching = { ...JOINT, gapUm: 0 }
    const window = toleranceWindows(touching).find((each) => each.axis === 'gapUm')!
    const gap = { name: 'Gap', unit: 'µm', perCore: 1 }
    const { sentence } = lossCurveFigure(lossCurve(touching, 'gapUm', 0, 9, 10), window, 0.1, gap, THEME)
    expect(sentence).toMatch(/1 dB more at [\d.]+ µm above it\.$/)
  })
})
