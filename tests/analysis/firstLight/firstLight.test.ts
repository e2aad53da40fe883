// Capture range against the closed form, the cover of a search against brute force, and the climb.

import { describe, expect, test } from 'vitest'
import { hillClimb } from '../../../src/analysis/firstLight/hillClimb'
import { captureRanges, rollCaptureRad, searchPlan } from '../../../src/analysis/firstLight/search'
import { unitPoints } from '../../../src/numerics/random/unitPoints'
import { jointLossDb } from '../../../src/optics'
import { equalModes } from '../support/equalModes'

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
  expect(captureRanges(own, 0)).toEqual([])
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

test('no pose of the search is nearer than contact', () => {
  // Lensed end: the waist lies 10 um before the face, where contact is.
  const focused = { ...equalModes(3), gapUm: 12, waistXUm: 12, waistYUm: 12 }
  const station = { ...STATION, axialUm: 11, tiltRad: 1e-9 }
  expect(searchPlan(focused, 2, station).worstPose.gapUm).toBeCloseTo(1, 9)
  expect(searchPlan(focused, 2, station, 10).worstPose.gapUm).toBeCloseTo(23, 9)
})

test('roll captures as far as the outermost channel stays within the capture range', () => {
  // 12 channels of 127 µm: a lever of 698.5 µm.
  expect(rollCaptureRad(13.667, 12, 127)).toBeCloseTo(Math.asin(13.667 / 698.5), 12)
  expect(rollCaptureRad(13.667, 1, 127)).toBeNull()
})

test('a climb arrives, the same seed alike, and takes longer through more noise', () => {
  const climb = hillClimb({ reserveDb: 30, seed: 5 })
  expect(climb).toEqual(hillClimb({ reserveDb: 30, seed: 5 }))
  expect(climb.arrived).toBeGreaterThan(0.9)
  expect(climb.meanReadings).toBeGreaterThan(15)
  expect(climb.p95Readings).toBeGreaterThanOrEqual(climb.meanReadings)
  expect(hillClimb({ reserveDb: 3, seed: 5 }).arrived).toBeLessThan(climb.arrived)
})
