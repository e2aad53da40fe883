// Far-field intensity of a mode over direction, by the two shapes that are fitted to scans.
//   Gaussian: exp(−2 (s/s0)²),   s = sin θ
//   step-index LP01: F², F = u²w² / ((u² − α²)(w² + α²)) · [J0(α) − α J1(α) J0(u) / (u J1(u))],   α = κ s, κ = k a
// Source: W. A. Gambling, D. N. Payne, H. Matsumura, C. M. Ragdale, Microwaves, Opt. Acoust. 1 (1976) 13 (from memory;
// confirmed against a numerical Hankel transform). Scalar, no obliquity factor.

import { besselJ0, besselJ1, besselK0Scaled, besselK1Scaled } from '../numerics/bessel'
import { brentRoot } from '../numerics/roots'

export interface Lp01Roots {
  readonly u: number
  readonly w: number
  /** J0(u) / (u J1(u)), which the far field needs at every point. */
  readonly edge: number
}

const FIRST_ZERO_J0 = 2.404825557695773

/** Solves u J1(u)/J0(u) = w K1(w)/K0(w), u² + w² = V² (D. Gloge, Appl. Opt. 10 (1971) 2252). V from 0.5 up. */
export function lp01Roots(v: number): Lp01Roots {
  const mismatch = (u: number) => {
    const w = Math.sqrt(v * v - u * u)
    return u * besselJ1(u) * besselK0Scaled(w) - w * besselK1Scaled(w) * besselJ0(u)
  }
  const high = Math.min(v, FIRST_ZERO_J0) - 1e-9
  const u = brentRoot(mismatch, 1e-6, high).x
  return { u, w: Math.sqrt(v * v - u * u), edge: besselJ0(u) / (u * besselJ1(u)) }
}

/** F² at α ≥ 0, 1 on the axis. */
export function lp01Intensity({ u, w, edge }: Lp01Roots, alpha: number): number {
  // The fraction is 0/0 at α = u; a shift of 1e-5 changes F² by less than 1e-5 there.
  const at = Math.abs(alpha - u) < 1e-5 ? u + 1e-5 : alpha
  const field =
    ((u * u * w * w) / ((u * u - at * at) * (w * w + at * at))) * (besselJ0(at) - at * besselJ1(at) * edge)
  return field * field
}

export function gaussianIntensity(s0: number, s: number): number {
  return Math.exp(-2 * (s / s0) ** 2)
}

/** Petermann II radius over core radius of the LP01 near field: √2 J1(u) / (w J0(u)) (from memory; confirmed by quadrature). */
export function lp01Petermann2Ratio({ u, w }: Lp01Roots): number {
  return (Math.SQRT2 * besselJ1(u)) / (w * besselJ0(u))
}
