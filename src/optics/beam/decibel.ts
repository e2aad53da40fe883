// Loss in decibels, always positive, and its power ratio.
//   L = -10 log10(efficiency)

import { InputError, requireInRange } from '../../numerics/inputError'

/** ln(10) / 10: decibels times this are nepers of power. */
export const NEPERS_PER_DB = Math.LN10 / 10

/**
 * The loss at which no light arrives; greater losses are not distinguished. Of 1 W, more than a joint is ever given, 200 dB
 * leave 1e-20 W: a photon carries h c / wavelength (CODATA 2018: 1.3e-19 J at 1.55 um, 4e-20 J at 5 um), so less than one
 * of them arrives in a second. Scattered light exceeds that by far.
 */
export const NO_LIGHT_DB = 200
export const NO_LIGHT_RATIO = 10 ** (-NO_LIGHT_DB / 10)

/** The loss, or NO_LIGHT_DB where it is greater or not a number: a core without a mode transmits no light. */
export function atMostNoLight(loss: number): number {
  return Number.isNaN(loss) ? NO_LIGHT_DB : Math.min(loss, NO_LIGHT_DB)
}

/** Loss of a power ratio 0..1 in dB: 0 for a perfect joint, NO_LIGHT_DB at most. Outside 0..1: InputError. */
export function lossDb(efficiency: number): number {
  requireInRange('efficiency', efficiency, 0, 1)
  return efficiency > NO_LIGHT_RATIO ? 0 - 10 * Math.log10(efficiency) : NO_LIGHT_DB
}

/** Power ratio left by a loss of 0 dB or more (Infinity gives 0). A negative loss is an InputError. */
export function efficiencyFromLossDb(loss: number): number {
  if (typeof loss !== 'number' || !(loss >= 0)) throw new InputError('lossDb', loss, '0 or more')
  return Math.exp(-loss * NEPERS_PER_DB)
}
