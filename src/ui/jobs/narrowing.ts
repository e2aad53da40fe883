// One click that narrows a tolerance, and how a change of the yield is written.

import type { Path } from '../../model/issue'
import { quantityAt, scaleTolerance } from '../../model/quantity/quantityAt'
import { signedText } from '../../numerics/numberText'
import { editProject } from '../../store/workbench'

const HALF = 0.5

/** Halves the tolerance of the quantity at the path, as one step of undo. */
export function narrowTolerance(path: Path): void {
  editProject((draft) => {
    const quantity = quantityAt(draft, path)
    if (quantity !== undefined) scaleTolerance(quantity, HALF)
  })
}

/** A change of a share in percentage points, with its sign: `+10.35`, `0.00`. */
export function pointsText(change: number, digits: number): string {
  return signedText(100 * change, digits)
}
