// Near and far field of LP01 in units of the core radius a.
//   E(r) = J0(U r) / J0(U) in the core, K0(W r) / K0(W) in the cladding: 1 at the core's edge
//   F(alpha) = U^2 W^2 / [(U^2 - alpha^2)(W^2 + alpha^2)] * [J0(alpha) - alpha J1(alpha) J0(U) / (U J1(U))],
//   alpha = k a sin(theta), F(0) = 1, smooth through alpha = U
// Sources: D. Gloge, Appl. Opt. 10 (1971) 2252; W. A. Gambling et al., Electron. Lett. 12 (1976) 546 (from memory;
// checked against a numerical Hankel transform).

import { besselJ0, besselJ1, besselK0Scaled } from '../../numerics/bessel'
import { requireInRange } from '../../numerics/inputError'
import { panelRule } from '../../numerics/quadrature'
import { brentRoot } from '../../numerics/roots'

/** The solved eigenvalues of LP01 (solveLp01). */
export interface Lp01Mode {
  readonly U: number
  readonly W: number
}

/** The field on quadrature nodes: int f(r) E(r) r dr is sum(weight * field * f(radius)). */
interface Lp01Samples {
  readonly radius: Float64Array
  readonly field: Float64Array
  readonly weight: Float64Array
}

/** Field at a radius in core radii (0 or more), 1 at the core's edge. */
export function lp01Field({ U, W }: Lp01Mode, radius: number): number {
  requireInRange('radius', radius, 0, 1e6)
  return fieldBy(U, W, besselJ0(U), besselK0Scaled(W), radius)
}

const fieldBy = (U: number, W: number, j0: number, k0: number, radius: number): number =>
  radius < 1 ? besselJ0(U * radius) / j0 : (besselK0Scaled(W * radius) / k0) * Math.exp(-W * (radius - 1))

/** Far field at alpha = k a sin(theta), 1 on the axis; negative beyond the first null. */
export function lp01FarField({ U, W }: Lp01Mode, alpha: number): number {
  const x = Math.abs(requireInRange('alpha', alpha, -1e4, 1e4))
  const j0 = besselJ0(U)
  const j1 = besselJ1(U)
  const distance = x - U
  let quotient: number
  if (Math.abs(distance) > 1e-4) {
    quotient = (U * j1 * besselJ0(x) - x * besselJ1(x) * j0) / -distance
  } else {
    // Taylor series of the numerator about alpha = U, where both vanish.
    const first = -U * (j1 * j1 + j0 * j0)
    const second = -U * j1 * (j0 - j1 / U) - j0 * (j0 - U * j1)
    const slope = j0 - j1 / U
    const third = U * j1 * (j1 + slope / U - j1 / (U * U)) + j0 * (j1 + U * j0)
    quotient = -(first + distance * (second / 2 + (distance * third) / 6))
  }
  return (U * W * W * quotient) / ((U + x) * (W * W + x * x) * j1)
}

/** Radius, in core radii, at which the field has fallen to 1/e of its value on the axis. */
export function fieldRadiusOneOverE(mode: Lp01Mode): number {
  const target = lp01Field(mode, 0) / Math.E
  const root = brentRoot((r) => lp01Field(mode, r) - target, 0, 1 + 40 / mode.W)
  return root.x
}

/** Gauss-Legendre samples over the core and the cladding out to `reach` core radii, good to 1e-12 for smooth weights. */
export function lp01Samples(mode: Lp01Mode, reach: number): Lp01Samples {
  const breaks = [0, 1]
  for (let edge = 1, width = 1; edge < reach; width *= 1.6) {
    edge += width
    breaks.push(edge)
  }
  const { nodes, weights } = panelRule(breaks, 16)
  const { U, W } = mode
  const [j0, k0] = [besselJ0(U), besselK0Scaled(W)]
  return {
    radius: nodes,
    field: nodes.map((r) => fieldBy(U, W, j0, k0, r)),
    weight: weights.map((weight, i) => weight * (nodes[i] as number)),
  }
}
