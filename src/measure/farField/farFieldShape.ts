// Far-field intensity of a mode over direction, by the two shapes that are fitted to scans.
//   Gaussian: exp(−2 (s/s0)²), s = sin θ
//   step-index LP01: F² at α = κ s, κ = k a (optics/fibre/lp01Field.ts)
// Scalar, no obliquity factor.

import { besselJ0, besselJ1 } from '../../numerics/bessel'
import { type Lp01Mode, lp01FarField } from '../../optics/fibre/lp01Field'

/** F² at α ≥ 0, 1 on the axis. */
export function lp01Intensity(mode: Lp01Mode, alpha: number): number {
  return lp01FarField(mode, alpha) ** 2
}

export function gaussianIntensity(s0: number, s: number): number {
  return Math.exp(-2 * (s / s0) ** 2)
}

/** Petermann II radius over core radius of the LP01 near field, √2 J1(U) / (W J0(U)) (optics/fibre/stepIndexMode.ts). */
export function lp01Petermann2Ratio({ U, W }: Lp01Mode): number {
  return (Math.SQRT2 * besselJ1(U)) / (W * besselJ0(U))
}
