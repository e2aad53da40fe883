// Loss in decibels, always positive, and the power ratio it stands for.
//   L = -10 log10(efficiency)

import { InputError, requireInRange } from '../../numerics/inputError'

/** ln(10) / 10: decibels times this are nepers of power. */
export const NEPERS_PER_DB = Math.LN10 / 10

/** Loss of a power ratio 0..1 in dB: 0 for a perfect joint, Infinity for none at all. Outside 0..1: InputError. */
export function lossDb(efficiency: number): number {
  requireInRange('efficiency', efficiency, 0, 1)
  return 0 - 10 * Math.log10(efficiency)
}

/** Power ratio left by a loss of 0 dB or more (Infinity gives 0). A negative loss is an InputError. */
export function efficiencyFromLossDb(loss: number): number {
  if (typeof loss !== 'number' || !(loss >= 0)) throw new InputError('lossDb', loss, '0 or more')
  return Math.exp(-loss * NEPERS_PER_DB)
}
