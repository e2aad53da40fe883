// A quantity of the project by its path, to change what is at that path.

import { rounded } from '../../numerics/numberText'
import type { Path } from '../issue'
import type { Quantity } from './quantity'

function isQuantity(value: unknown): value is Quantity {
  return (
    typeof value === 'object' &&
    value !== null &&
    'value' in value &&
    'unit' in value &&
    'provenance' in value
  )
}

/** The quantity at the path, or undefined where there is none. */
export function quantityAt(root: unknown, path: Path): Quantity | undefined {
  let here: unknown = root
  for (const step of path) {
    if (typeof here !== 'object' || here === null) return undefined
    here = (here as Readonly<Record<string | number, unknown>>)[step]
  }
  return isQuantity(here) ? here : undefined
}

/** Makes a quantity's tolerance `factor` times as wide, on a draft; four digits are enough for a drawing. */
export function scaleTolerance(quantity: Quantity, factor: number): void {
  if (quantity.tolerance === undefined) return
  quantity.tolerance.plusMinus = rounded(quantity.tolerance.plusMinus * factor, 4)
}
