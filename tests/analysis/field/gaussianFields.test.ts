// Fields that are Gaussians, summed as any others: they must lose what the closed form says, wherever they are moved.

import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { exactDifference } from '../../../src/analysis/field/fit/exactDifference'
import { fillCoordinates, gaussianAt } from '../../../src/analysis/field/fit/jointAxes'
import { pointSums } from '../../../src/analysis/field/fit/pointSums'
import { realOptimum } from '../../../src/analysis/field/fit/realOptimum'
import { holds, summedBeyond } from '../../../src/analysis/field/fit/summedBeyond'
import { windowNumbers, windowsFrom } from '../../../src/analysis/field/fit/windowNumbers'
import { finish } from '../../../src/numerics/steps'
import {
  type FieldJointSpec,
  type GaussianJoint,
  jointLossDb,
  MISALIGNMENT_AXES,
} from '../../../src/optics/index'
import { uniform } from '../../support/arbitrary'

const nominal: GaussianJoint = {
  ...{ wavelengthUm: 1.55, index: 1.2, gapUm: 6, rollRad: 0.1, waistXUm: 0, waistYUm: 0 },
  ...{ emitterMfdXUm: 6, emitterMfdYUm: 4.5, receiverMfdXUm: 5, receiverMfdYUm: 5.5 },
  ...{ offsetXUm: 0.3, offsetYUm: -0.2, tiltXRad: 0.02, tiltYRad: -0.01 },
}
const face = (mfdXUm: number, mfdYUm: number) => ({
  ...{ mode: { kind: 'gaussian', mfdXUm, mfdYUm, waistXUm: 0, waistYUm: 0 } as const, tip: null },
  ...{ stretchX: 1, stretchY: 1 },
})
const spec: FieldJointSpec = {
  ...{
    emitter: face(6, 4.5),
    receiver: face(5, 5.5),
    wavelengthUm: 1.55,
    index: 1.2,
    propagation: 'paraxial',
  },
}
/** Offset x, y, gap, tilt x, y, roll, four sizes, wavelength. */
const REGION = {
  from: [-1, -1, 2, -0.05, -0.05, -0.3, 0.9, 0.95, 0.9, 0.92, 0.97],
  to: [1.5, 1, 12, 0.05, 0.06, 0.4, 1.1, 1.05, 1.08, 1.1, 1.03],
}
const places = fc.tuple(...REGION.from.map((low, i) => uniform(low, REGION.to[i] ?? low)))

describe('real less Gaussian loss of Gaussians', () => {
  test('is nothing anywhere in a region, and the field loses what the joint does', () => {
    const { of } = exactDifference(spec, nominal, REGION)
    fc.assert(
      fc.property(places, (at) => {
        const { differenceDb, fieldDb } = of(at)
        expect(Math.abs(differenceDb)).toBeLessThan(5e-3)
        expect(fieldDb).toBeCloseTo(jointLossDb(gaussianAt(nominal, at)), 2)
      }),
      { numRuns: 12 },
    )
  })

  test('is nothing at single points either', () => {
    const points = fc.sample(places, 5)
    for (const differenceDb of finish(pointSums({ kind: 'points', spec, nominal, points })))
      expect(Math.abs(differenceDb)).toBeLessThan(5e-3)
  })
})

test('coordinates are those of the moved joint: read back, it loses the same', () => {
  fc.assert(
    fc.property(places, uniform(1.1, 1.3), (at, index) => {
      // Another index of the medium changes the wavelength in it only.
      const moved: GaussianJoint = { ...gaussianAt(nominal, at), index }
      const out = new Float64Array(at.length)
      fillCoordinates(moved, index, moved.wavelengthUm, nominal, out)
      expect(jointLossDb(gaussianAt(nominal, out))).toBeCloseTo(jointLossDb(moved), 9)
      expect([...out].slice(0, 10)).toEqual(at.slice(0, 10).map((each) => expect.closeTo(each, 12)))
    }),
    { numRuns: 50 },
  )
  const out = new Float64Array(11)
  fillCoordinates({ ...nominal, waistXUm: 2.5 }, 1.2, 1.55, nominal, out)
  // A focus that lies further on is a gap that is shorter.
  expect(out[2]).toBeCloseTo(6 - 2.5, 12)
  expect(gaussianAt(nominal, out.with(2, -4)).gapUm).toBe(0)
})

test('the optimum of Gaussians is on their axes, in the axes that are free', () => {
  const settled = (free: readonly boolean[]) => {
    const shift = finish(realOptimum({ kind: 'optimum', spec, nominal: { ...nominal, rollRad: 0 }, free }))
    return [nominal.offsetXUm, nominal.offsetYUm, nominal.tiltXRad, nominal.tiltYRad].map(
      (at, i) => at + (shift[i] ?? 0),
    )
  }
  settled([true, true, true, true]).forEach((each) => {
    expect(Math.abs(each)).toBeLessThan(5e-3)
  })
  // Offsets alone lie where the closed form is least for the tilts that stay.
  const [x = 0, y = 0, tiltX, tiltY] = settled([true, true, false, false])
  expect([tiltX, tiltY]).toEqual([0.02, -0.01])
  const at = (offsetXUm: number, offsetYUm: number) =>
    jointLossDb({ ...nominal, rollRad: 0, offsetXUm, offsetYUm })
  for (const [byX, byY] of [
    [0.1, 0],
    [-0.1, 0],
    [0, 0.1],
    [0, -0.1],
  ] as const)
    expect(at(x + byX, y + byY)).toBeGreaterThan(at(x, y))
})

describe('a fit and what lies beyond', () => {
  const region = { from: [-1, 5], to: [2, 5] }
  test('a region holds its ends, to a millionth', () => {
    expect(holds(region, [-1, 5])).toBe(true)
    expect(holds(region, [2, 5])).toBe(true)
    expect(holds(region, [2 + 5e-7, 5 - 5e-7])).toBe(true)
    for (const beyond of [
      [-1.00001, 5],
      [2.00001, 5],
      [0, 5.00001],
      [0, 4.99999],
    ])
      expect(holds(region, beyond)).toBe(false)
  })

  test('sums are made once, where they are asked for first', () => {
    let made = 0
    const value = summedBeyond(
      region,
      () => 1,
      () => {
        made++
        return () => 2
      },
    )
    expect(value(Float64Array.of(0, 5))).toBe(1)
    expect(made).toBe(0)
    expect([value(Float64Array.of(3, 5)), value(Float64Array.of(-3, 5))]).toEqual([2, 2])
    expect(made).toBe(1)
    expect(
      summedBeyond(
        region,
        () => 1,
        () => null,
      )(Float64Array.of(3, 5)),
    ).toBe(1)
  })

  test('windows are the same again after their numbers were handed on', () => {
    const windows = MISALIGNMENT_AXES.map((axis, i) => ({
      ...{ axis, at: i + 0.5, slopeDbPerUnit: -i },
      marks: windowsFrom([])[0]!.marks.map(({ excessDb }, k) => ({
        ...{ excessDb, below: k % 2 === 0 ? null : i + k, above: k % 3 === 0 ? null : 10 * i + k },
      })),
    }))
    expect(windowsFrom(windowNumbers(windows))).toEqual(windows)
  })
})
