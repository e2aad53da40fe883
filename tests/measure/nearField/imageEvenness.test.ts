import { describe, expect, test } from 'vitest'
import { secondMomentWidths } from '../../../src/measure'
import {
  backgroundEvenness,
  backgroundPlane,
  withoutPlane,
} from '../../../src/measure/nearField/imageEvenness'
import type { Moments } from '../../../src/measure/nearField/imageMoments'
import { gaussianImage, randomSource } from '../support/synthetic'

const size = 120
/** A round beam of 20 pixels (1/e²) in the middle. */
const beam: Moments = { x: 60, y: 60, xx: 25, yy: 25, xy: 0, sum: 1 }

/** Background of noise 1 about 100, and what `added` puts on top at a distance in beam widths. */
function evenness(added: (dx: number, dy: number, widths: number) => number) {
  const { normal } = randomSource(6)
  const pixels = Float64Array.from({ length: size * size }, (_, k) => {
    const [dx, dy] = [(k % size) - beam.x, Math.floor(k / size) - beam.y]
    return 100 + normal() + added(dx, dy, Math.hypot(dx, dy) / 20)
  })
  return backgroundEvenness({ pixels, width: size, height: size }, beam, 100, 1)
}

describe('evenness of the background around a beam', () => {
  test('noise alone is not seen', () => {
    const even = evenness(() => 0)
    expect(even).toMatchObject({ isSkirt: false, isSeen: false })
    expect(even.unevenCounts).toBeLessThan(0.1)
  })

  test('a ring of 0.8 counts between 1.2 and 1.5 widths is a skirt of 0.8 counts', () => {
    // 1,018 pixels of noise 1: the mean of the ring is known to 0.03.
    const skirt = evenness((_x, _y, widths) => (widths > 1.2 && widths <= 1.5 ? 0.8 : 0))
    expect(skirt).toMatchObject({ isSkirt: true, isSeen: true })
    expect(skirt.unevenCounts).toBeGreaterThan(0.7)
    expect(skirt.unevenCounts).toBeLessThan(0.9)
  })

  test('a ring that is darker is seen, but is no skirt', () => {
    const dark = evenness((_x, _y, widths) => (widths > 1.2 && widths <= 1.5 ? -0.8 : 0))
    expect(dark).toMatchObject({ isSkirt: false, isSeen: true })
    expect(dark.unevenCounts).toBeGreaterThan(0.7)
  })

  test('half of the surroundings 0.5 counts above the level and half below is 0.5 counts uneven', () => {
    const halves = evenness((dx, _y, widths) => (widths > 1.5 ? 0.5 * Math.sign(dx || 1) : 0))
    expect(halves).toMatchObject({ isSkirt: false, isSeen: true })
    expect(halves.unevenCounts).toBeGreaterThan(0.45)
    expect(halves.unevenCounts).toBeLessThan(0.55)
  })

  test('pixels further than six times the noise from the level, such as a hot one, are ignored', () => {
    const hot = evenness((dx, dy) => (dx === 30 && dy === 30 ? 5000 : 0))
    expect(hot).toEqual(evenness((dx, dy) => (dx === 30 && dy === 30 ? 4000 : 0)))
    expect(hot.isSeen).toBe(false)
  })
})

