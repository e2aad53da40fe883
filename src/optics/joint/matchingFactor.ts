// By how much an emitting mode must be magnified to match a receiving one best.
//   factor = sqrt(receiver x * receiver y / (emitter x * emitter y))
// Each axis couples by sech(ln(factor * emitter / receiver)); the product of two is greatest when the logarithms are
// opposite. Source: mismatch of two Gaussians (D. Marcuse, Bell Syst. Tech. J. 56 (1977) 703), the maximum by own derivation.
// Waists on each other, axes aligned. Micrometres.

import { requirePositive } from '../../numerics/inputError'
import type { GaussianJoint } from './gaussianJoint'

type Modes = Pick<GaussianJoint, 'emitterMfdXUm' | 'emitterMfdYUm' | 'receiverMfdXUm' | 'receiverMfdYUm'>

/** Both diameters of the emitter times this couple best. Diameters above 0, else InputError. */
export function matchingFactor(modes: Modes): number {
  const emitter =
    requirePositive('emitterMfdXUm', modes.emitterMfdXUm) *
    requirePositive('emitterMfdYUm', modes.emitterMfdYUm)
  const receiver =
    requirePositive('receiverMfdXUm', modes.receiverMfdXUm) *
    requirePositive('receiverMfdYUm', modes.receiverMfdYUm)
  return Math.sqrt(receiver / emitter)
}
