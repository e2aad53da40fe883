// Offsets of Gaussian joints at the chip: an offset d costs 4.343 d^2 / w^2 dB (D. Marcuse, Bell Syst. Tech. J. 56 (1977) 703).

import { describe, expect, test } from 'vitest'
import { chipWindow } from '../../../src/analysis/compare/chipWindows'
import { offsetExcess, pictureReachUm } from '../../../src/analysis/compare/offsetExcess'
import type { GaussianJoint } from '../../../src/optics/index'

const joint = (change: Partial<GaussianJoint> = {}): GaussianJoint => ({
  ...{ wavelengthUm: 1.55, index: 1, gapUm: 0, rollRad: 0, waistXUm: 0, waistYUm: 0 },
  ...{ emitterMfdXUm: 6, emitterMfdYUm: 4, receiverMfdXUm: 6, receiverMfdYUm: 4 },
  ...{ offsetXUm: 0, offsetYUm: 0, tiltXRad: 0, tiltYRad: 0 },
  ...change,
})
const PER_DB = Math.sqrt(Math.LN10 / 10)
const offsetDb = (um: number, mfdUm: number) => (10 / Math.LN10) * (um / (mfdUm / 2)) ** 2

describe('small pictures', () => {
  test('reach 1.2 times the widest 1 dB, in whole micrometres and at least one', () => {
    // 3 um per neper: 1 dB at 1.4395 um, times 1.2 is 1.73: 2 um.
    expect(pictureReachUm([{ joint: joint() }])).toBe(2)
    // Off the axis the far side is further: 0.5 um of offset already lost, 0.5 + sqrt(1.4395^2 + 0.5^2) = 2.02; 2.43: 3 um.
    expect(pictureReachUm([{ joint: joint({ offsetXUm: 0.5 }) }])).toBe(3)
    expect(
      pictureReachUm([
        { joint: joint({ emitterMfdXUm: 1, receiverMfdXUm: 1, emitterMfdYUm: 1, receiverMfdYUm: 1 }) },
      ]),
    ).toBe(1)
    expect(pictureReachUm([])).toBe(1)
  })

  test('show the excess from end to end, the working point in the middle', () => {
    const { x, y } = offsetExcess({ joint: joint() }, 2)
    expect([x.length, y.length]).toEqual([49, 49])
    expect([x[24], y[24]]).toEqual([0, 0])
    for (const [i, at] of [
      [0, -2],
      [6, -1.5],
      [36, 1],
      [48, 2],
    ] as const) {
      expect(x[i]).toBeCloseTo(offsetDb(at, 6), 9)
      expect(y[i]).toBeCloseTo(offsetDb(at, 4), 9)
    }
  })
})

test('the window to 1 dB is the nearer side, or the only one', () => {
  expect(chipWindow(joint(), 'offsetYUm')).toEqual({ distance: expect.closeTo(2 * PER_DB, 6), only: null })
  const off = Math.sqrt(0.5 ** 2 + (3 * PER_DB) ** 2) - 0.5
  expect(chipWindow(joint({ offsetXUm: 0.5 }), 'offsetXUm')?.distance).toBeCloseTo(off, 6)
  expect(chipWindow(joint({ offsetXUm: -0.5 }), 'offsetXUm')?.distance).toBeCloseTo(off, 6)
  expect(chipWindow(joint(), 'gapUm')?.only).toBe('above')
  // A waist far in front: closing the gap loses 1 dB as well.
  expect(chipWindow(joint({ gapUm: 60, waistXUm: 60, waistYUm: 60 }), 'gapUm')?.only).toBeNull()
})
