import { describe, expect, test } from 'vitest'
import { InputError } from '../../../src/numerics/inputError'
import { jointEfficiency } from '../../../src/optics/joint/joint'
import { type AxisSamples, axisSample, fillJointMap } from '../../../src/optics/joint/jointMap'
import { expectEveryCell, MATCHED } from './jointCases'

const X: AxisSamples = { axis: 'offsetXUm', from: -2, to: 2, count: 5 }
const Y: AxisSamples = { axis: 'gapUm', from: 0, to: 30, count: 4 }

describe('the map of a joint', () => {
  test('every cell, over every pair of axes, is the efficiency of the joint at that point', () => {
    expectEveryCell(fillJointMap, jointEfficiency, 14)
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
