// Where workers are blocked the page does a job itself: what it wants is then computed on the spot, and asked for elsewhere again after.

import { expect, test } from 'vitest'
import { FIT_AXES } from '../../src/analysis/field/fit/jointAxes'
import { answeredHere, directSums, fitElsewhere, sumsOf } from '../../src/analysis/field/fit/knownFits'
import type { FieldJointSpec, GaussianJoint } from '../../src/optics/index'

const round = { kind: 'gaussian', mfdXUm: 4, mfdYUm: 4, waistXUm: 0, waistYUm: 0 } as const
const face = { mode: round, tip: null, stretchX: 1, stretchY: 1 }
const nominal: GaussianJoint = {
  wavelengthUm: 1.55,
  index: 1,
  emitterMfdXUm: 4,
  emitterMfdYUm: 4,
  receiverMfdXUm: 4,
  receiverMfdYUm: 4,
  offsetXUm: 0,
  offsetYUm: 0,
  gapUm: 2,
  tiltXRad: 0,
  tiltYRad: 0,
  rollRad: 0,
  waistXUm: 0,
  waistYUm: 0,
}
const spec: FieldJointSpec = {
  emitter: face,
  receiver: face,
  wavelengthUm: 1.55,
  index: 1,
  propagation: 'exact',
}

test('sums that a page asks for elsewhere are computed within its own job', () => {
  const asked: string[] = []
  const end = fitElsewhere(({ key }) => asked.push(key))
  try {
    const at = (offsetUm: number) =>
      FIT_AXES.map((axis) =>
        axis === 'offsetXUm' ? offsetUm : axis === 'gapUm' ? 2 : /X$|Y$|wavelength/.test(axis) ? 1 : 0,
      )
    const subject = (offsetUm: number) => ({ kind: 'points', spec, nominal, points: [at(offsetUm)] }) as const
    expect(sumsOf(subject(0.3))).toBe('pending')
    expect(asked).toHaveLength(1)
    const [db] = answeredHere(() => sumsOf(subject(0.31)))
    // Two Gaussians: the exact plane waves differ from the paraxial closed form by little.
    expect(Math.abs(Number(db))).toBeLessThan(0.05)
    expect(asked).toHaveLength(1)
    expect(sumsOf(subject(0.32))).toBe('pending')
    expect(directSums()).not.toBeNull()
  } finally {
    end()
  }
})
