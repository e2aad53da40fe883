import { describe, expect, test } from 'vitest'
import { runArray } from '../../src/analysis/array/runArray'
import { evaluateCandidate, runYield } from '../../src/analysis/index'
import { temperatureSweep } from '../../src/analysis/temperature/temperatureSweep'
import { lossCurve, toleranceWindows } from '../../src/analysis/tolerance/toleranceCurve'
import { MAP_CEILING_DB, toleranceMap } from '../../src/analysis/tolerance/toleranceMap'
import { lossAxis } from '../../src/figures/axes'
import type { BarSeries, Chart, LineSeries, Series } from '../../src/figures/chart'
import { AXIS_TEXT } from '../../src/figures/loss/axisText'
import { channelLossesFigure } from '../../src/figures/loss/channelLosses'
import { lossCurveFigure } from '../../src/figures/loss/lossCurve'
import { lossMapFigure } from '../../src/figures/loss/lossMap'
import { temperatureFigure } from '../../src/figures/loss/temperature'
import { waterfallFigure } from '../../src/figures/loss/waterfall'
import { yieldHistogramFigure } from '../../src/figures/loss/yieldHistogram'
import { contourLines } from '../../src/figures/render/contours'
import { mapPixels } from '../../src/figures/render/scales'
import { demoProject } from '../../src/model/index'
import type { GaussianJoint } from '../../src/optics/index'
import { jointEfficiency, lossDb } from '../../src/optics/index'
import { MATCHED } from '../optics/joint/jointCases'

const ID = 'high-na-bonded'
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

function seriesOf<K extends Series['kind']>(chart: Chart, kind: K): readonly Extract<Series, { kind: K }>[] {
  return chart.panes.flatMap(({ series }) =>
    series.filter((each): each is Extract<Series, { kind: K }> => each.kind === kind),
  )
}

