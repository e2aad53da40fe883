// Capture range against the closed form, the cover of a search against brute force, and the climb.

import { describe, expect, test } from 'vitest'
import { captureArea, lateralOptimum } from '../../../src/analysis/firstLight/capture'
import { hillClimb } from '../../../src/analysis/firstLight/hillClimb'
import { rollCaptureRad, searchPlan } from '../../../src/analysis/firstLight/search'
import { unitPoints } from '../../../src/numerics/random/unitPoints'
import { jointLossDb } from '../../../src/optics'
import { captureRanges } from '../../support/captureRanges'
import { equalModes } from '../../support/equalModes'

/** Two round modes of one diameter, face to face. */
const STATION = {
  launchDbm: 0,
  detectorFloorDbm: -50,
  lateralUm: 50,
  axialUm: 10,
  tiltRad: 0.01,
  secondsPerPoint: 0.1,
}

test('30 dB of reserve at matched modes of MFD 10.4 µm capture 13.667 µm', () => {
  // Closed form: 4.342945 (x / w)^2 = 30 dB with w = 5.2 µm gives 13.667 µm.
  const own = equalModes(10.4)
  expect(jointLossDb(own)).toBeCloseTo(0, 9)
  const [x, y] = captureRanges(own, 30)
  for (const range of [x!, y!]) {
    expect(range.above).toBeCloseTo(5.2 * Math.sqrt(30 / 4.342944819), 6)
    expect(range.above).toBeCloseTo(13.667, 3)
    expect(range.below).toBeCloseTo(13.667, 3)
  }
})

describe('a search', () => {
  test('finds light wherever it is within the accuracy: brute force', () => {
    const own = equalModes(10.4)
    const { search, searchReserveDb } = searchPlan(own, 2, STATION)
    const { countX, countY, stepXUm, stepYUm } = search!
    const pose = { ...own, gapUm: 0 }
    expect(searchReserveDb).toBeLessThan(48)
    const points = unitPoints('random', 2, 3)
    const point = new Float64Array(2)
    let worstUm = 0
    for (let n = 0; n < 500; n++) {
      points.point(n, point)
      const [x, y] = [(2 * point[0]! - 1) * 50, (2 * point[1]! - 1) * 50]
      let nearest = Infinity
      for (let i = 0; i < countX; i++) {
        for (let j = 0; j < countY; j++) {
          const [px, py] = [(i - (countX - 1) / 2) * stepXUm, (j - (countY - 1) / 2) * stepYUm]
          nearest = Math.min(nearest, Math.hypot(px - x, py - y))
        }
      }
      worstUm = Math.max(worstUm, nearest)
    }
    expect(worstUm).toBeLessThanOrEqual(Math.min(search!.captureXUm, search!.captureYUm))
    expect(jointLossDb({ ...pose, offsetXUm: worstUm })).toBeLessThan(48)
    // One point fewer on each axis would leave holes.
    const fewer = 50 / (countX - 1)
    expect(Math.hypot(fewer, fewer)).toBeGreaterThan(search!.captureXUm)
  })

  test('by a spiral needs fewer points on average than by a raster, and as many at most', () => {
    const { search } = searchPlan(equalModes(3), 2, STATION)
    expect(search!.spiral.most).toBe(search!.raster.most)
    expect(search!.spiral.mean).toBeLessThan(0.7 * search!.raster.mean)
    expect(search!.raster.mean).toBeCloseTo((search!.raster.most + 1) / 2, 6)
  })

  test('is not there where the detector sees nothing even on axis, and refuses a million points', () => {
    expect(searchPlan(equalModes(10.4), 60, STATION).search).toBeNull()
    expect(() => searchPlan(equalModes(3), 2, { ...STATION, lateralUm: 20_000 })).toThrow('at most 1000000')
    expect(() => searchPlan(equalModes(3), 2, { ...STATION, lateralUm: 0 })).toThrow('above 0')
  })
})

test('the reserve is launch power less floor, other losses and the loss of the joint', () => {
  // 3 - (-40) - 2 = 41 dB at matched modes; of an offset of one radius, 4.342945 dB less.
  const station = { ...STATION, launchDbm: 3, detectorFloorDbm: -40, axialUm: 1e-6, tiltRad: 1e-9 }
  expect(searchPlan(equalModes(10.4), 2, station).reserveDb).toBeCloseTo(41, 6)
  const plan = searchPlan({ ...equalModes(10.4), offsetXUm: 5.2 }, 2, station)
  expect(plan.reserveDb).toBeCloseTo(41 - 4.342945, 5)
  // The search takes place at the lateral optimum.
  expect(plan.searchReserveDb).toBeCloseTo(41, 5)
})

test('nine points are taken by a spiral in the order of their probability, by hand', () => {
  // A capture range of 13.667 µm leaves 3 x 3 points for ± 25 µm, two standard deviations: a third of it holds
  // Φ(2/3) - Φ(-2/3) = 0.495015 in the middle and Φ(2) - Φ(2/3) = 0.229742 on either side (tabulated Φ). Middle first, then the four
  // sides, then the corners.
  const { search } = searchPlan(equalModes(10.4), 0, {
    ...STATION,
    detectorFloorDbm: -30,
    lateralUm: 25,
    axialUm: 1e-6,
    tiltRad: 1e-9,
  })
  expect([search!.countX, search!.countY]).toEqual([3, 3])
  expect(search!.stepXUm).toBeCloseTo(50 / 3, 9)
  const [m, s] = [0.495015, 0.229742]
  const mean = (m * m + m * s * (2 + 3 + 4 + 5) + s * s * (6 + 7 + 8 + 9)) / (m + 2 * s) ** 2
  expect(search!.spiral.mean).toBeCloseTo(mean, 4)
})

