import { describe, expect, test } from 'vitest'
import type { Moments } from '../../../src/measure/nearField/imageMoments'
import { quantisedMoments, roundingStandard } from '../../../src/measure/nearField/quantisedMoments'

const [WIDTH, HEIGHT] = [72, 60]
/** Variances of 36 and 20 along axes turned by 30°, off the middle. */
const BEAM: Moments = {
  ...{ x: 33.4, y: 31.7, sum: 1 },
  ...{ xx: 36 * 0.75 + 20 * 0.25, yy: 36 * 0.25 + 20 * 0.75, xy: 16 * 0.25 * Math.sqrt(3) },
}
const shape = (x: number, y: number, b = BEAM) => {
  const determinant = b.xx * b.yy - b.xy ** 2
  const [dx, dy] = [x - b.x, y - b.y]
  return Math.exp(-(b.yy * dx * dx - 2 * b.xy * dx * dy + b.xx * dy * dy) / (2 * determinant))
}
const image = (of: (x: number, y: number) => number) => ({
  ...{ width: WIDTH, height: HEIGHT },
  pixels: Float64Array.from({ length: WIDTH * HEIGHT }, (_, k) => of(k % WIDTH, Math.floor(k / WIDTH))),
})
const start: Moments = { ...BEAM, x: 33, y: 32, xx: 30, yy: 26, xy: 5 }

describe('moments of a beam whose wings are those of a fitted Gaussian', () => {
  test('are those of the beam itself where it is a Gaussian, light in the wings included', () => {
    const found = quantisedMoments(
      image((x, y) => 2.4 + 150 * shape(x, y)),
      start,
      2,
      148,
    )
    expect(found?.background).toBeCloseTo(2.4, 6)
    const expected = { ...BEAM, sum: 150 * 2 * Math.PI * Math.sqrt(36 * 20) }
    // The sum over pixels within the ellipse stands for the integral over it, to about a pixel of its rim.
    for (const key of ['x', 'y', 'xx', 'yy', 'xy', 'sum'] as const)
      expect((found?.beam[key] ?? 0) / expected[key], key).toBeCloseTo(1, 2)
  })

  test('follow what is measured inside: a skewed beam has its own centroid, not that of the Gaussian', () => {
    const skewed = (x: number, y: number) =>
      150 * shape(x, y) * (1 + 0.02 * (x - BEAM.x) - 0.012 * (y - BEAM.y))
    const found = quantisedMoments(
      image((x, y) => 2 + skewed(x, y)),
      start,
      2,
      150,
    )
    // The centroid of f (1 + a·r) is ⟨r r⟩ a from that of f.
    const [dx, dy] = [0.02 * BEAM.xx - 0.012 * BEAM.xy, 0.02 * BEAM.xy - 0.012 * BEAM.yy]
    expect((found?.beam.x ?? 0) - BEAM.x).toBeCloseTo(dx, 1)
    expect((found?.beam.y ?? 0) - BEAM.y).toBeCloseTo(dy, 1)
    expect(found?.beam.xx).toBeCloseTo(BEAM.xx - dx * dx, 0)
    expect(found?.beam.yy).toBeCloseTo(BEAM.yy - dy * dy, 0)
    expect(found?.beam.xy).toBeCloseTo(BEAM.xy - dx * dy, 0)
  })

  test('are none of a beam that is lower than three counts times e, or smaller than 50 pixels', () => {
    const faint = image((x, y) => 2 + 8 * shape(x, y))
    expect(quantisedMoments(faint, start, 2, 8)).toBeNull()
    const small: Moments = { ...BEAM, xx: 2, yy: 2, xy: 0 }
    // Radius 1.4 w = 1.4 · 2 sqrt 2 pixels: 49 of them.
    const tiny = image((x, y) => 2 + 150 * shape(x, y, small))
    expect(quantisedMoments(tiny, small, 2, 3 * Math.exp(2 * 1.3 ** 2))).toBeNull()
    expect(quantisedMoments(tiny, small, 2, 3 * Math.exp(2 * 1.6 ** 2))).not.toBeNull()
  })
})

test('a tenth of the moment in the wings below three counts is in doubt, half of it in the width', () => {
  // Outside ρ² = p²: share e^(−2p²) of the power with (1 + 2p²) of its moment; e^(−2p²) = 3 / peak.
  for (const peak of [30, 255, 4000]) {
    const p2 = Math.log(peak / 3) / 2
    expect(roundingStandard(peak)).toBeCloseTo((0.1 * Math.exp(-2 * p2) * (1 + 2 * p2)) / 2, 12)
  }
  expect(roundingStandard(2)).toBeCloseTo(0.05, 12)
})
