// How far a camera's D4σ (Petermann I) lies above the standard's mode-field diameter (Petermann II).
// Source: definitions by K. Petermann, Electron. Lett. 12 (1976) 107 and 19 (1983) 712 (from memory), for the LP01 mode
// of a step-index guide (optics/fibre/stepIndexMode.ts).

import { requireInRange } from '../../numerics/inputError'
import { stepIndexMode } from '../../optics/fibre/stepIndexMode'

/** Petermann I over Petermann II of a step-index LP01 mode, for V from 1 to 3: 1.0403 at V = 2.0, 1.1012 at 1.6. */
export function petermann1Over2(v: number): number {
  requireInRange('v', v, 1, 3)
  // Any core at this V has the same ratio.
  const mode = stepIndexMode({ coreRadiusUm: 4, na: 0.1, wavelengthUm: (2 * Math.PI * 0.4) / v })
  return mode.petermann1MfdUm / mode.petermann2MfdUm
}
