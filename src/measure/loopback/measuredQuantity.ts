// A measurement result as a quantity of the project: provenance `measured`, its uncertainty in addition to the tolerance of the part, its origin as note.

import type { Quantity } from '../../model/quantity/quantity'
import { InputError, requirePositive } from '../../numerics/inputError'
import { rounded, roundedTo } from '../../numerics/numberText'

export interface MeasurementOrigin {
  readonly fileName: string
  /** ISO date, "2026-03-14": given by the caller, because this layer knows no clock. */
  readonly date: string
  /** What was done: "transverse-offset scan along x, probe MFD 4 um". */
  readonly method: string
}

/**
 * Value and expanded uncertainty (k = 2) in um. Values are rounded to two digits of the uncertainty, as JCGM 100 7.2.6
 * asks. InputError for values that are not positive and dates that are not ISO dates.
 */
export function measuredLength(valueUm: number, expandedUm: number, origin: MeasurementOrigin): Quantity {
  requirePositive('valueUm', valueUm)
  requirePositive('expandedUm', expandedUm)
  if (!/^\d{4}-\d{2}-\d{2}$/.test(origin.date))
    throw new InputError('date', origin.date, 'an ISO date like 2026-03-14')
  const plusMinus = rounded(expandedUm, 2)
  const decimals = Math.min(9, Math.max(0, 1 - Math.floor(Math.log10(plusMinus))))
  return {
    value: roundedTo(valueUm, decimals),
    unit: 'um',
    provenance: 'measured',
    uncertainty: { plusMinus, coverage: 2 },
    note: `${origin.method}; ${origin.fileName}, ${origin.date}; U = ${plusMinus} µm (k = 2)`,
  }
}