describe('the loss map', () => {
  const box = { halfX: 0.5, halfY: 0.25 }
  const map = toleranceMap(JOINT, 'offsetXUm', 'offsetYUm', 41)
  const { picture, table } = lossMapFigure('map', map, AXIS_TEXT.offsetXUm, AXIS_TEXT.offsetYUm, box)

  test('tables every cell with the loss of the joint there', () => {
    expect(table.rows).toHaveLength(41 * 41)
    for (const at of [0, 333, 840, 1680]) {
      const [x = 0, y = 0, loss = 0] = (table.rows[at] ?? []).map(Number)
      const there = lossDb(jointEfficiency({ ...JOINT, offsetXUm: x, offsetYUm: y }))
      expect(loss).toBeCloseTo(Math.min(MAP_CEILING_DB, there), 9)
    }
  })

  test('shows the part that holds every contour and the working point, on equal axes', () => {
    const { x, panes } = picture
    const y = panes[0]?.y
    expect(picture.equalAxes).toBe(true)
    for (const [rowAt, row] of map.rowsDb.entries()) {
      for (const [column, loss] of row.entries()) {
        if (loss > map.leastDb + 5) continue
        expect(map.x[column]).toBeGreaterThanOrEqual(x.from)
        expect(map.x[column]).toBeLessThanOrEqual(x.to)
        expect(map.y[rowAt]).toBeGreaterThanOrEqual(y?.from ?? 0)
      }
    }
    const wide = toleranceMap(
      { ...JOINT, emitterMfdXUm: 10, emitterMfdYUm: 10 },
      'offsetXUm',
      'offsetYUm',
      41,
    )
    const cut = lossMapFigure('map', wide, AXIS_TEXT.offsetXUm, AXIS_TEXT.offsetYUm, box).picture.x
    expect(cut.to - cut.from).toBeLessThan(0.95 * ((wide.x.at(-1) ?? 0) - (wide.x[0] ?? 0)))
  })

  test('names its minimum as a coupling loss, and as a bound where all of it is above the ceiling', () => {
    const of = (each: typeof map) =>
      lossMapFigure('map', each, AXIS_TEXT.offsetXUm, AXIS_TEXT.offsetYUm, box).sentence
    expect(of(map)).toMatch(new RegExp(`^Minimum coupling loss ${map.leastDb.toFixed(2)} dB; working point`))
    const far = toleranceMap({ ...JOINT, gapUm: 99_999 }, 'offsetXUm', 'offsetYUm', 11)
    expect(of(far)).toMatch(/^Minimum coupling loss at least 60 dB; working point/)
  })

  test('draws the contours of the map beside it at the positions of that map, which has another grid', () => {
    const narrow = { ...JOINT, emitterMfdXUm: 0.8 * JOINT.emitterMfdXUm }
    const other = toleranceMap(narrow, 'offsetXUm', 'offsetYUm', 57)
    const figure = lossMapFigure('map', map, AXIS_TEXT.offsetXUm, AXIS_TEXT.offsetYUm, box, other)
    const series = figure.picture.panes[0]?.series ?? []
    const dotted = series.find((each) => each.kind === 'contours' && each.beside === true)
    if (dotted?.kind !== 'contours') throw new Error('no contours of the other map')
    const { value = 0 } = dotted.levels[0] ?? {}
    const points = contourLines(dotted, [value])[0]?.[0] ?? []
    expect(points.length).toBeGreaterThan(20)
    for (let k = 0; k < points.length; k += 2) {
      const [offsetXUm = 0, offsetYUm = 0] = points.slice(k, k + 2)
      const there = lossDb(jointEfficiency({ ...narrow, offsetXUm, offsetYUm }))
      // Between two points of the grid the line is straight.
      expect(Math.abs(there - value)).toBeLessThan(0.05)
    }
  })

  test('marks the station accuracy about the working point; a gap ends at contact', () => {
    const [own] = seriesOf(picture, 'box')
    expect(own?.x?.[0]).toBeCloseTo(0.2 - 0.5, 12)
    expect(own?.y).toEqual([-0.25, 0.25])
    const touching = toleranceMap({ ...JOINT, gapUm: 0.2 }, 'offsetXUm', 'gapUm', 11)
    const { picture: other } = lossMapFigure('map', touching, AXIS_TEXT.offsetXUm, AXIS_TEXT.gapUm, {
      halfX: 0.5,
      halfY: 1,
    })
    expect(seriesOf(other, 'box')[0]?.y?.[0]).toBe(0)
    expect(other.panes[0]?.y.from).toBe(0)
  })

  test('has contours at the stated excess above the minimum', () => {
    const [contours] = seriesOf(picture, 'contours')
    expect(contours?.levels.map(({ value }) => Number((value - map.leastDb).toFixed(9)))).toEqual([
      0.5, 1, 2, 3, 4, 5,
    ])
  })

  test('is brightest at its minimum and darkest from 5 dB above it, from the greatest y down', () => {
    // Ends of cividis: J. R. Nunez et al., PLoS ONE 13 (2018) e0199239.
    const pixels = mapPixels({
      x: Float64Array.of(0, 1),
      y: Float64Array.of(0, 1),
      rows: [Float64Array.of(1, 6), Float64Array.of(9, Number.NaN)],
      scale: 'loss',
      from: 1,
      to: 6,
      title: '',
      unit: 'dB',
      digits: 2,
    })
    const colour = (cell: number) => Array.from(pixels.slice(4 * cell, 4 * cell + 4))
    const [dark, bright] = [
      [0, 0x22, 0x4e, 255],
      [0xfe, 0xe8, 0x38, 255],
    ]
    expect([colour(0), colour(1), colour(2), colour(3)]).toEqual([dark, [0, 0, 0, 0], bright, dark])
  })
})

describe('the loss curve', () => {
  const window = toleranceWindows(JOINT).find(({ axis }) => axis === 'offsetXUm')
  if (window === undefined) throw new Error('no window')
  const here = lossDb(jointEfficiency(JOINT))
  const curve = lossCurve(JOINT, 'offsetXUm', -3, 3, 61)
  const { picture, sentence, table } = lossCurveFigure(curve, window, here, AXIS_TEXT.offsetXUm)

  test('marks where the joint has exactly that excess loss', () => {
    const marks = seriesOf(picture, 'points').filter(({ name }) => name.startsWith('+'))
    expect(marks.length).toBeGreaterThan(0)
    for (const { x, y } of marks) {
      for (const [i, at] of Array.from(x).entries()) {
        expect(lossDb(jointEfficiency({ ...JOINT, offsetXUm: at }))).toBeCloseTo(y[i] ?? 0, 4)
      }
    }
  })

  test('states the working point and tables the curve', () => {
    expect(sentence).toContain(`${here.toFixed(2)} dB at the working point`)
    expect(table.rows[30]?.[1]).toBe(curve.lossesDb[30])
    const never = { ...window, marks: window.marks.map((mark) => ({ ...mark, below: null, above: null })) }
    const flat = lossCurveFigure(curve, never, here, AXIS_TEXT.offsetXUm)
    expect(flat.sentence).toContain('1 dB excess loss is not reached on this axis')
  })
})

