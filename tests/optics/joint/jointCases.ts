// Joints the tests share: a plain one to vary, and a generator of arbitrary ones.

import fc from 'fast-check'
import { expect } from 'vitest'
import type { GaussianJoint } from '../../../src/optics/joint/gaussianJoint'
import { type AxisSamples, axisSample, MISALIGNMENT_AXES } from '../../../src/optics/joint/jointMap'
import { uniform } from '../../support/arbitrary'
import { equalModes } from '../../support/equalModes'

/** Two equal round modes in contact: efficiency 1. */
export const MATCHED = equalModes(10.4)

/** Everything a fibre-to-chip joint could be, and somewhat more. */
export const anyJoint: fc.Arbitrary<GaussianJoint> = fc.record({
  wavelengthUm: uniform(0.4, 2.5),
  index: uniform(1, 3.5),
  emitterMfdXUm: uniform(1, 15),
  emitterMfdYUm: uniform(1, 15),
  receiverMfdXUm: uniform(1, 15),
  receiverMfdYUm: uniform(1, 15),
  offsetXUm: uniform(-6, 6),
  offsetYUm: uniform(-6, 6),
  gapUm: uniform(0, 60),
  tiltXRad: uniform(-0.1, 0.1),
  tiltYRad: uniform(-0.1, 0.1),
  rollRad: uniform(-7, 7),
  waistXUm: uniform(-20, 40),
  waistYUm: uniform(-20, 40),
})

type Fill = (joint: GaussianJoint, x: AxisSamples, y: AxisSamples, out: Float64Array) => Float64Array

/** A map of any joint over any two axes holds in every cell what the joint there has by itself, to so many digits. */
export function expectEveryCell(fill: Fill, own: (joint: GaussianJoint) => number, digits: number): void {
  const axis = fc.constantFrom(...MISALIGNMENT_AXES)
  fc.assert(
    fc.property(anyJoint, axis, axis, (joint, xAxis, yAxis) => {
      fc.pre(xAxis !== yAxis)
      const x = { axis: xAxis, from: 0.01, to: 0.9, count: 3 }
      const y = { axis: yAxis, from: 0.4, to: 0.02, count: 2 }
      const map = fill(joint, x, y, new Float64Array(6))
      for (let row = 0; row < 2; row++) {
        for (let column = 0; column < 3; column++) {
          const there = { ...joint, [xAxis]: axisSample(x, column), [yAxis]: axisSample(y, row) }
          expect(map[row * 3 + column]).toBeCloseTo(own(there), digits)
        }
      }
    }),
  )
}
