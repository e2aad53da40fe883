// How far the near side of a joint moves after its alignment: as an adhesive cures, or as a holder drifts.

import type { Path } from '../../../model/issue'
import type { GapElement, RelayElement } from '../../../model/schema/candidate'
import type { ChainContext, Movement } from '../vector/elementModels'
import type { Reader } from '../vector/valueReaders'

/** The movement, its quantities registered; none where the joint does not move. */
export function bondMovement(
  context: ChainContext,
  { bondShift }: GapElement | RelayElement,
  path: Path,
  what: 'cure shift' | 'holder drift',
): readonly Movement[] {
  if (bondShift === undefined) return []
  const along = (axis: 'x' | 'y' | 'z'): Reader =>
    context.readers.quantity(bondShift[axis], 'offset', `${what} ${axis}`, [...path, 'bondShift', axis])
  return [{ x: along('x'), y: along('y'), z: along('z') }]
}
