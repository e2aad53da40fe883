// The dark level of small images, pixel by pixel: which are counted, which left out, and when rounding exceeds the noise.

import { describe, expect, test } from 'vitest'
import { backgroundOutside, frameBackground } from '../../../src/measure/nearField/imageBackground'
import type { Moments } from '../../../src/measure/nearField/imageMoments'

const view = (width: number, height: number, of: (x: number, y: number, k: number) => number) => ({
  ...{ width, height },
  pixels: Float64Array.from({ length: width * height }, (_, k) => of(k % width, Math.floor(k / width), k)),
})
/** Counts of 100 to 104 in turn, 1000 where there is light. */
const dark = (k: number) => 100 + ((k * 7) % 5)
const meanOf = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length

describe('the frame along the border', () => {
  // 4 % of the shorter side: 2 of 50 pixels.
  const image = view(90, 50, (x, y, k) => (x < 2 || y < 2 || x >= 88 || y >= 48 ? dark(k) : 1000))

  test('is 4 % of the shorter side wide on every side', () => {
    const frame = frameBackground(image)
    const counted = Array.from(image.pixels).filter((value) => value < 1000)
    expect(frame.pixelCount).toBe(90 * 50 - 86 * 46)
    expect(frame.level).toBeCloseTo(meanOf(counted), 12)
    expect(frame).toMatchObject({ sampled: 1, isRounded: false, zeroShare: 0 })
    // Counts of 100 to 104, as many of each: the median distance from 102 is 1, 1.4826 of a normal's deviation.
    expect(frame.noise).toBeCloseTo(1.4826, 4)
  })

  test('is one pixel wide at least', () => {
    expect(frameBackground(view(6, 5, (_x, _y, k) => k)).pixelCount).toBe(2 * 6 + 2 * 3)
  })
})

describe('what lies outside the ellipse of a beam', () => {
  // Variances of 36 and 9 along axes turned by 30°: D4σ of 24 and 12, semi-axes of 12 and 6 at one width.
  const turned: Moments = {
    ...{ x: 31, y: 22, sum: 1 },
    xx: 36 * 0.75 + 9 * 0.25,
    yy: 36 * 0.25 + 9 * 0.75,
    xy: (36 - 9) * 0.5 * Math.sqrt(0.75),
  }
  const isOut = (x: number, y: number, scale: number) => {
    const [dx, dy] = [x - 31, y - 22]
    const [along, across] = [Math.sqrt(0.75) * dx + dy / 2, Math.sqrt(0.75) * dy - dx / 2]
    return (along / (12 * scale)) ** 2 + (across / (6 * scale)) ** 2 > 1
  }

  test.each([1, 1.6])('at %s beam widths is counted, and nothing else', (scale) => {
    const image = view(64, 48, (x, y, k) => (isOut(x, y, scale) ? dark(k) : 1000))
    const counted = Array.from(image.pixels).filter((value) => value < 1000)
    const outside = backgroundOutside(image, turned, scale)
    expect(outside.pixelCount).toBe(counted.length)
    expect(outside.level).toBeCloseTo(meanOf(counted), 12)
  })

  test('less hot pixels and dust, beyond five deviations of the others on either side', () => {
    // Deviation 1.4826: 7.4 counts about 102.
    const odd = new Map([
      [3, 110],
      [700, 109],
      [1500, 95],
      [2000, 94],
    ])
    const image = view(64, 48, (x, y, k) => (isOut(x, y, 1) ? (odd.get(k) ?? dark(k)) : 1000))
    const all = Array.from(image.pixels).filter((value) => value < 1000)
    const outside = backgroundOutside(image, turned, 1)
    expect(outside.pixelCount).toBe(all.length - 2)
    expect(outside.level).toBeCloseTo(meanOf(all.filter((value) => value > 94 && value < 110)), 12)
  })

  test('is nothing where the beam fills the image', () => {
    const none = { level: 0, noise: 0, pixelCount: 0, sampled: 1, isRounded: false, zeroShare: 0 }
    expect(
      backgroundOutside(
        view(20, 20, () => 7),
        { ...turned, x: 10, y: 10 },
        9,
      ),
    ).toEqual(none)
  })
})

test('of an image with more than 50 000 pixels every other one is looked at', () => {
  const large = frameBackground(view(400, 260, (x, _y, k) => (x % 2 === 0 ? dark(k) : 900)))
  // Borders of 10 pixels: half of the frame's.
  expect(large.pixelCount).toBe((400 * 260 - 380 * 240) / 2)
  expect(large.sampled).toBe(0.5)
  expect(large.level).toBeLessThan(105)
  expect(frameBackground(view(250, 200, (_x, _y, k) => dark(k))).sampled).toBe(1)
})

describe('a background of whole counts', () => {
  const rounded = (of: (k: number) => number) => frameBackground(view(40, 40, (_x, _y, k) => of(k)))

  test('that are one and the same but for a few next to it is rounded', () => {
    expect(rounded((k) => (k % 20 === 0 ? 8 : 7))).toMatchObject({ isRounded: true, noise: 0 })
    // Nothing is an outlier where there is no spread: the mean is that of all.
    expect(rounded((k) => (k % 20 === 0 ? 8 : 7)).level).toBeCloseTo(7 + 44 / 304, 12)
    expect(rounded((k) => (k % 20 === 0 ? 6 : 7)).isRounded).toBe(true)
  })

  test('is not where one in eight is farther off, where there is a spread, or where counts are no whole numbers', () => {
    expect(rounded((k) => (k % 8 === 0 ? 9 : 7)).isRounded).toBe(false)
    expect(rounded((k) => (k % 8 === 0 ? 5 : 7)).isRounded).toBe(false)
    expect(rounded((k) => 6 + (k % 3)).isRounded).toBe(false)
    expect(rounded((k) => (k % 20 === 0 ? 7.5 : 7)).isRounded).toBe(false)
  })

  test('counts its zeros', () => {
    const image = view(10, 4, (x) => (x < 5 ? 0 : 3))
    // Rows of ten at the top and the bottom, half of each dark; two sides of two pixels, one of each dark.
    expect(frameBackground(image).zeroShare).toBe(0.5)
    expect(frameBackground(view(10, 4, (x) => (x < 2 ? 0 : 3))).zeroShare).toBe(6 / 24)
  })
})
