import { describe, expect, test } from 'vitest'
import { knifeEdgeWidth } from '../../../src/measure/nearField/knifeEdge'
import type { SecondMomentResult } from '../../../src/measure/nearField/secondMomentWidths'

const moments = (xUm: number, yUm: number, majorUm: number, background = 0) =>
  ({ centroidXUm: xUm, centroidYUm: yUm, majorUm, background }) as SecondMomentResult

/** Light in single pixels, on a level of 5. */
function spots(
  width: number,
  height: number,
  pixelUm: number,
  lights: readonly (readonly [number, number, number])[],
) {
  const pixels = new Float64Array(width * height).fill(5)
  for (const [x, y, light] of lights) pixels[y * width + x] = 5 + light
  return { ...{ width, height, pixelUm }, pixels }
}

describe('the travel of an edge', () => {
  // Pixels of 0.5 µm, quarter pixels between which the light of one is spread evenly: 100 in column 4 and in column 12,
  // so that 10 % is passed a fifth into the quarter of the first, 90 % four fifths into that of the last.
  const two = spots(17, 9, 0.5, [
    [4, 4, 100],
    [12, 4, 100],
  ])

  test.each([
    ['10-90', 0.1],
    ['16-84', 0.16],
    ['20-80', 0.2],
  ] as const)('from %s of the light of two pixels', (clip, share) => {
    const found = knifeEdgeWidth(two, moments(4, 2, 10, 5), 0, clip)
    const columns = 8 + (1 - 2 * share * 2) / 4
    expect(found.clip).toBe(clip)
    expect(found.travelUm).toBeCloseTo(0.5 * columns, 12)
    // Of a Gaussian of radius w the travel is twice the quantile of the share, times w / 2.
    const quantile = { '10-90': 1.2815515655, '16-84': 0.9944578832, '20-80': 0.8416212336 }[clip]
    expect(found.mfdUm).toBeCloseTo((2 * found.travelUm) / quantile, 8)
  })

  test('along a direction is that of the projected places', () => {
    const turned = spots(25, 25, 0.5, [
      [8, 6, 100],
      [16, 18, 100],
    ])
    const along = (direction: number) =>
      knifeEdgeWidth(turned, moments(6, 6, 10, 5), direction).travelUm / 0.5
    for (const direction of [0.3, Math.PI / 2, -0.4, 2])
      expect(
        Math.abs(along(direction) - Math.abs(8 * Math.cos(direction) + 12 * Math.sin(direction))),
      ).toBeLessThan(0.3)
  })

  test('counts the pixels within a square of three major widths about the centroid, edges included, and no others', () => {
    // Half side 1.5 · 4 µm = 12 pixels about (20, 18).
    const inner = [
      [20, 18, 100],
      [8, 18, 50],
      [32, 18, 50],
    ] as const
    const of = (more: readonly (readonly [number, number, number])[]) =>
      knifeEdgeWidth(spots(45, 40, 0.5, [...inner, ...more]), moments(10, 9, 4, 5), 0, '10-90').travelUm
    expect(of([])).toBeGreaterThan(11)
    expect(of([[7, 18, 1e4]])).toBe(of([]))
    expect(of([[33, 18, 1e4]])).toBe(of([]))
    expect(of([[20, 5, 1e4]])).toBe(of([]))
    expect(of([[20, 31, 1e4]])).toBe(of([]))
    expect(of([[20, 6, 1e4]])).toBeLessThan(1)
    expect(of([[20, 30, 1e4]])).toBeLessThan(1)
  })

  test('takes the image as far as it goes, first and last pixels included', () => {
    const edges = spots(9, 7, 1, [
      [0, 0, 100],
      [8, 6, 100],
    ])
    expect(knifeEdgeWidth(edges, moments(4, 3, 40, 5), 0).travelUm).toBeCloseTo(8 + (1 - 0.64) / 4, 12)
    expect(knifeEdgeWidth(edges, moments(4, 3, 40, 5), Math.PI / 2).travelUm).toBeCloseTo(
      6 + (1 - 0.64) / 4,
      12,
    )
  })

  test('without light above the background is refused', () => {
    expect(() => knifeEdgeWidth(two, moments(4, 2, 10, 50), 0)).toThrow(
      /net power of the image.*zero or negative/,
    )
  })
})
