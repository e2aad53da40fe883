import { describe, expect, test } from 'vitest'
import { lossCurve, toleranceWindows } from '../../src/analysis/tolerance/toleranceCurve'
import { axisRange, MAP_CEILING_DB, toleranceMap } from '../../src/analysis/tolerance/toleranceMap'
import type { GaussianJoint } from '../../src/optics/index'
import { lossCurveFigure } from '../../src/plots/lossCurveFigure'
import { type LossMapFigure, lossMapFigure } from '../../src/plots/lossMapFigure'
import { mapPixels } from '../../src/plots/mapPixels'
import type { Markup } from '../../src/report/document/markup'
import { placesOf } from '../../src/report/figures/chart'
import { lossMapDrawing, mapFrame } from '../../src/report/figures/lossMap'
import { MATCHED } from '../optics/joint/jointCases'

const JOINT: GaussianJoint = {
  ...MATCHED,
  wavelengthUm: 1.6537,
  index: 1.475,
  emitterMfdXUm: 3.3,
  emitterMfdYUm: 3.3,
  receiverMfdXUm: 3.4,
  receiverMfdYUm: 2.8,
  offsetXUm: 0.2,
  gapUm: 3,
}
const THEME = { ink: '#000', rule: '#ccc', accent: '#00f', font: 'serif' }
const UM = { name: 'Offset x', unit: 'µm', perCore: 1 }
const DEG = { name: 'Tilt x', unit: '°', perCore: 180 / Math.PI }

type Points = { readonly x: ArrayLike<number>; readonly y: ArrayLike<number> }
const points = (trace: Readonly<Record<string, unknown>> | undefined) => trace as unknown as Points

/** The box as it is drawn, read back from its pixels: the drawing gives them to a hundredth. */
function boxOf({ parts }: LossMapFigure) {
  const sized = { ...parts, heightPx: 2000, widthPx: 2000 }
  const places = placesOf(mapFrame(sized))
  const box = lossMapDrawing(sized).children.find(
    (child) => typeof child !== 'string' && child.attributes.class === 'chart-box',
  ) as Markup
  const [x, y, width, height] = ['x', 'y', 'width', 'height'].map((name) => Number(box.attributes[name]))
  const back = (place: (value: number) => number, px: number) => (px - place(0)) / (place(1) - place(0))
  return {
    left: back(places.x, x!),
    right: back(places.x, x! + width!),
    top: back(places.y, y!),
    bottom: back(places.y, y! + height!),
  }
}

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
    const { left, right, top } = boxOf(lossMapFigure(map, UM, DEG, half))
    expect(left).toBeCloseTo(0.2 - 0.5, 2)
    expect(right).toBeCloseTo(0.2 + 0.5, 2)
    expect(top).toBeCloseTo(0.5, 2)
  })

  test('has a contour every half decibel over five, lettered at the whole ones', () => {
    const { parts } = lossMapFigure(toleranceMap(JOINT, 'offsetXUm', 'offsetYUm', 21), UM, UM, {
      halfX: 0.5,
      halfY: 0.5,
    })
    const [least] = [parts.map.leastDb]
    expect(parts.levels).toHaveLength(10)
    for (const [i, { db, words }] of parts.levels.entries()) {
      expect(db).toBeGreaterThanOrEqual(least)
      expect(db).toBeLessThan(least + 5.5)
      expect(db - (parts.levels[0]?.db ?? 0)).toBeCloseTo(i / 2, 12)
      expect(words).toBe(db % 1 === 0 ? `${db} dB` : undefined)
    }
  })

  test('is brightest at its least loss and darkest from 5 dB above it, from the greatest y down', () => {
    const map = {
      x: Float64Array.of(0, 1),
      y: Float64Array.of(0, 1),
      rowsDb: [Float64Array.of(1, 6), Float64Array.of(9, 3.5)],
      atX: 0,
      atY: 0,
      hereDb: 1,
      leastDb: 1,
    }
    // Ends and middle of cividis: J. R. Nunez et al., PLoS ONE 13 (2018) e0199239.
    const [dark, middle, bright] = [
      [0, 0x22, 0x4e],
      [0x7c, 0x7b, 0x78],
      [0xfe, 0xe8, 0x38],
    ] as const
    const pixels = Array.from(mapPixels(map))
    const colour = (cell: number) => pixels.slice(4 * cell, 4 * cell + 3)
    expect([colour(0), colour(2), colour(3)]).toEqual([dark, bright, dark])
    for (const [c, value] of colour(1).entries()) expect(Math.abs(value - (middle[c] ?? 0))).toBeLessThan(3)
    expect(pixels.filter((_, i) => i % 4 === 3)).toEqual([255, 255, 255, 255])
  })

  test('ends the box of the station at contact, and tables every cell', () => {
    const touching = { ...JOINT, gapUm: 0.2 }
    const map = toleranceMap(touching, 'offsetXUm', 'gapUm', 11)
    const gap = { name: 'Gap', unit: 'µm', perCore: 1, least: 0 }
    const figure = lossMapFigure(map, UM, gap, { halfX: 0.5, halfY: 1 })
    const { bottom, top } = boxOf(figure)
    expect(bottom).toBeCloseTo(0, 2)
    expect(top).toBeCloseTo(1.2, 1)
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
