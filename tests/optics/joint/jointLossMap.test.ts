import { describe, expect, test } from 'vitest'
import { InputError } from '../../../src/numerics/inputError'
import { jointLossDb } from '../../../src/optics/joint/jointLoss'
import { fillLossMap } from '../../../src/optics/joint/jointLossMap'
import type { AxisSamples } from '../../../src/optics/joint/jointMap'
import { expectEveryCell, MATCHED } from './jointCases'

const X: AxisSamples = { axis: 'offsetXUm', from: -2, to: 2, count: 5 }
const Y: AxisSamples = { axis: 'tiltYRad', from: -0.02, to: 0.03, count: 4 }

describe('the loss map of a joint', () => {
  test('every cell, over every pair of axes, is the loss of the joint at that point, up to the ceiling', () => {
    expectEveryCell(
      (joint, x, y, out) => fillLossMap(joint, x, y, 60, out),
      (joint) => Math.min(60, jointLossDb(joint)),
      9,
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
