// What the evaluation of an image says of it, with the sizes that were put in, and the parts of the budget that do not come of noise.

import { describe, expect, test } from 'vitest'
import { secondMomentWidths } from '../../../src/measure'
import { gaussianImage, randomSource } from '../support/synthetic'

const BEAM = {
  size: 160,
  pixelUm: 0.25,
  majorUm: 6,
  minorUm: 5,
  azimuthDeg: 0,
  peak: 20_000,
  background: 500,
}
type Image = ReturnType<typeof gaussianImage>

const noisy = (noise: number, more: object = {}) =>
  gaussianImage({ ...BEAM, noise, normal: randomSource(3).normal, ...more })

/** Counts added at a distance from the middle in widths of the ellipse, and at an angle around it. */
function added(image: Image, counts: (widths: number, around: number) => number): Image {
  const middle = (BEAM.size * BEAM.pixelUm) / 2
  const pixels = image.pixels.map((value, k) => {
    const [x, y] = [
      (k % BEAM.size) * BEAM.pixelUm - middle,
      Math.floor(k / BEAM.size) * BEAM.pixelUm - middle,
    ]
    return value + counts(Math.hypot(x / BEAM.majorUm, y / BEAM.minorUm), Math.atan2(y, x))
  })
  return { ...image, pixels }
}
const numberIn = (warnings: readonly string[], pattern: RegExp) =>
  Number(pattern.exec(warnings.join('\n'))?.[1])

describe('warnings', () => {
  test('of a level image are none', () => {
    expect(secondMomentWidths(noisy(15)).warnings).toEqual([])
  })

  test('say how strong a skirt is, in per cent of the peak', () => {
    const { warnings } = secondMomentWidths(
      added(noisy(4), (widths) => (widths > 1.1 && widths <= 1.6 ? 12 : 0)),
    )
    expect(warnings).toHaveLength(1)
    expect(numberIn(warnings, /weak skirt surrounds the beam \(([\d.]+) % of the peak\)/)).toBeCloseTo(
      0.06,
      2,
    )
  })

  test('say how uneven the surroundings are, in per cent of the peak', () => {
    // Four lobes have no slope: ± 10 of 20 000 counts, a thirtieth of the noise of one pixel in a mean of thousands.
    const { warnings } = secondMomentWidths(
      added(noisy(10), (widths, around) => (widths > 1.5 ? 30 * Math.sign(Math.sin(2 * around)) : 0)),
    )
    expect(numberIn(warnings, /background is uneven by ([\d.]+) % of the peak/)).toBeCloseTo(0.15, 2)
    expect(warnings.join()).not.toContain('skirt')
  })

  test('say how far the peak is above its noise, below twenty times', () => {
    const faint = { size: 200, pixelUm: 0.2, majorUm: 9, azimuthDeg: -35, peak: 300, background: 300 }
    const ratio = (noise: number) =>
      numberIn(
        secondMomentWidths(gaussianImage({ ...BEAM, ...faint, noise, normal: randomSource(8).normal }))
          .warnings,
        /peak is only (\d+) times/,
      )
    // The highest pixel is one to four deviations of the noise above the beam.
    expect(ratio(25)).toBeGreaterThanOrEqual(13)
    expect(ratio(25)).toBeLessThanOrEqual(16)
    expect(ratio(14)).toBeNaN()
  })

  test('tell a clipped beam from an image that is only too small for three widths, and count coarse pixels', () => {
    const side = (um: number) => secondMomentWidths(noisy(3, { size: um / BEAM.pixelUm })).warnings
    expect(side(20)).toEqual([])
    expect(side(15)).toEqual([expect.stringMatching(/smaller than the three beam widths that ISO 11146/)])
    expect(side(9)).toEqual([expect.stringMatching(/clipped and the widths are underestimated/)])
    const coarse = (pixelUm: number) =>
      numberIn(secondMomentWidths(noisy(3, { size: 60, pixelUm })).warnings, /minor width is ([\d.]+) pixels/)
    expect(coarse(1)).toBeCloseTo(5, 1)
    expect(coarse(0.8)).toBeNaN()
  })
})

