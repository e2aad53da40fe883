// The fitted Gaussian of small images without noise, their residual maps and cuts.

import { describe, expect, test } from 'vitest'
import { fitImageGaussian, type ImageGaussian, lineCuts } from '../../../src/measure/nearField/imageFit'
import type { ImageInput, SecondMomentResult } from '../../../src/measure/nearField/secondMomentWidths'

const DEG = Math.PI / 180

interface Beam {
  readonly width: number
  readonly height: number
  readonly pixelUm: number
  readonly majorUm: number
  readonly minorUm: number
  readonly azimuthRad: number
  readonly xUm: number
  readonly yUm: number
}
const BEAM: Beam = {
  ...{ width: 48, height: 40, pixelUm: 0.5, majorUm: 8, minorUm: 5 },
  ...{ azimuthRad: 25 * DEG, xUm: 11.3, yUm: 9.1 },
}
const shapeAt = (b: Beam, xUm: number, yUm: number) => {
  const [dx, dy] = [xUm - b.xUm, yUm - b.yUm]
  const along = Math.cos(b.azimuthRad) * dx + Math.sin(b.azimuthRad) * dy
  const across = Math.cos(b.azimuthRad) * dy - Math.sin(b.azimuthRad) * dx
  return Math.exp(-2 * ((2 * along) / b.majorUm) ** 2 - 2 * ((2 * across) / b.minorUm) ** 2)
}
const imageOf = (b: Beam, added = (_x: number, _y: number) => 0): ImageInput => ({
  ...b,
  pixels: Float64Array.from({ length: b.width * b.height }, (_, k) => {
    const [x, y] = [k % b.width, Math.floor(k / b.width)]
    return 40 + 900 * shapeAt(b, x * b.pixelUm, y * b.pixelUm) + added(x, y)
  }),
})
/** Moments that are a little off, from which the fit starts. */
const near = (b: Beam) =>
  ({
    ...{ majorUm: 1.1 * b.majorUm, minorUm: 1.05 * b.minorUm, azimuthRad: b.azimuthRad + 0.1 },
    ...{ centroidXUm: b.xUm + 0.2, centroidYUm: b.yUm - 0.1, peak: 850, background: 50 },
  }) as SecondMomentResult

function expectBeam(fit: ImageGaussian, b: Beam, digits = 6): void {
  expect(fit.majorUm).toBeCloseTo(b.majorUm, digits)
  expect(fit.minorUm).toBeCloseTo(b.minorUm, digits)
  expect(fit.azimuthRad).toBeCloseTo(b.azimuthRad, digits)
  expect(fit.centreXUm).toBeCloseTo(b.xUm, digits)
  expect(fit.centreYUm).toBeCloseTo(b.yUm, digits)
}

