import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { InputError } from '../../../src/numerics/inputError'
import { jointLossDb } from '../../../src/optics/joint/jointLoss'
import { fillLossMap } from '../../../src/optics/joint/jointLossMap'
import { type AxisSamples, axisSample, MISALIGNMENT_AXES } from '../../../src/optics/joint/jointMap'
import { anyJoint, MATCHED } from './jointCases'

const X: AxisSamples = { axis: 'offsetXUm', from: -2, to: 2, count: 5 }
const Y: AxisSamples = { axis: 'tiltYRad', from: -0.02, to: 0.03, count: 4 }

describe('the loss map of a joint', () => {
  test('every cell, over every pair of axes, is the loss of the joint at that point, up to the ceiling', () => {
    const axis = fc.constantFrom(...MISALIGNMENT_AXES)
    fc.assert(
      fc.property(anyJoint, axis, axis, (joint, xAxis, yAxis) => {
        fc.pre(xAxis !== yAxis)
        const x = { axis: xAxis, from: 0.01, to: 0.9, count: 3 }
        const y = { axis: yAxis, from: 0.4, to: 0.02, count: 2 }
        const map = fillLossMap(joint, x, y, 60, new Float64Array(6))
        for (let row = 0; row < 2; row++) {
          for (let column = 0; column < 3; column++) {
            const there = { ...joint, [xAxis]: axisSample(x, column), [yAxis]: axisSample(y, row) }
            expect(map[row * 3 + column]).toBeCloseTo(Math.min(60, jointLossDb(there)), 9)
          }
        }
      }),
    )
  })

  test('a perfect joint has no gain by rounding', () => {
    const at: AxisSamples = { axis: 'offsetXUm', from: 0, to: 0, count: 1 }
    const [least] = fillLossMap(MATCHED, at, { ...at, axis: 'offsetYUm' }, 60, new Float64Array(1))
    expect(least).toBeGreaterThanOrEqual(0)
    expect(least).toBeLessThan(1e-12)
  })

  test('what it cannot map is refused with the reason', () => {
    const out = new Float64Array(20)
    expect(() => fillLossMap(MATCHED, X, { ...Y, to: 2 }, 60, out)).toThrow(
      'y.to (tiltYRad) is 2; must be -1.5 to 1.5',
    )
    expect(() => fillLossMap(MATCHED, { ...X, count: 0 }, Y, 60, new Float64Array(0))).toThrow(InputError)
    expect(() => fillLossMap(MATCHED, X, { ...Y, axis: 'offsetXUm' }, 60, out)).toThrow(
      'another axis than x.axis',
    )
    expect(() => fillLossMap(MATCHED, X, Y, 60, new Float64Array(19))).toThrow('out.length is 19')
    expect(() => fillLossMap({ ...MATCHED, index: 0 }, X, Y, 60, out)).toThrow(InputError)
  })
})
