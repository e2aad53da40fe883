// Joints the tests share: a plain one to vary, and a generator of arbitrary ones.

import fc from 'fast-check'
import type { GaussianJoint } from '../../../src/optics/joint/gaussianJoint'
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
