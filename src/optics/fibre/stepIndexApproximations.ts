// The usual closed-form fits to the step-index fundamental mode, for comparison with the exact solution (stepIndexMode.ts).
// Radii in core radii, as functions of V. Coefficients from memory; the errors stated were found against the exact
// solution.

import { requireInRange } from '../../numerics/inputError'

export interface StepIndexApproximation {
  readonly label: string
  readonly gives: string
  /** V for which the source states the fit. */
  readonly rangeV: readonly [number, number]
  readonly source: string
  /** Largest relative error within rangeV against the exact solution. */
  readonly worstError: number
  readonly evaluate: (V: number) => number
}

const marcuseRadius = (V: number): number => 0.65 + 1.619 * V ** -1.5 + 2.879 * V ** -6

export const STEP_INDEX_APPROXIMATIONS = {
  marcuse: {
    label: 'Marcuse',
    gives: 'best-Gaussian radius / core radius',
    rangeV: [0.8, 2.5],
    source: 'D. Marcuse, Bell Syst. Tech. J. 56 (1977) 703',
    worstError: 0.13, // at V = 0.8; 1 % or better holds from V = 1
    evaluate: marcuseRadius,
  },
  husseyMartinez: {
    label: 'Hussey and Martinez',
    gives: 'Petermann II radius / core radius',
    rangeV: [1.5, 2.5],
    source: 'C. D. Hussey and F. Martinez, Electron. Lett. 21 (1985) 1103',
    worstError: 0.012,
    evaluate: (V: number) => marcuseRadius(V) - 0.016 - 1.567 * V ** -7,
  },
  rudolphNeumann: {
    label: 'Rudolph and Neumann',
    gives: 'W',
    rangeV: [1.5, 2.5],
    source: 'H.-D. Rudolph and E.-G. Neumann, Nachrichtentech. Z. 29 (1976) 328',
    worstError: 0.002,
    evaluate: (V: number) => 1.1428 * V - 0.996,
  },
} as const satisfies Readonly<Record<string, StepIndexApproximation>>

export type StepIndexApproximationName = keyof typeof STEP_INDEX_APPROXIMATIONS

/** Value of a fit at V within its stated range; outside it, InputError. */
export function approximateStepIndex(name: StepIndexApproximationName, V: number): number {
  const fit: StepIndexApproximation = STEP_INDEX_APPROXIMATIONS[name]
  requireInRange(`V for ${fit.label}`, V, ...fit.rangeV)
  return fit.evaluate(V)
}
