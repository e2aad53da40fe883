// Figures of modes and pictures: where ellipses, contours and cuts lie.

import { describe, expect, test } from 'vitest'
import type { LineSeries } from '../../src/figures/chart'
import { coreProfileFigure } from '../../src/figures/field/coreProfile'
import { solvedCutFigure, solvedModeFigure } from '../../src/figures/field/solvedMode'
import { taperLossFigure } from '../../src/figures/field/taperLoss'
import { imageFigure, rasterFigure } from '../../src/figures/measure/images'
import { pointsAndLinesFigure } from '../../src/figures/measure/scans'
import { pointsOf, rulesOf } from './support/series'

const GRID = Array.from({ length: 41 }, (_, i) => (i - 20) / 4)

/** Intensity of a Gaussian of 1/e² diameters 4 and 3 um about (0.5, -0.25), dB below its peak. */
const gaussianDb = (x: number, y: number) =>
  10 * Math.log10(Math.exp(-2 * (((x - 0.5) / 2) ** 2 + ((y + 0.25) / 1.5) ** 2)))

describe('a solved mode', () => {
  const figure = solvedModeFigure(
    {
      xUm: GRID,
      yUm: GRID,
      rowsDb: GRID.map((y) => GRID.map((x) => gaussianDb(x, y))),
      cores: [],
      layerHeightsUm: [-9, -1, 2],
      gaussian: { centreX: 0.5, centreY: -0.25, mfdX: 4, mfdY: 3 },
    },
    'A mode',
  )
  const series = figure.picture.panes[0]?.series ?? []
  const lines = series.filter((each): each is LineSeries => each.kind === 'line')

  test('that is its own Gaussian has the ellipse on the contour of 1/e², which is 8.686 dB below the peak', () => {
    const ellipse = lines.at(-1)
    const contours = series.find((each) => each.kind === 'contours')
    const strong = contours?.kind === 'contours' ? contours.levels.filter((each) => each.strong) : []
    expect(strong.map(({ value }) => value.toFixed(3))).toEqual(['-8.686'])
    expect(ellipse?.x).toHaveLength(121)
    for (let i = 0; i < 121; i++)
      expect(gaussianDb(ellipse?.x[i] ?? 0, Number(ellipse?.y[i]))).toBeCloseTo(strong[0]?.value ?? 0, 9)
  })

  test('has the borders of layers that are in the picture, across it', () => {
    expect(lines.slice(0, -1).map(({ x, y }) => [...Array.from(x), ...Array.from(y)])).toEqual([
      [-5, 5, -1, -1],
      [-5, 5, 2, 2],
    ])
  })

  test('is tabled by rows from the lowest, its map cut off at -40 dB', () => {
    expect(figure.table.rows).toHaveLength(41 * 41)
    for (const [x, y, db] of [0, 43, 900, 1680].map((at) => (figure.table.rows[at] ?? []).map(Number)))
      expect(db).toBeCloseTo(gaussianDb(x ?? 0, y ?? 0), 9)
    const map = series.find((each) => each.kind === 'map')
    expect(map?.kind === 'map' && Math.min(...map.rows.map((row) => Math.min(...row)))).toBe(-40)
  })

  test('cut along one axis is shown as far as it is above the floor of the picture, with its Gaussian', () => {
    const db = GRID.map((x) => gaussianDb(x, -0.25))
    const { picture, table } = solvedCutFigure(
      { name: 'x', positionUm: GRID, db, gaussianDb: db.map((each) => each - 1) },
      'A cut',
    )
    expect(pointsOf(picture, 'best-fit Gaussian')?.[20]?.[1]).toBeCloseTo(Number(db[20]) - 1, 9)
    expect(table.rows[20]).toEqual([0, db[20], Number(db[20]) - 1])
    // Above -45 dB: |x - 0.5| below 4.55 um, on a grid of 0.25 um.
    expect([picture.x.from, picture.x.to]).toEqual([-4, 5])
  })
})

test('the index of a core is stated at its peak and above the glass around it, along both axes at their own places', () => {
  const { sentence, picture, table } = coreProfileFigure('core', 'core 1', {
    alongX: { atUm: [-2, 0, 2], index: [1.445, 1.46, 1.446] },
    alongY: { atUm: [-3, 0], index: [1.444, 1.46] },
    peakIndex: 1.46,
    hostIndex: 1.4444,
  } as unknown as Parameters<typeof coreProfileFigure>[2])
  expect(sentence).toBe('Index of core 1 through its peak: 1.46000, 0.01560 above the surrounding glass.')
  expect(pointsOf(picture, 'along y')).toEqual([
    [-3, 1.444],
    [0, 1.46],
  ])
  expect(table.rows).toEqual([
    [-2, 1.445, -3, 1.444],
    [0, 1.46, 0, 1.46],
    [2, 1.446, '', ''],
  ])
})