test('a loss axis never shows less than 0.1 dB, and begins at 0 where its losses do', () => {
  const flat = lossAxis('Loss', [2, 2.0001])
  expect(flat.to - flat.from).toBeGreaterThanOrEqual(0.1)
  expect(lossAxis('Loss', [0, 3]).from).toBe(0)
  expect(lossAxis('Loss', [-0.2, 3]).from).toBeLessThan(-0.2)
})

describe('the waterfall', () => {
  test('starts each contribution where the one before ended and ends at the nominal loss of the core', () => {
    const { lines, nominalDb } = evaluateCandidate(demoProject(), ID)
    const { picture, table } = waterfallFigure('w', 'x', lines)
    const [bars] = seriesOf(picture, 'bars') as readonly BarSeries[]
    for (let i = 1; i < lines.length; i++) expect(bars?.from[i]).toBe(bars?.to[i - 1])
    expect(Number(table.rows.at(-1)?.[1])).toBeCloseTo(nominalDb, 9)
    expect(table.rows.map(([name]) => name)).toEqual([...lines.map(({ label }) => label), 'Nominal'])
  })
})

describe('the yield histogram', () => {
  const result = runYield(demoProject(), ID, { samples: 20_000, seed: 1, rankingPoints: null })
  const { picture, sentence, table } = yieldHistogramFigure('yield', result)

  test('has bins that, with what lies beyond, are all assemblies, and a curve that rises to their sum', () => {
    const counts = table.rows.map((row) => Number(row[2]))
    expect(counts.reduce((sum, count) => sum + count, result.histogram.beyond)).toBe(result.samples)
    const [curve] = seriesOf(picture, 'line') as readonly LineSeries[]
    const shares = Array.from(curve?.y ?? []).map(Number)
    expect(shares).toEqual([...shares].sort((a, b) => a - b))
    expect(shares.at(-1)).toBeCloseTo(100 - (100 * result.histogram.beyond) / result.samples, 9)
    const at = shares.findIndex((share) => share >= 95)
    expect(Math.abs((curve?.x[at] ?? 0) - result.p95Db)).toBeLessThanOrEqual(result.histogram.stepDb)
  })

  test('states the yield and marks limit and percentiles by name', () => {
    expect(sentence).toContain(`Yield ${(100 * result.yield).toFixed(2)} % at 2 dB`)
    const rules = seriesOf(picture, 'rule')
    expect(rules.find(({ label }) => label === 'limit')?.at).toBe(2)
    expect(rules.find(({ label }) => label === 'P95')?.at).toBe(result.p95Db)
  })
})

test('the array figure holds every channel with its spread', () => {
  const [aim] = runArray(demoProject(), ID, { samples: 128 }).aims
  if (aim === undefined) throw new Error('no aim')
  const { table, sentence } = channelLossesFigure(aim, 2, false)
  expect(table.rows.map((row) => row[3])).toEqual(aim.channels.map(({ p50Db }) => p50Db))
  expect(sentence).toContain(`${(100 * aim.allChannelsYield).toFixed(1)} % of arrays`)
})

test('the temperature figure holds the nominal curve between the edges of its band', () => {
  const result = temperatureSweep(demoProject(), ID)
  if (!result.ok) throw new Error('not computed')
  const { table, sentence } = temperatureFigure(result.value, { limitDb: 2, name: 'RSS limit' })
  expect(table.rows.map((row) => row[1])).toEqual([...result.value.lossesDb])
  for (const [, nominal = 0, low = 0, high = 0] of table.rows.map((row) => row.map(Number))) {
    expect(nominal).toBeGreaterThanOrEqual(low - 0.5)
    expect(nominal).toBeLessThanOrEqual(high + 0.5)
  }
  expect(sentence).toContain(`${result.value.worstDb.toFixed(2)} dB`)
})
