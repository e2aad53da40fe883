import { describe, expect, test } from 'vitest'
import { ellipseOf, fitGaussian2d } from '../../../src/measure/nearField/gaussian2d'
import { randomSource } from '../support/synthetic'

/** 1/e² radii of 5 and 3 along axes turned by 30°; W is turned with them. */
const [COS2, SIN2, SINCOS] = [0.75, 0.25, Math.sqrt(3) / 4]
const MATRIX = { xx: 25 * COS2 + 9 * SIN2, yy: 25 * SIN2 + 9 * COS2, xy: (25 - 9) * SINCOS }
const START = { amplitude: 90, x: 0, y: 0, background: 0, matrix: { xx: 16, yy: 16, xy: 0 } }

const indices = Array.from({ length: 17 * 17 }, (_, k) => [(k % 17) - 8, Math.floor(k / 17) - 8] as const)
const x = Float64Array.from(indices, ([each]) => each)
const y = Float64Array.from(indices, ([, each]) => each)

/** 100 counts about (0.4, -0.7) on a level of 12, with noise. */
function fitted(noise: () => number) {
  const value = Float64Array.from(indices, ([px, py]) => {
    const [dx, dy] = [px - 0.4, py + 0.7]
    const [along, across] = [(Math.sqrt(3) * dx + dy) / 2, (Math.sqrt(3) * dy - dx) / 2]
    return 12 + 100 * Math.exp(-2 * (along ** 2 / 25 + across ** 2 / 9)) + noise()
  })
  return fitGaussian2d({ x, y, value }, START)
}

describe('a fitted Gaussian', () => {
  test('without noise is the one that was put in', () => {
    const fit = fitted(() => 0)
    expect(fit.converged).toBe(true)
    expect([fit.amplitude, fit.x, fit.y, fit.background]).toEqual(
      [100, 0.4, -0.7, 12].map((each) => expect.closeTo(each, 6)),
    )
    for (const key of ['xx', 'yy', 'xy'] as const) expect(fit.matrix[key]).toBeCloseTo(MATRIX[key], 6)
    const { major, minor, azimuthRad } = ellipseOf(fit.matrix)
    expect([major, minor, azimuthRad]).toEqual([10, 6, Math.PI / 6].map((each) => expect.closeTo(each, 6)))
    expect(fit.residualRms).toBeLessThan(1e-8)
    expect(fit.degreesOfFreedom).toBe(289 - 7)
  })

  test('states the scatter of its widths from image to image', () => {
    const { normal } = randomSource(3)
    const fits = Array.from({ length: 150 }, () => fitted(() => 2 * normal()))
    for (const of of ['major', 'minor', 'azimuthRad'] as const) {
      const values = fits.map(({ matrix }) => ellipseOf(matrix)[of])
      const mean = values.reduce((sum, each) => sum + each, 0) / values.length
      const scatter = Math.sqrt(
        values.reduce((sum, each) => sum + (each - mean) ** 2, 0) / (values.length - 1),
      )
      const stated = fits.reduce(
        (sum, { standardOf }) => sum + standardOf((matrix) => ellipseOf(matrix)[of]),
        0,
      )
      // A standard deviation of 150 values is known to 6 %.
      expect(Math.abs(stated / fits.length / scatter - 1), of).toBeLessThan(0.2)
    }
    const rms = fits.reduce((sum, { residualRms }) => sum + residualRms, 0) / fits.length
    expect(rms).toBeCloseTo(0.02, 2)
  })
})

test('a saddle is no Gaussian, however well it is fitted', () => {
  // Of xx = yy = 0.02 and xy = 0.04 the form x² + 4 xy + y² has both signs.
  const saddle = (sign: number) =>
    fitGaussian2d(
      {
        ...{ x: x.map((each) => each / 2), y: y.map((each) => each / 2) },
        value: Float64Array.from(
          indices,
          ([px, py]) => 100 * Math.exp(-0.01 * (px * px + sign * 4 * px * py + py * py)),
        ),
      },
      { amplitude: 100, x: 0, y: 0, background: 0, matrix: { xx: 40, yy: 40, xy: -sign * 20 } },
    )
  expect(saddle(1).converged).toBe(false)
  expect(saddle(-1).converged).toBe(false)
})
