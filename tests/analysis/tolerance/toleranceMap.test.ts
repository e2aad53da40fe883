// How far maps and curves reach on every axis, and that their points are the joint's own losses there.

import { describe, expect, test } from 'vitest'
import { axisRange, MAP_CEILING_DB, toleranceMap } from '../../../src/analysis/tolerance/toleranceMap'
import { type GaussianJoint, jointLossDb } from '../../../src/optics/index'

const joint: GaussianJoint = {
  ...{ wavelengthUm: 1.5, index: 1.25, gapUm: 50, rollRad: 0.2, waistXUm: 0, waistYUm: 0 },
  ...{ emitterMfdXUm: 6, emitterMfdYUm: 4, receiverMfdXUm: 5, receiverMfdYUm: 8 },
  ...{ offsetXUm: 1, offsetYUm: -2, tiltXRad: 0.01, tiltYRad: 0.02 },
}
const close = (...ends: readonly number[]) => ends.map((end) => expect.closeTo(end, 12))

test('a range is wide enough to show some decibels, about where the joint works', () => {
  // 0.6 of the widest of all diameters; wavelength over n and the same; n pi a b / 2 wavelength with the wider of the narrower modes, 5 um.
  expect(axisRange(joint, 'offsetXUm')).toEqual(close(1 - 4.8, 1 + 4.8))
  expect(axisRange(joint, 'offsetYUm')).toEqual(close(-2 - 4.8, -2 + 4.8))
  expect(axisRange(joint, 'tiltXRad')).toEqual(close(0.01 - 0.15, 0.01 + 0.15))
  expect(axisRange(joint, 'tiltYRad')).toEqual(close(0.02 - 0.15, 0.02 + 0.15))
  expect(axisRange(joint, 'rollRad')).toEqual(close(0.2 - Math.PI / 2, 0.2 + Math.PI / 2))
  const reach = (Math.PI * 1.25 * 5 * 8) / 3
  expect(reach).toBeGreaterThan(50)
  expect(axisRange(joint, 'gapUm')).toEqual([0, expect.closeTo(50 + reach, 9)])
  expect(axisRange({ ...joint, gapUm: 60 }, 'gapUm')[0]).toBeCloseTo(60 - reach, 9)
  // No tilt is looked at beyond half a radian.
  const narrow = { ...joint, emitterMfdXUm: 1, emitterMfdYUm: 1, receiverMfdXUm: 1, receiverMfdYUm: 1 }
  expect(axisRange(narrow, 'tiltXRad')).toEqual(close(0.01 - 0.5, 0.01 + 0.5))
})

describe('a map', () => {
  const map = toleranceMap(joint, 'offsetXUm', 'tiltYRad', 9)

  test('has in each row the losses at one place along y', () => {
    expect([map.atX, map.atY]).toEqual([1, 0.02])
    expect(map.hereDb).toBeCloseTo(jointLossDb(joint), 12)
    for (const [row, col] of [
      [0, 0],
      [0, 8],
      [4, 4],
      [7, 2],
    ] as const) {
      const [offsetXUm = 0, tiltYRad = 0] = [map.x[col], map.y[row]]
      expect(offsetXUm).toBeCloseTo(1 - 4.8 + 1.2 * col, 9)
      expect(tiltYRad).toBeCloseTo(0.02 - 0.15 + 0.0375 * row, 9)
      const lossDb = Math.min(MAP_CEILING_DB, jointLossDb({ ...joint, offsetXUm, tiltYRad }))
      expect(map.rowsDb[row]?.[col]).toBeCloseTo(lossDb, 9)
    }
    expect(map.leastDb).toBe(Math.min(...map.rowsDb.flatMap((row) => [...row])))
  })
})