describe('uneven counts by the formulas of G. Schwarz, Ann. Statist. 6 (1978) 461, pixel by pixel', () => {
  // Variances of 25 and 12 along axes turned by 20°, off the middle; distances in beam widths of that ellipse.
  const [cos, sin] = [Math.cos(Math.PI / 9), Math.sin(Math.PI / 9)]
  const turned: Moments = {
    ...{ x: 57.3, y: 62.8, sum: 1 },
    ...{ xx: 25 * cos ** 2 + 12 * sin ** 2, yy: 25 * sin ** 2 + 12 * cos ** 2, xy: 13 * cos * sin },
  }
  const places = Array.from({ length: size * size }, (_, k) => {
    const [dx, dy] = [(k % size) - turned.x, Math.floor(k / size) - turned.y]
    const widths = Math.hypot((cos * dx + sin * dy) / 20, (cos * dy - sin * dx) / (4 * Math.sqrt(12)))
    const turn = Math.atan2(dy, dx) / (2 * Math.PI)
    return { widths, sector: Math.floor(12 * (turn < 0 ? turn + 1 : turn)) }
  })
  const weight = (ratio: number, count: number) => 1 / (1 + Math.sqrt(count) * Math.exp(-ratio / 2))

  function both(sectors: readonly number[], skirt: number, noise: number) {
    const pixels = places.map(({ widths, sector }) =>
      widths > 1.5 ? 80 + sectors[sector]! : widths > 1.2 ? 80 + skirt : 80 + 100 * noise,
    )
    const counts = sectors.map((_, s) => places.filter((p) => p.widths > 1.5 && p.sector === s).length)
    const ring = places.filter(({ widths }) => widths > 1.2 && widths <= 1.5).length
    const square = sectors.reduce((sum, mean, s) => sum + counts[s]! * mean ** 2, 0)
    const ratio = Math.max(1, square / (12 * noise ** 2))
    const excess = Math.max(0, square - 12 * noise ** 2) / counts.reduce((sum, count) => sum + count, 0)
    const ofSectors = weight(12 * (ratio - 1 - Math.log(ratio)), 12) * excess
    const ofRing = weight(ring * (skirt / noise) ** 2, ring) * Math.max(0, skirt ** 2 - noise ** 2 / ring)
    return {
      found: backgroundEvenness({ pixels, width: size, height: size }, turned, 80, noise),
      uneven: Math.sqrt(ofSectors + ofRing),
      ofSectors,
      ofRing,
    }
  }
  // Of 600 pixels and more a mean is known to 0.04 of their noise.
  const faint = [0.03, -0.02, 0.06, -0.05, 0.01, 0.04, -0.06, 0.05, -0.03, 0.02, 0.07, -0.04]

  test.each([
    ['sectors that chance alone would hardly leave', faint, 0.001, 1],
    ['the same with less noise: certain', faint, 0.001, 0.1],
    ['sectors within chance', faint.map((each) => each / 3), 0.001, 1],
    ['a ring that may be chance', faint.map(() => 0.001), 0.09, 1],
    ['a darker ring that may be chance', faint.map(() => 0.001), -0.11, 1],
    ['both', faint, 0.12, 1],
  ])('%s', (_, sectors, skirt, noise) => {
    const { found, uneven } = both(sectors, skirt, noise)
    expect(found.unevenCounts).toBeCloseTo(uneven, 9)
  })

  test('are a skirt where the ring is brighter, by 2.5 deviations and by more than the sectors', () => {
    // 470 pixels: the mean of the ring is known to 0.046.
    const level = faint.map(() => 0.001)
    const ringed = (skirt: number, sectors = level) => both(sectors, skirt, 1).found
    expect(ringed(0.14)).toMatchObject({ isSkirt: true, isSeen: true })
    expect(ringed(0.09)).toMatchObject({ isSkirt: false, isSeen: false })
    expect(ringed(-0.14)).toMatchObject({ isSkirt: false, isSeen: true })
    expect(
      ringed(
        0.14,
        faint.map((each) => 10 * each),
      ),
    ).toMatchObject({ isSkirt: false, isSeen: true })
  })

  test('of sectors are seen from four deviations of their sum of squares: 12 + 4 sqrt(24)', () => {
    const count = places.filter(({ widths }) => widths > 1.5).length
    const ofSum = (sum: number) =>
      both(
        faint.map(() => Math.sqrt(sum / count)),
        0,
        1,
      ).found
    expect(ofSum(12 + 4.2 * Math.sqrt(24)).isSeen).toBe(true)
    expect(ofSum(12 + 3.8 * Math.sqrt(24)).isSeen).toBe(false)
  })

  test('without noise are certain, and level pixels are level', () => {
    expect(
      both(
        faint.map(() => 0),
        0,
        0,
      ).found,
    ).toEqual({ unevenCounts: 0, isSkirt: false, isSeen: false })
  })
})

test('the budget of a width is the sum over the pixels of the aperture, along the axis of that width', () => {
  const image = gaussianImage({
    size: 200,
    pixelUm: 0.2,
    majorUm: 9,
    minorUm: 6,
    azimuthDeg: 0,
    peak: 50_000,
    background: 300,
    noise: 20,
    normal: randomSource(11).normal,
  })
  const result = secondMomentWidths(image)
  const [a, b] = [22.5, 15] // half widths (1/e²) in pixels
  const sum = (50_000 * Math.PI * a * b) / 2
  for (const [budget, along, across] of [
    [result.budget.major, a, b],
    [result.budget.minor, b, a],
  ] as const) {
    const variance = (along / 2) ** 2
    let first = 0
    let second = 0
    let corners = 0
    for (let u = -1.5 * 2 * along + 0.5; u < 3 * along; u++) {
      for (let v = -3 * across + 0.5; v < 3 * across; v++) {
        first += u * u - variance
        second += (u * u - variance) ** 2
        if (Math.hypot(u / (3 * along), v / (3 * across)) > 1) corners += u * u - variance
      }
    }
    const toWidthUm = (2 * along * 0.2) / (2 * variance)
    const part = (source: string) => budget.contributions.find((each) => each.source === source)!
    const level = part('background level')
    // Corners of the aperture are pixels of the background as well: the sum over pixels of (c - first / N)^2, less that of c^2.
    const pixels = level.degreesOfFreedom + 1
    const net = (first * first - 2 * first * corners) / pixels
    expect(level.standardUm / ((result.backgroundNoise * Math.sqrt(net) * toWidthUm) / sum)).toBeCloseTo(1, 1)
    const noise = part('pixel noise').standardUm
    expect(noise / ((result.backgroundNoise * Math.sqrt(second) * toWidthUm) / sum)).toBeCloseTo(1, 1)
  }
})