test('the loss of a taper has its points and the present length, also one beyond them', () => {
  const points = [
    { at: 100, lossDb: 0.9 },
    { at: 300, lossDb: 0.2 },
  ]
  const { picture, table } = taperLossFigure({ id: 't', name: 'Length', points, now: 400 }, 'A taper')
  expect(table.rows).toEqual([
    [100, 0.9],
    [300, 0.2],
  ])
  expect(pointsOf(picture, 'taper loss')).toEqual(table.rows)
  expect(rulesOf(picture)).toEqual({ current: 400 })
  expect([picture.x.from, picture.x.to]).toEqual([100, 400])
})

describe('the ellipse over a picture', () => {
  const text = { unit: 'µm', value: 'Power', sentence: 'A spot', signed: false }
  const ellipse = { centreX: 3, centreY: -2, major: 8, minor: 4, azimuthRad: Math.PI / 6 }

  /** Least and greatest distance from the centre, and the direction of the greatest. */
  const shapeOf = (chart: ReturnType<typeof imageFigure>['picture']) => {
    const drawn = chart.panes[0]?.series.find((each) => each.kind === 'line')
    if (drawn?.kind !== 'line') throw new Error('no ellipse')
    const away = Array.from(drawn.x, (x, i) => [x - 3, Number(drawn.y[i]) + 2] as const)
    const far = away.toSorted((a, b) => Math.hypot(...b) - Math.hypot(...a))
    const [x = 0, y = 0] = far[0] ?? []
    return { most: Math.hypot(x, y), least: Math.hypot(...(far.at(-1) ?? [0, 0])), azimuth: Math.atan(y / x) }
  }

  test('has full widths, and its long axis is turned from x towards y', () => {
    const map = { width: 2, height: 2, xUm: 0, yUm: 0, stepUm: 1, values: Float64Array.of(0, 1, 2, 3) }
    const points = { x: [0, 1], y: [0, 1], value: [1, 2] }
    for (const { picture } of [imageFigure(map, ellipse, text), rasterFigure(points, ellipse, text)]) {
      const { most, least, azimuth } = shapeOf(picture)
      expect(most).toBeCloseTo(4, 9)
      expect(least).toBeCloseTo(2, 9)
      expect(azimuth).toBeCloseTo(Math.PI / 6, 9)
    }
  })

  test('lies in a frame that holds whole pixels: rows of an image run downwards, y of a raster upwards', () => {
    const map = { width: 3, height: 2, xUm: 10, yUm: 20, stepUm: 2, values: new Float64Array(6) }
    const image = imageFigure(map, null, text).picture
    expect([image.x.from, image.x.to]).toEqual([9, 15])
    expect([image.panes[0]?.y.from, image.panes[0]?.y.to]).toEqual([23, 19])
    const raster = rasterFigure({ x: [0, 2, 4], y: [1, 1, 3], value: [1, 2, 3] }, null, text).picture
    expect([raster.x.from, raster.x.to]).toEqual([-1, 5])
    expect([raster.panes[0]?.y.from, raster.panes[0]?.y.to]).toEqual([0, 4])
  })

  test('a residual has colours even about zero', () => {
    const map = { width: 2, height: 1, xUm: 0, yUm: 0, stepUm: 1, values: Float64Array.of(-0.4, 0.1) }
    const [residual] = imageFigure(map, null, { ...text, signed: true }).picture.panes[0]?.series ?? []
    expect(residual?.kind === 'map' && [residual.scale, residual.from, residual.to]).toEqual([
      'signed',
      -0.4,
      0.4,
    ])
  })
})

test('readings with lines mark those that were flagged, and table lines before readings', () => {
  const { picture, table } = pointsAndLinesFigure(
    { label: 'losses', x: [1, 2], y: [0.5, 0.9], flagged: [false, true] },
    [{ label: 'line', x: [0, 3], y: [0.2, 1] }],
    { x: 'Facets', y: 'Loss, dB' },
    'A line',
  )
  expect(pointsOf(picture, 'line')).toEqual([
    [0, 0.2],
    [3, 1],
  ])
  const marks = picture.panes[0]?.series.flatMap((each) => (each.kind === 'points' ? [each.mark] : []))
  expect(marks).toEqual([['circle', 'x']])
  expect(table.rows).toEqual([
    ['line', 0, 0.2],
    ['line', 3, 1],
    ['losses', 1, 0.5],
    ['losses', 2, 0.9],
  ])
})
