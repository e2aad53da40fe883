import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { InputError } from '../../../src/numerics/inputError'
import { jointEfficiency } from '../../../src/optics/joint/joint'
import {
  type AxisSamples,
  axisSample,
  fillJointMap,
  MISALIGNMENT_AXES,
} from '../../../src/optics/joint/jointMap'
import { anyJoint, MATCHED } from './jointCases'

const X: AxisSamples = { axis: 'offsetXUm', from: -2, to: 2, count: 5 }
const Y: AxisSamples = { axis: 'gapUm', from: 0, to: 30, count: 4 }

describe('the map of a joint', () => {
  test('every cell, over every pair of axes, is the efficiency of the joint at that point', () => {
    const axis = fc.constantFrom(...MISALIGNMENT_AXES)
    fc.assert(
      fc.property(anyJoint, axis, axis, (joint, xAxis, yAxis) => {
        fc.pre(xAxis !== yAxis)
        const x = { axis: xAxis, from: 0.01, to: 0.9, count: 3 }
        const y = { axis: yAxis, from: 0.4, to: 0.02, count: 2 }
        const map = fillJointMap(joint, x, y, new Float64Array(6))
        for (let row = 0; row < 2; row++) {
          for (let column = 0; column < 3; column++) {
            const there = { ...joint, [xAxis]: axisSample(x, column), [yAxis]: axisSample(y, row) }
            expect(map[row * 3 + column]).toBeCloseTo(jointEfficiency(there), 14)
          }
        }
      }),
    )
  })

  test('rows run along y, columns along x, both ends included', () => {
    const map = fillJointMap(MATCHED, X, Y, new Float64Array(20))
    expect(map[2]).toBeCloseTo(1, 15)
    expect(map[0]).toBe(jointEfficiency({ ...MATCHED, offsetXUm: -2 }))
    expect(map[19]).toBe(jointEfficiency({ ...MATCHED, offsetXUm: 2, gapUm: 30 }))
  })

  test('it fills the array it is given, so that a redraw allocates nothing', () => {
    const out = new Float64Array(20)
    expect(fillJointMap(MATCHED, X, Y, out)).toBe(out)
  })

  test('a single sample sits at its start', () => {
    expect(axisSample({ ...X, count: 1 }, 0)).toBe(-2)
  })

  test('what it cannot map is refused with the reason', () => {
    const out = new Float64Array(20)
    expect(() => fillJointMap(MATCHED, X, { ...Y, from: -1 }, out)).toThrow(
      'y.from (gapUm) is -1; must be 0 to 1000000',
    )
    expect(() => fillJointMap(MATCHED, X, { ...Y, axis: 'offsetXUm' }, out)).toThrow(
      'y.axis is "offsetXUm"; must be another axis than x.axis, offsetXUm',
    )
    expect(() => fillJointMap(MATCHED, X, Y, new Float64Array(19))).toThrow(
      'out.length is 19; must be x.count times y.count, 20',
    )
    expect(() => fillJointMap(MATCHED, { ...X, count: 0 }, Y, out)).toThrow(InputError)
    expect(() => fillJointMap(MATCHED, { ...X, axis: 'waistXUm' as 'gapUm' }, Y, out)).toThrow(InputError)
    expect(() => fillJointMap({ ...MATCHED, index: 0 }, X, Y, out)).toThrow(InputError)
  })
})
