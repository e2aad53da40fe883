import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { InputError } from '../../../src/numerics/inputError'
import { NO_LIGHT_DB } from '../../../src/optics/beam/decibel'
import {
  angleForExtinctionRad,
  extinctionRatioDb,
  seriesExtinction,
} from '../../../src/optics/faces/polarisation'
import { anyWithin } from '../../support/arbitrary'

const DEGREE = Math.PI / 180

test('more than 20 dB needs less than 6 degrees, more than 30 dB less than 1.8 degrees (common practice)', () => {
  expect(extinctionRatioDb(6 * DEGREE)).toBeLessThan(20)
  expect(extinctionRatioDb(5.7 * DEGREE)).toBeGreaterThan(20)
  expect(extinctionRatioDb(1.8 * DEGREE)).toBeGreaterThan(30)
})

test('angle and ratio undo each other', () => {
  fc.assert(
    fc.property(anyWithin(0, 100), (ratio) => {
      expect(extinctionRatioDb(angleForExtinctionRad(ratio))).toBeCloseTo(ratio, 9)
    }),
  )
})

test('aligned axes keep everything, 45 degrees nothing', () => {
  expect(extinctionRatioDb(0)).toBe(NO_LIGHT_DB)
  expect(extinctionRatioDb(Math.PI / 4)).toBeCloseTo(0, 12)
})

test('angles beyond 45 degrees and negative ratios are refused', () => {
  expect(() => extinctionRatioDb(1)).toThrow(InputError)
  expect(() => angleForExtinctionRad(-1)).toThrow('extinctionDb is -1; must be 0 to 100')
})

describe('several joints in series', () => {
  test('one joint is -10 log10 tan^2 in both ways: 35.1616, 29.1383, 25.6121, 21.1610 dB at 1, 2, 3, 5 degrees', () => {
    for (const [deg, db] of [
      [1, 35.1616],
      [2, 29.1383],
      [3, 25.6121],
      [5, 21.161],
    ] as const) {
      const found = seriesExtinction([deg * DEGREE])
      expect(found.incoherentDb).toBeCloseTo(db, 4)
      expect(found.worstDb).toBeCloseTo(db, 4)
    }
  })

  // ER = -10 log10 of the sum of the crosstalk powers, for small angles (from memory).
  test('small angles add their crosstalk powers', () => {
    const angles = [0.5, 0.8, 0.3].map((deg) => deg * DEGREE)
    const powers = angles.reduce((sum, angle) => sum + Math.tan(angle) ** 2, 0)
    expect(seriesExtinction(angles).incoherentDb).toBeCloseTo(-10 * Math.log10(powers), 2)
  })

  test('the worst phase is never better than the mean, and no order matters', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -2000, max: 2000 }), { maxLength: 6 }), (steps) => {
        const angles = steps.map((step) => step * 1e-4)
        const found = seriesExtinction(angles)
        const turned = seriesExtinction(angles.toReversed())
        if (Number.isFinite(found.incoherentDb)) {
          expect(found.worstDb).toBeLessThanOrEqual(found.incoherentDb + 1e-6)
          expect(turned.incoherentDb).toBeCloseTo(found.incoherentDb, 6)
        }
      }),
    )
  })

  test('the worst phase is the two-joint optimum found by trying all phases (brute force with Jones vectors)', () => {
    const [a, b] = [3 * DEGREE, 2 * DEGREE]
    let worst = Number.POSITIVE_INFINITY
    for (let phase = 0; phase < 2 * Math.PI; phase += 0.001) {
      // Turn by a, delay the slow axis, turn by b; the power on the wrong axis over that on the right one.
      const [x, y] = [Math.cos(a), Math.sin(a)]
      const [re, im] = [y * Math.cos(phase), y * Math.sin(phase)]
      const right = (x * Math.cos(b) - re * Math.sin(b)) ** 2 + (im * Math.sin(b)) ** 2
      const wrong = (x * Math.sin(b) + re * Math.cos(b)) ** 2 + (im * Math.cos(b)) ** 2
      worst = Math.min(worst, -10 * Math.log10(wrong / right))
    }
    expect(seriesExtinction([a, b]).worstDb).toBeCloseTo(worst, 4)
  })

  test('no angle at all leaves everything, 45 degrees nothing; steeper is refused', () => {
    expect(seriesExtinction([0, 0]).worstDb).toBe(NO_LIGHT_DB)
    expect(seriesExtinction([Math.PI / 8, Math.PI / 8, Math.PI / 8]).worstDb).toBeCloseTo(0, 12)
    expect(() => seriesExtinction([1])).toThrow('angleRad is 1')
  })
})
