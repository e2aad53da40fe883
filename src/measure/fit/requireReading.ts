// Readings of a size that squares and sums of them stay finite: the bounds of what a project keeps.

import { READING_LIMITS } from '../../model/words/limits'
import { InputError } from '../../numerics/inputError'

/** `values[at]`; InputError where it is not finite or its magnitude is above the greatest of its unit. `field` names one of them. */
export function requireReading(
  field: string,
  values: ArrayLike<number>,
  at: number,
  unit: keyof typeof READING_LIMITS.most,
): number {
  const most = READING_LIMITS.most[unit]
  const value = values[at]
  if (value !== undefined && Math.abs(value) <= most) return value
  const finite = value !== undefined && Number.isFinite(value)
  throw new InputError(`${field} ${at + 1}`, value, finite ? `−${most} to ${most}` : 'a finite number')
}

/** Powers may have any scale, but one in which their squares can be distinguished from 0. */
const LEAST_PEAK = 1e-100

/** InputError for a highest power that is not above 0, or so small that nothing can be computed with it. */
export function requireSignal(highest: number): void {
  if (highest <= 0) throw new InputError('the highest power', highest, 'above 0: no signal found')
  if (highest < LEAST_PEAK) throw new InputError('the highest power', highest, `above ${LEAST_PEAK}`)
}
