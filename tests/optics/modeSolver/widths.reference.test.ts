// Diameters, overlaps and shares of fields that are known in closed form, and the facts of the trade about tips.

import { describe, expect, test } from 'vitest'
import { lp01Field } from '../../../src/optics/fibre/lp01Field'
import { solveLp01, stepIndexMode } from '../../../src/optics/fibre/stepIndexMode'
import { bestGaussian } from '../../../src/optics/modeSolver/bestGaussian'
import { fibreOverlap } from '../../../src/optics/modeSolver/coupling/fibreOverlap'
import { axisFromFaces, axisOf, planAxis } from '../../../src/optics/modeSolver/grid'
import { integralOfProduct } from '../../../src/optics/modeSolver/magneticField'
import { cutWidth, modeWidths } from '../../../src/optics/modeSolver/modeWidths'
import { coreShare, sampledMode } from '../../../src/optics/modeSolver/sampledMode'
import { solveMode } from '../../../src/optics/modeSolver/solveMode'
import { rectangle, siliconWire } from './sections'

const graded = (reachUm: number, fineUm: number) =>
  axisOf(planAxis([-reachUm, 0, reachUm], [{ atUm: 0, sizeUm: fineUm }], 220, 0), 0)

function sampled(reachUm: number, fineUm: number, amplitude: (x: number, y: number) => number) {
  const axes = { x: graded(reachUm, fineUm), y: graded(reachUm, fineUm) }
  const field = new Float64Array(axes.x.centres.length * axes.y.centres.length)
  axes.y.centres.forEach((y, iy) => {
    axes.x.centres.forEach((x, ix) => {
      field[iy * axes.x.centres.length + ix] = amplitude(x, y)
    })
  })
  // A wave of index 1.5, which must not matter.
  const magnetic = {
    leading: field.map((value) => 1.5 * value),
    flux: 1.5 * integralOfProduct(axes, field, field),
  }
  return { axes, field, wavelengthUm: 1.55, leadingShare: 1, magnetic }
}

const gaussian =
  (mfdX: number, mfdY: number, cx = 0, cy = 0) =>
  (x: number, y: number) =>
    Math.exp(-4 * ((x - cx) / mfdX) ** 2 - 4 * ((y - cy) / mfdY) ** 2)

describe('a Gaussian of 5.2 x 3.6 um off its window’s middle', () => {
  const mode = sampled(12, 0.5, gaussian(5.2, 3.6, 0.3, -0.4))
  const widths = modeWidths(mode)

  test.each([
    ['cuts', widths.cutUm],
    ['second moment', widths.secondMomentUm],
    ['Petermann II', widths.petermann2Um],
    ['best Gaussian', widths.gaussian.mfdUm],
  ])('has its own diameters by %s, to 0.5 %%', (_, { x, y }) => {
    expect(Math.abs(x / 5.2 - 1)).toBeLessThan(0.005)
    expect(Math.abs(y / 3.6 - 1)).toBeLessThan(0.005)
  })

  test('is its own best Gaussian at its own place', () => {
    expect(widths.gaussian.overlap).toBeCloseTo(1, 3)
    expect(widths.gaussian.centreUm.x).toBeCloseTo(0.3, 3)
    expect(widths.gaussian.centreUm.y).toBeCloseTo(-0.4, 3)
  })

  test('couples to a 10.4 um fibre as two Gaussians do: 2 w1 w2 / (w1² + w2²) an axis (Marcuse 1977)', () => {
    const along = (a: number, b: number) => (2 * a * b) / (a * a + b * b)
    const { efficiency, xUm, yUm } = fibreOverlap(mode, widths, {
      kind: 'gaussian',
      mfdXUm: 10.4,
      mfdYUm: 10.4,
    })
    expect(efficiency).toBeCloseTo(along(5.2, 10.4) * along(3.6, 10.4), 3)
    expect(xUm).toBeCloseTo(0.3, 2)
    expect(yUm).toBeCloseTo(-0.4, 2)
  })
})

describe('the exact mode of a step-index fibre at V = 2.0, sampled', () => {
  const fibre = { coreRadiusUm: 4, na: (2 * 1.55) / (2 * Math.PI * 4), wavelengthUm: 1.55 }
  const lp01 = solveLp01(2)
  const mode = sampled(40, 1, (x, y) => lp01Field(lp01, Math.hypot(x, y) / 4))
  const widths = modeWidths(mode)
  const exact = stepIndexMode(fibre)

  test('has the Petermann II, D4σ (Petermann I) and best Gaussian of the closed forms, to 0.5 %', () => {
    expect(Math.abs(widths.petermann2Um.x / exact.petermann2MfdUm - 1)).toBeLessThan(0.005)
    expect(Math.abs(widths.secondMomentUm.x / exact.petermann1MfdUm - 1)).toBeLessThan(0.005)
    expect(Math.abs(widths.gaussian.mfdUm.y / exact.bestGaussianMfdUm - 1)).toBeLessThan(0.005)
    expect(widths.gaussian.overlap).toBeCloseTo(exact.bestGaussianOverlap, 3)
  })

  test('couples fully to the fibre itself', () => {
    const { efficiency } = fibreOverlap(mode, widths, { kind: 'lp01', coreRadiusUm: 4, na: fibre.na })
    expect(efficiency).toBeGreaterThan(0.9995)
    expect(efficiency).toBeLessThanOrEqual(1)
  })
})