describe('a plane in the background', () => {
  const { normal } = randomSource(8)
  const noise = Float64Array.from({ length: size * size }, normal)
  const sloped = (x: number, y: number) => ({
    ...{ width: size, height: size },
    pixels: noise.map((value, k) => {
      const [i, j] = [k % size, Math.floor(k / size)]
      const light = 500 * Math.exp(-((i - beam.x) ** 2 + (j - beam.y) ** 2) / 50)
      return 100 + value + light + x * (i - beam.x) + y * (j - beam.y)
    }),
  })

  test('is found with the slopes that were put in, and not where there are none', () => {
    const plane = backgroundPlane(sloped(0.03, -0.05), beam)
    // 12 000 pixels of noise 1 over 120 pixels: a slope is known to 1 / (35 sqrt 12 000) = 0.0003.
    expect(Math.abs((plane?.x ?? 0) - 0.03)).toBeLessThan(0.0012)
    expect(Math.abs((plane?.y ?? 0) + 0.05)).toBeLessThan(0.0012)
    expect(backgroundPlane(sloped(0, 0), beam)).toBeNull()
  })

  test('is exact without noise, also where the beam hides a corner and so couples both slopes', () => {
    const cornered: Moments = { ...beam, x: 95, y: 90, xx: 100, yy: 64 }
    const pixels = Float64Array.from(
      { length: size * size },
      (_, k) => 100 + 0.03 * (k % size) - 0.05 * Math.floor(k / size),
    )
    const plane = backgroundPlane({ pixels, width: size, height: size }, cornered)
    expect(plane?.x).toBeCloseTo(0.03, 9)
    expect(plane?.y).toBeCloseTo(-0.05, 9)
  })

  test.each([
    [1, 0],
    [0, -1],
    [0.6, 0.9],
  ])('is seen from four deviations on: along (%s, %s)', (along, down) => {
    const clear = noise.map((value) => 100 + value)
    const isOut = (k: number) => Math.hypot((k % size) - beam.x, Math.floor(k / size) - beam.y) > 30
    /** Sum of squares that the fitted plane explains, and variance of what it leaves, by the normal equations. */
    const explained = (pixels: Float64Array) => {
      const out = Array.from(pixels.keys()).filter(isOut)
      const meanOf = (of: (k: number) => number) => out.reduce((sum, k) => sum + of(k), 0) / out.length
      const [x, y, v] = [
        (k: number) => k % size,
        (k: number) => Math.floor(k / size),
        (k: number) => pixels[k] ?? 0,
      ]
      const [mx, my, mv] = [meanOf(x), meanOf(y), meanOf(v)]
      const product = (a: (k: number) => number, b: (k: number) => number) =>
        meanOf((k) => a(k) * b(k)) * out.length
      const [dx, dy, dv] = [(k: number) => x(k) - mx, (k: number) => y(k) - my, (k: number) => v(k) - mv]
      const [xx, xy, yy, xv, yv] = [
        product(dx, dx),
        product(dx, dy),
        product(dy, dy),
        product(dx, dv),
        product(dy, dv),
      ]
      const determinant = xx * yy - xy * xy
      const gain = (xv * (yy * xv - xy * yv) + yv * (xx * yv - xy * xv)) / determinant
      return gain / ((product(dv, dv) - gain) / out.length)
    }
    const tilted = (slope: number) =>
      clear.map(
        (value, k) =>
          value + slope * (along * ((k % size) - beam.x) + down * (Math.floor(k / size) - beam.y)),
      )
    let [low, high] = [0, 0.1]
    for (let i = 0; i < 14; i++) {
      const middle = (low + high) / 2
      if (explained(tilted(middle)) < 16) low = middle
      else high = middle
    }
    const view = { width: size, height: size }
    expect(backgroundPlane({ ...view, pixels: tilted(0.98 * low) }, beam)).toBeNull()
    expect(backgroundPlane({ ...view, pixels: tilted(1.02 * high) }, beam)).not.toBeNull()
  })

  test('is taken away about the centroid of the beam', () => {
    const image = withoutPlane(sloped(0.03, -0.05), beam, { x: 0.03, y: -0.05 })
    const level = sloped(0, 0).pixels
    const farthest = level.reduce(
      (most, value, k) => Math.max(most, Math.abs((image.pixels[k] ?? 0) - value)),
      0,
    )
    expect(farthest).toBeLessThan(1e-9)
  })
})
