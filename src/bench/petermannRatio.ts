// How far a camera's D4σ (Petermann I) lies above the standard's mode-field diameter (Petermann II).
// Source: definitions by K. Petermann, Electron. Lett. 12 (1976) 107 and 19 (1983) 712; values for the LP01 mode of a
// step-index guide by quadrature.

import { besselJ0, besselK0Scaled } from '../numerics/bessel'
import { requireInRange } from '../numerics/inputError'
import { integrate, panelRule } from '../numerics/quadrature'
import { lp01Petermann2Ratio, lp01Roots } from './farFieldShape'

/** Petermann I over Petermann II of a step-index LP01 mode, for V from 1 to 3: 1.0403 at V = 2.0, 1.1011 at 1.6. */
export function petermann1Over2(v: number): number {
  const roots = lp01Roots(requireInRange('v', v, 1, 3))
  const { u, w } = roots
  const edge = besselJ0(u)
  const core = besselK0Scaled(w)
  const field = (r: number) =>
    r < 1 ? besselJ0(u * r) / edge : (besselK0Scaled(w * r) * Math.exp(w * (1 - r))) / core
  // Twenty decay lengths of the field hold the rest of r³ to 1e-14.
  const rule = panelRule([0, 1, 1 + 2 / w, 1 + 6 / w, 1 + 20 / w], 40)
  const moment = integrate((r) => field(r) ** 2 * r ** 3, rule)
  const power = integrate((r) => field(r) ** 2 * r, rule)
  return Math.sqrt((2 * moment) / power) / lp01Petermann2Ratio(roots)
}