describe('the budget of a width', () => {
  const parts = (image: Image, more: object = {}) => {
    const { budget, majorUm, minorUm } = secondMomentWidths({ ...image, ...more })
    const of = (axis: 'major' | 'minor', source: string) =>
      budget[axis].contributions.find((each) => each.source === source)?.standardUm ?? Number.NaN
    return { majorUm, minorUm, of }
  }

  test('takes the pixel scale in full and the linearity of the detector by half, on both axes', () => {
    const { majorUm, minorUm, of } = parts(noisy(15), { pixelScaleStandard: 0.01, linearityStandard: 0.02 })
    expect(of('major', 'pixel scale')).toBeCloseTo(0.01 * majorUm, 12)
    expect(of('minor', 'pixel scale')).toBeCloseTo(0.01 * minorUm, 12)
    expect(of('major', 'detector linearity')).toBeCloseTo(0.01 * majorUm, 12)
    expect(of('minor', 'detector linearity')).toBeCloseTo(0.01 * minorUm, 12)
    expect(parts(noisy(15)).of('major', 'pixel scale')).toBe(0)
  })

  test('of an uneven background is what as many counts under the whole aperture change the moment by', () => {
    const image = added(noisy(4), (widths) => (widths > 1.1 && widths <= 1.6 ? 12 : 0))
    const { majorUm, of } = parts(image)
    const percent = numberIn(secondMomentWidths(image).warnings, /\(([\d.]+) % of the peak\)/)
    // Half sides of 1.5 widths; light of π w² / 2 for each count of the peak; the integral of u² − ⟨u²⟩ over the rectangle.
    const [a, b] = [1.5 * majorUm, 1.5 * BEAM.minorUm]
    const power = (BEAM.peak * Math.PI * BEAM.majorUm * BEAM.minorUm) / 8
    const moment = ((percent / 100) * BEAM.peak * 4 * a * b * (a ** 2 / 3 - (majorUm / 4) ** 2)) / power
    // d = 4 sqrt m, so that its change is 8 / d times that of m.
    expect(of('major', 'uneven background') / ((8 * moment) / majorUm)).toBeCloseTo(1, 1)
  })
})

test('widths along the sides, ellipticity, level and peak are those that were put in, for a turned beam too', () => {
  const turned = secondMomentWidths(gaussianImage({ ...BEAM, azimuthDeg: 30 }))
  // Variances along the sides of a turned ellipse: a² cos² + b² sin².
  const along = (cos: number, sin: number) => Math.hypot(6 * cos, 5 * sin)
  const [cos, sin] = [Math.cos(Math.PI / 6), Math.sin(Math.PI / 6)]
  expect(turned.widthXUm).toBeCloseTo(along(cos, sin), 2)
  expect(turned.widthYUm).toBeCloseTo(along(sin, cos), 2)
  expect(turned.ellipticity).toBeCloseTo(5 / 6, 3)
  expect(turned.background).toBeCloseTo(500, 0)
  expect(Math.abs(turned.peak - 20_000)).toBeLessThan(50)
  expect(turned.centroidXUm).toBeCloseTo(20, 2)
})

test('images of fewer than four pixels on a side, or of other than whole numbers, are refused', () => {
  const image = {
    pixels: Float64Array.from({ length: 16 }, (_, i) => i % 5),
    width: 4,
    height: 4,
    pixelUm: 1,
  }
  const refusal = (more: object) => {
    try {
      secondMomentWidths({ ...image, ...more })
      return ''
    } catch (error) {
      return String(error)
    }
  }
  expect(refusal({ width: 3, pixels: new Float64Array(12) })).toMatch(
    /width is 3; must be a whole number from 4/,
  )
  expect(refusal({ height: 3, pixels: new Float64Array(12) })).toMatch(
    /height is 3; must be a whole number from 4/,
  )
  expect(refusal({ width: 4.5 })).toMatch(/width is 4.5/)
  expect(refusal({})).not.toMatch(/a whole number from 4/)
})