describe('the area about a search point', () => {
  test('of elliptic modes has the half axes of the closed form', () => {
    // 4.342945 (x / w)² = 20 dB with w of 5 and 3 µm.
    const oval = { ...equalModes(10), emitterMfdYUm: 6, receiverMfdYUm: 6 }
    const { captureXUm, captureYUm } = captureArea(oval, 20, jointLossDb)
    expect(captureXUm).toBeCloseTo(5 * Math.sqrt(20 / 4.342945), 4)
    expect(captureYUm).toBeCloseTo(3 * Math.sqrt(20 / 4.342945), 4)
  })

  test('shrinks until every direction of the ellipse sees light', () => {
    // Light within (|x| / 10)^0.9 + (|y| / 5)^0.9 = 1: of the sixteen directions that at 33.75° from an axis of the circle has
    // cos^0.9 + sin^0.9 = 1.43631, so that light ends at 0.6687 of the ellipse, and 0.66 is the first of 1, 0.98, ... that fits.
    const star = ({ offsetXUm, offsetYUm }: { offsetXUm: number; offsetYUm: number }) =>
      30 * ((Math.abs(offsetXUm) / 10) ** 0.9 + (Math.abs(offsetYUm) / 5) ** 0.9)
    const { captureXUm, captureYUm } = captureArea(equalModes(10), 30, star)
    expect(captureXUm).toBeCloseTo(6.6, 3)
    expect(captureYUm).toBeCloseTo(3.3, 3)
  })

  test('is about the place of least loss, wherever the pose is', () => {
    const away = {
      ...equalModes(10),
      gapUm: 30,
      tiltXRad: 0.05,
      tiltYRad: -0.03,
      offsetXUm: 40,
      offsetYUm: -9,
    }
    const found = lateralOptimum(away, jointLossDb)
    const leastDb = jointLossDb(found)
    for (const [x, y] of [
      [0.05, 0],
      [-0.05, 0],
      [0, 0.05],
      [0, -0.05],
    ] as const) {
      const { offsetXUm, offsetYUm } = found
      expect(jointLossDb({ ...found, offsetXUm: offsetXUm + x, offsetYUm: offsetYUm + y })).toBeGreaterThan(
        leastDb,
      )
    }
  })
})

describe('within the pre-alignment of the gap', () => {
  const near = { ...equalModes(3), gapUm: 3 }
  const station = { ...STATION, axialUm: 20, tiltRad: 1e-9 }

  test('light is seen in the middle of four search points at every gap', () => {
    const { search, searchReserveDb } = searchPlan(near, 2, station)
    const { stepXUm, stepYUm } = search!
    for (let gapUm = 0; gapUm <= 23; gapUm += 0.5) {
      const between = { ...near, gapUm, offsetXUm: stepXUm / 2, offsetYUm: stepYUm / 2 }
      expect(jointLossDb(between), `gap ${gapUm}`).toBeLessThan(48)
    }
    // The margin is that of the gap that loses most.
    expect(searchReserveDb).toBeCloseTo(48 - jointLossDb({ ...near, gapUm: 23 }), 6)
  })

  test('fewest points see light where the spot is smallest: at contact, or at the focus of a tip', () => {
    expect(searchPlan(near, 2, station).narrowest!.pose.gapUm).toBe(0)
    expect(searchPlan(near, 2, station, 2).narrowest!.pose.gapUm).toBe(2)
    // Lensed end: the waist lies 12 um before the tip.
    const focused = { ...equalModes(3), gapUm: 12, waistXUm: 12, waistYUm: 12 }
    expect(searchPlan(focused, 2, { ...station, axialUm: 11 }).narrowest!.pose.gapUm).toBe(12)
  })
})

test('roll captures as far as the outermost channel stays within the capture range', () => {
  // 12 channels of 127 µm: a lever of 698.5 µm.
  expect(rollCaptureRad(13.667, 12, 127)).toBeCloseTo(Math.asin(13.667 / 698.5), 12)
  expect(rollCaptureRad(13.667, 1, 127)).toBeNull()
})

test('a climb that finds nothing better reads once, then four times at each of five steps', () => {
  // Steps of 1/4 to 1/64 of the range, each halved once no side is better. Here every reading of a climb is half a dB darker than the
  // one before, and so is the last look at where it ended: 22 in all.
  let looks = 0
  const { meanReadings, p95Readings, arrived } = hillClimb({
    reserveDb: 30,
    seed: 5,
    lossAt: () => 0.5 * (looks++ % 22),
  })
  expect([meanReadings, p95Readings, arrived, looks]).toEqual([21, 21, 0, 400 * 22])
})

test('a climb arrives, the same seed alike, and takes longer through more noise', () => {
  const climb = hillClimb({ reserveDb: 30, seed: 5 })
  expect(climb).toEqual(hillClimb({ reserveDb: 30, seed: 5 }))
  expect(climb.arrived).toBeGreaterThan(0.9)
  expect(climb.meanReadings).toBeGreaterThan(15)
  expect(climb.p95Readings).toBeGreaterThanOrEqual(climb.meanReadings)
  expect(hillClimb({ reserveDb: 3, seed: 5 }).arrived).toBeLessThan(climb.arrived)
})
