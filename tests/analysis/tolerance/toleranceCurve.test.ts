import { describe, expect, test } from 'vitest'
import { lossCurve, toleranceWindows } from '../../../src/analysis/tolerance/toleranceCurve'
import type { GaussianJoint, MisalignmentAxis } from '../../../src/optics/index'
import { MATCHED } from '../../optics/joint/jointCases'

const joint = (mfdUm: number, change: Partial<GaussianJoint> = {}): GaussianJoint => ({
  ...MATCHED,
  emitterMfdXUm: mfdUm,
  emitterMfdYUm: mfdUm,
  receiverMfdXUm: mfdUm,
  receiverMfdYUm: mfdUm,
  ...change,
})

const windowOf = (of: GaussianJoint, axis: MisalignmentAxis) => {
  const found = toleranceWindows(of).find((each) => each.axis === axis)
  if (found === undefined) throw new Error(axis)
  return found
}

describe('tolerance windows', () => {
  // D. Marcuse, Bell Syst. Tech. J. 56 (1977) 703 (formula from memory).
  test.each([
    [10.4, 0.5, 1.764397],
    [9.2, 1, 2.207322],
    [3.2, 1, 0.767764],
    [4.0, 1, 0.959705],
  ])('of a matched pair of %f um reach %f dB at the published offset', (mfdUm, excessDb, expectedUm) => {
    const mark = windowOf(joint(mfdUm), 'offsetXUm').marks.find((each) => each.excessDb === excessDb)
    expect(mark?.above).toBeCloseTo(expectedUm, 5)
    expect(mark?.below).toBeCloseTo(expectedUm, 5)
  })

  test('give the published 1 dB tilt of 2.6086 degrees for 10.4 um in air (Marcuse 1977, from memory)', () => {
    const mark = windowOf(joint(10.4), 'tiltYRad').marks[1]
    expect(((mark?.above ?? 0) * 180) / Math.PI).toBeCloseTo(2.608609, 5)
  })

  test('are wider towards the centre when the joint works off centre, and the slope says which way', () => {
    const { marks, slopeDbPerUnit } = windowOf(joint(3.2, { offsetXUm: 0.4 }), 'offsetXUm')
    for (const mark of marks) expect(mark.below ?? 0).toBeGreaterThan((mark.above ?? 0) + 0.79)
    expect(slopeDbPerUnit).toBeGreaterThan(0)
  })

  test('never ask for a negative gap, and say so where an axis does not matter', () => {
    const gap = windowOf(joint(3.2), 'gapUm')
    expect(gap.marks.every((mark) => mark.below === null && (mark.above ?? 0) > 0)).toBe(true)
    const roll = windowOf(joint(3.2), 'rollRad')
    expect(roll.marks.every((mark) => mark.below === null && mark.above === null)).toBe(true)
  })

  test('give a loss of about 20 per cent for one micrometre between modes of about 4 um (common practice, no source)', () => {
    const { lossesDb } = lossCurve(joint(4), 'offsetXUm', 0, 1, 2)
    const kept = 10 ** (-(lossesDb[1] ?? 0) / 10)
    expect(kept).toBeGreaterThan(0.72)
    expect(kept).toBeLessThan(0.84)
  })
})
