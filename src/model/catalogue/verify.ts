// The remark on every entry of the starter catalogue.

import { type Quantity, quantityOf } from '../quantity/quantity'
import type { Unit } from '../quantity/units'

export const TYPICAL = 'typical, verify with the supplier'

export const remark = (source: string): string => `${TYPICAL}; ${source}`

export const COMMON_PRACTICE = 'common practice, no source'

/** A typical number: an estimate until a data sheet or a measurement takes its place. */
export function typical(value: number, unit: Unit, plusMinus?: number): Quantity {
  return quantityOf(value, unit, 'estimate', plusMinus)
}
