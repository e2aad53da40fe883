// A new value for a quantity that keeps everything else that is known about it.

import { rounded } from '../../numerics/numberText'
import type { Quantity } from './quantity'
import type { TypedQuantity } from './quantityText'
import { dimensionOf, unitFactor } from './units'

/** Size of the old unit in the new one; 1 where they are of different kinds. */
function ratio(from: Quantity['unit'], to: Quantity['unit']): number {
  const dimension = dimensionOf(from)
  if (dimension === null) return 1
  return (unitFactor(dimension, from) ?? 1) / (unitFactor(dimension, to) ?? 1)
}

/** Writes value, unit and expression into the draft. A tolerance keeps its size when the unit changes. */
export function rewriteQuantity(draft: Quantity, read: TypedQuantity): void {
  if (draft.tolerance !== undefined && draft.unit !== read.unit) {
    const plusMinus = draft.tolerance.plusMinus * ratio(draft.unit, read.unit)
    draft.tolerance.plusMinus = rounded(plusMinus, 12)
  }
  // An entered value replaces the measured one, and its source.
  if (draft.uncertainty !== undefined) draft.uncertainty = undefined
  draft.value = read.value
  draft.unit = read.unit
  draft.typed = read.typed
}
