// Joints the tests share: a plain one to vary, and a generator of arbitrary ones.

import fc from 'fast-check'
import type { GaussianJoint } from '../../../src/optics/joint/gaussianJoint'

/** Two equal round modes in contact: efficiency 1. */
export const MATCHED: GaussianJoint = {
  wavelengthUm: 1.55,
  index: 1,
  emitterMfdXUm: 10.4,
  emitterMfdYUm: 10.4,
  receiverMfdXUm: 10.4,
  receiverMfdYUm: 10.4,
  offsetXUm: 0,
  offsetYUm: 0,
  gapUm: 0,
  tiltXRad: 0,
  tiltYRad: 0,
  rollRad: 0,
  waistXUm: 0,
  waistYUm: 0,
}

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true })

/** Everything a fibre-to-chip joint could be, and somewhat more. */
export const anyJoint: fc.Arbitrary<GaussianJoint> = fc.record({
  wavelengthUm: between(0.4, 2.5),
  index: between(1, 3.5),
  emitterMfdXUm: between(1, 15),
  emitterMfdYUm: between(1, 15),
  receiverMfdXUm: between(1, 15),
  receiverMfdYUm: between(1, 15),
  offsetXUm: between(-6, 6),
  offsetYUm: between(-6, 6),
  gapUm: between(0, 60),
  tiltXRad: between(-0.1, 0.1),
  tiltYRad: between(-0.1, 0.1),
  rollRad: between(-7, 7),
  waistXUm: between(-20, 40),
  waistYUm: between(-20, 40),
})