describe('a fitted image', () => {
  test.each([
    ['in the middle', BEAM],
    [
      'turned the other way, near a corner that cuts its square',
      { ...BEAM, azimuthRad: -60 * DEG, xUm: 6, yUm: 16.2 },
    ],
    ['near the corner across', { ...BEAM, xUm: 19.4, yUm: 4.4 }],
  ])('gives the beam that was put in, %s', (_, b) => {
    const fit = fitImageGaussian(imageOf(b), near(b))
    expectBeam(fit, b)
    expect(fit.amplitude).toBeCloseTo(900, 4)
    expect(fit.background).toBeCloseTo(40, 4)
    expect(fit.residualRms).toBeLessThan(1e-8)
    const { residualMap: map } = fit
    expect(map.stepUm).toBe(0.5)
    expect(map.values.length).toBe(map.width * map.height)
    // The square reaches 1.25 major widths of the moments from their centre, or to the edge of the image.
    const half = 1.25 * 1.1 * 8
    const [fromX, fromY] = [Math.max(0, b.xUm + 0.2 - half), Math.max(0, b.yUm - 0.1 - half)]
    const [toX, toY] = [Math.min(23.5, b.xUm + 0.2 + half), Math.min(19.5, b.yUm - 0.1 + half)]
    expect([map.xUm, map.yUm]).toEqual([Math.floor(2 * fromX) / 2, Math.floor(2 * fromY) / 2])
    expect(map.xUm + (map.width - 1) * 0.5).toBe(Math.ceil(2 * toX) / 2)
    expect(map.yUm + (map.height - 1) * 0.5).toBe(Math.ceil(2 * toY) / 2)
  })

  test('keeps what the Gaussian lacks in its residual map, data less fit, at its place and relative to the peak', () => {
    const fit = fitImageGaussian(
      imageOf(BEAM, (x, y) => (x === 30 && y === 12 ? 90 : 0)),
      near(BEAM),
    )
    const { residualMap: map } = fit
    const at = (xUm: number, yUm: number) =>
      map.values[
        Math.round((yUm - map.yUm) / map.stepUm) * map.width + Math.round((xUm - map.xUm) / map.stepUm)
      ]
    expect(at(15, 6)).toBeCloseTo(0.1, 2)
    expect(at(14.5, 6)).toBeLessThan(0.01)
    expect(map.values.reduce((sum, value) => sum + Math.abs(value), 0)).toBeLessThan(1)
  })

  test('of a large beam is averaged in blocks, in their middles, and its width is corrected for them', () => {
    const large = { ...BEAM, width: 261, height: 243, pixelUm: 0.05, xUm: 6.5, yUm: 6.1 }
    const fit = fitImageGaussian(imageOf(large), near(large))
    expectBeam(fit, large, 3)
    const { residualMap: map } = fit
    // 261 × 243 pixels all within the square: more than 40 000, a quarter of them is not.
    expect([map.width, map.height, map.stepUm]).toEqual([130, 121, 0.1])
    expect([map.xUm, map.yUm]).toEqual([expect.closeTo(0.025, 12), expect.closeTo(0.025, 12)])
    const { width, pixels } = imageOf(large)
    const block =
      [0, 1, width, width + 1].reduce((sum, k) => sum + (pixels[2 * 60 * width + 2 * 66 + k] ?? 0), 0) / 4
    const [x, y] = [map.xUm + 66 * 0.1, map.yUm + 60 * 0.1]
    // The fitted Gaussian itself is as much wider as the blocks blur it: (s² − p²)/12 more of ⟨x²⟩, of which the diameters' squares are 16.
    const wide = (um: number) => Math.sqrt(um ** 2 + (4 / 3) * (0.1 ** 2 - 0.05 ** 2))
    const fitted = {
      ...large,
      ...{ majorUm: wide(fit.majorUm), minorUm: wide(fit.minorUm), azimuthRad: fit.azimuthRad },
      ...{ xUm: fit.centreXUm, yUm: fit.centreYUm },
    }
    const expected = (block - fit.background) / fit.amplitude - shapeAt(fitted, x, y)
    expect(map.values[60 * 130 + 66]).toBeCloseTo(expected, 9)
  })

  test('that is no single beam is refused', () => {
    const pit = imageOf(BEAM)
    const negative = { ...pit, pixels: Float64Array.from(pit.pixels, (value) => 1000 - value) }
    expect(() => fitImageGaussian(negative, near(BEAM))).toThrow(/not described by a Gaussian/)
  })
})

describe('cuts through the fitted centre', () => {
  // Cubic convolution of third order is exact for quadratic functions (R. G. Keys, IEEE Trans. Acoust. Speech Signal Process. 29 (1981) 1153).
  const surface = (x: number, y: number) => 3 + 0.7 * x - 0.4 * y + 0.05 * x * x - 0.03 * y * y + 0.02 * x * y
  const quadratic: ImageInput = {
    ...{ width: 48, height: 40, pixelUm: 0.5 },
    pixels: Float64Array.from({ length: 48 * 40 }, (_, k) => surface(k % 48, Math.floor(k / 48))),
  }
  const fit = {
    ...{ majorUm: 8, minorUm: 5, azimuthRad: 25 * DEG },
    ...{ amplitude: 4, background: 1.5 },
  } as ImageGaussian

  test.each([
    [11.3, 9.1],
    [20.6, 15.4],
    [2.2, 3.1],
  ])(
    'run along its own axes, 1.5 widths either way where the image goes that far, about (%s, %s)',
    (cx, cy) => {
      const [major, minor] = lineCuts(quadratic, { ...fit, centreXUm: cx, centreYUm: cy })
      expect([major.axis, minor.axis]).toEqual(['major', 'minor'])
      for (const [line, widthUm, angle] of [
        [major, 8, 25 * DEG],
        [minor, 5, 115 * DEG],
      ] as const) {
        const wanted = Array.from({ length: 201 }, (_, k) => 1.5 * widthUm * (k / 100 - 1)).filter((at) => {
          const [x, y] = [(cx + at * Math.cos(angle)) / 0.5, (cy + at * Math.sin(angle)) / 0.5]
          return x >= 1 && x < 46 && y >= 1 && y < 38
        })
        expect(line.positionUm.length).toBe(wanted.length)
        let farthest = 0
        wanted.forEach((at, i) => {
          const [x, y] = [(cx + at * Math.cos(angle)) / 0.5, (cy + at * Math.sin(angle)) / 0.5]
          farthest = Math.max(
            farthest,
            Math.abs((line.positionUm[i] ?? 0) - at),
            Math.abs((line.measured[i] ?? 0) - (surface(x, y) - 1.5) / 4),
            Math.abs((line.fitted[i] ?? 0) - Math.exp(-8 * (at / widthUm) ** 2)),
          )
        })
        expect(farthest).toBeLessThan(1e-9)
      }
    },
  )
})
