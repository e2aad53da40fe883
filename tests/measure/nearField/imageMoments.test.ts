// Moments in an aperture against sums over all pixels in two passes (first the centroid, then the squares about it).

import { describe, expect, test } from 'vitest'
import {
  apertureLeavesImage,
  type Moments,
  momentsInAperture,
} from '../../../src/measure/nearField/imageMoments'

const [WIDTH, HEIGHT, LEVEL] = [40, 30, 7]
/** A turned, skewed beam off the middle, on a level of 7. */
const PIXELS = Float64Array.from({ length: WIDTH * HEIGHT }, (_, k) => {
  const [x, y] = [(k % WIDTH) - 21.3, Math.floor(k / WIDTH) - 13.6]
  const [u, v] = [0.8 * x + 0.6 * y, 0.8 * y - 0.6 * x]
  return LEVEL + 100 * Math.exp(-((u / 5) ** 2) - (v / 3) ** 2) * (1 + 0.05 * u)
})
const IMAGE = { pixels: PIXELS, width: WIDTH, height: HEIGHT }

function twoPass(isIn: (x: number, y: number) => boolean) {
  const inside = Array.from(PIXELS, (value, k) => ({
    ...{ x: k % WIDTH, y: Math.floor(k / WIDTH), value: value - LEVEL },
  })).filter(({ x, y }) => isIn(x, y))
  const total = inside.reduce((sum, { value }) => sum + value, 0)
  const meanOf = (of: (x: number, y: number) => number) =>
    inside.reduce((sum, { x, y, value }) => sum + value * of(x, y), 0) / total
  const [x, y] = [meanOf((px) => px), meanOf((_, py) => py)]
  return {
    ...{ x, y, sum: total },
    xx: meanOf((px) => (px - x) ** 2),
    yy: meanOf((_, py) => (py - y) ** 2),
    xy: meanOf((px, py) => (px - x) * (py - y)),
  }
}

function expectMoments(found: Moments, expected: Moments): void {
  for (const key of ['x', 'y', 'xx', 'yy', 'xy', 'sum'] as const)
    expect(found[key] / expected[key], key).toBeCloseTo(1, 9)
}

describe('moments of an image', () => {
  // The aperture is centred beside the beam, so that the centroid lies away from it.
  const about: Moments = { x: 19, y: 15, xx: 16, yy: 9, xy: 0, sum: 1 }

  test('in an aperture that holds all of it are those of all pixels', () => {
    expectMoments(
      momentsInAperture(IMAGE, LEVEL, about, 100),
      twoPass(() => true),
    )
  })

  test('in a smaller aperture are those of the pixels in its rectangle', () => {
    // D4σ widths 16 and 12: half lengths of 8 and 6 at one width.
    const expected = twoPass((x, y) => Math.abs(x - 19) <= 8 && Math.abs(y - 15) <= 6)
    expectMoments(momentsInAperture(IMAGE, LEVEL, about, 1), expected)
  })

  test('in a turned aperture are those of the pixels in the turned rectangle', () => {
    // Equal moments and a cross moment of 7: the axes lie at 45°, with variances 19 and 5.
    const turned = { ...about, xx: 12, yy: 12, xy: 7 }
    const [long, short] = [2 * Math.sqrt(19), 2 * Math.sqrt(5)]
    const expected = twoPass((x, y) => {
      const [along, across] = [(x - 19 + y - 15) / Math.SQRT2, (y - 15 - x + 19) / Math.SQRT2]
      return Math.abs(along) <= long && Math.abs(across) <= short
    })
    expectMoments(momentsInAperture(IMAGE, LEVEL, turned, 1), expected)
  })
})

test('an aperture leaves the image where the ellipse of the beam reaches past an edge', () => {
  // Semi-axes of 8 and 6 pixels at one width: 0 to 39 and 0 to 29 are inside.
  const leaves = (x: number, y: number) =>
    apertureLeavesImage(IMAGE, { x, y, xx: 16, yy: 9, xy: 0, sum: 1 }, 1)
  expect([leaves(8.01, 15), leaves(30.99, 15), leaves(20, 6.01), leaves(20, 22.99)]).toEqual([
    false,
    false,
    false,
    false,
  ])
  expect([leaves(7.9, 15), leaves(31.1, 15), leaves(20, 5.9), leaves(20, 23.1)]).toEqual([
    true,
    true,
    true,
    true,
  ])
})