test('the best Gaussian beats every Gaussian near it', () => {
  const mode = sampled(10, 0.4, (x, y) => 1 / Math.cosh(Math.hypot(x, 1.3 * y)) ** 1.5)
  const { centreUm, mfdUm, overlap } = modeWidths(mode).gaussian
  const at = (scaleX: number, scaleY: number, dx: number) => {
    const near = gaussian(mfdUm.x * scaleX, mfdUm.y * scaleY, centreUm.x + dx, centreUm.y)
    const { x, y } = mode.axes
    let [both, own, other] = [0, 0, 0]
    y.centres.forEach((py, iy) => {
      x.centres.forEach((px, ix) => {
        const area = (x.faces[ix + 1]! - x.faces[ix]!) * (y.faces[iy + 1]! - y.faces[iy]!)
        const [a, b] = [mode.field[iy * x.centres.length + ix]!, near(px, py)]
        both += a * b * area
        own += a * a * area
        other += b * b * area
      })
    })
    return both ** 2 / (own * other)
  }
  expect(at(1, 1, 0)).toBeCloseTo(overlap, 3)
  for (const [sx, sy, dx] of [
    [1.05, 1, 0],
    [0.95, 1, 0],
    [1, 1.05, 0],
    [1, 0.95, 0],
    [1, 1, 0.1],
  ] as const) {
    expect(at(sx, sy, dx)).toBeLessThan(at(1, 1, 0))
  }
})

test('the width of a cut is that between its outermost crossings', () => {
  const centres = Float64Array.from({ length: 9 }, (_, i) => i)
  const twoHumps = Float64Array.of(0, 0, 1, 0, 0, 0, 1, 0, 0)
  // 1/e lies 1 - 1/e to the side of each hump on the straight lines to its neighbours.
  expect(cutWidth(centres, twoHumps)).toBeCloseTo(4 + 2 * (1 - 1 / Math.E), 12)
  expect(
    bestGaussian(
      {
        x: axisFromFaces(Float64Array.of(0, 1, 2, 3)),
        y: axisFromFaces(Float64Array.of(0, 1, 2, 3)),
        field: Float64Array.of(0.1, 0.5, 0.1, 0.5, 1, 0.5, 0.1, 0.5, 0.1),
      },
      { x: 1.5, y: 1.5 },
      { x: 2, y: 2 },
    ).centreUm.x,
  ).toBeCloseTo(1.5, 5)
})

describe('common practice, no source', () => {
  const mfds = (widthUm: number) => {
    const mode = solveMode(siliconWire(widthUm), {
      kind: 'TE',
      wavelengthUm: 1.55,
      cells: { x: 120, y: 100 },
    })
    return modeWidths(mode)
  }

  test.each([0.4, 0.45])('a silicon wire %f um wide is under 1 um in mode-field diameter', (width) => {
    const { gaussian: best, secondMomentUm } = mfds(width)
    for (const { x, y } of [best.mfdUm, secondMomentUm]) {
      expect(x).toBeLessThan(1)
      expect(y).toBeLessThan(1)
    }
  })

  test('its tip narrowed from 180 to 150 nm widens the mode to several um', () => {
    const [wide, narrow] = [mfds(0.18), mfds(0.15)]
    expect(wide.gaussian.mfdUm.x).toBeGreaterThan(2)
    expect(wide.gaussian.mfdUm.x).toBeLessThan(3.5)
    expect(narrow.gaussian.mfdUm.x).toBeGreaterThan(4)
    expect(narrow.gaussian.mfdUm.x).toBeLessThan(8)
  })
})

describe('a solved mode', () => {
  const mode = solveMode(rectangle(1, 0.4, 1.996, 1.444), { kind: 'TE', wavelengthUm: 1.55 })
  const { gaussian: best } = modeWidths(mode)

  test('sampled on a regular grid keeps its integral to 1e-9 and its Gaussian overlap to 1e-3', () => {
    const field = sampledMode(mode, {
      nx: 128,
      ny: 128,
      dxUm: 0.05,
      dyUm: 0.05,
      centreXUm: 0,
      centreYUm: 0.2,
    })
    const sum = field.re.reduce((total, value) => total + value, 0) * 0.05 ** 2
    const { x, y } = mode.axes
    const nx = x.centres.length
    const knots = (axis: typeof x) => [axis.ends[0], ...axis.centres, axis.ends[1]]
    const weight = (axis: typeof x, i: number) => (knots(axis)[i + 2]! - knots(axis)[i]!) / 2
    const direct = mode.field.reduce(
      (total, value, i) => total + value * weight(x, i % nx) * weight(y, Math.floor(i / nx)),
      0,
    )
    expect(Math.abs(sum / direct - 1)).toBeLessThan(1e-9)
    const samples = {
      x: axisFromFaces(Float64Array.from({ length: 129 }, (_, i) => (i - 64) * 0.05)),
      y: axisFromFaces(Float64Array.from({ length: 129 }, (_, i) => (i - 64) * 0.05)),
      field: field.re,
    }
    const again = bestGaussian(samples, { x: 0, y: 0 }, { x: 1.2, y: 0.9 })
    expect(Math.abs(again.overlap - best.overlap)).toBeLessThan(2e-3)
    expect(Math.abs(again.mfdUm.x / best.mfdUm.x - 1)).toBeLessThan(0.01)
  })

  test('is zero beyond the window, without a wrap-around', () => {
    const field = sampledMode(mode, { nx: 64, ny: 64, dxUm: 1, dyUm: 1, centreXUm: 0, centreYUm: 0 })
    expect(field.re[0]).toBe(0)
    expect(field.x0Um).toBe(-31.5)
  })

  test('holds more of itself in a core that is twice as large', () => {
    const large = solveMode(rectangle(2, 0.8, 1.996, 1.444), {
      kind: 'TE',
      wavelengthUm: 1.55,
      cells: { x: 100, y: 76 },
    })
    expect(coreShare(mode)).toBeGreaterThan(0.5)
    expect(coreShare(large)).toBeGreaterThan(coreShare(mode))
    expect(coreShare(large)).toBeLessThan(1)
  })
})
