import type { GaussianJoint } from '../../src/optics/index'

/** Joint of two equal round modes at 1550 nm in air, in contact and aligned. */
export const equalModes = (mfdUm: number): GaussianJoint => ({
  wavelengthUm: 1.55,
  index: 1,
  emitterMfdXUm: mfdUm,
  emitterMfdYUm: mfdUm,
  receiverMfdXUm: mfdUm,
  receiverMfdYUm: mfdUm,
  offsetXUm: 0,
  offsetYUm: 0,
  gapUm: 0,
  tiltXRad: 0,
  tiltYRad: 0,
  rollRad: 0,
  waistXUm: 0,
  waistYUm: 0,
})
