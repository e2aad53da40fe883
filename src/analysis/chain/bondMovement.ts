// How far the near side of a joint moves when it is bonded, after its alignment.

import type { GapElement, RelayElement } from '../../model/candidate'
import type { Path } from '../../model/issue'
import type { ChainContext, Movement } from './models'
import type { Reader } from './readers'

/** The movement, its quantities registered; none where the joint does not move. */
export function bondMovement(
  context: ChainContext,
  { bondShift }: GapElement | RelayElement,
  path: Path,
): readonly Movement[] {
  if (bondShift === undefined) return []
  const along = (axis: 'x' | 'y' | 'z'): Reader =>
    context.readers.quantity(bondShift[axis], 'offset', `bonding shift ${axis}`, [...path, 'bondShift', axis])
  return [{ x: along('x'), y: along('y'), z: along('z') }]
}
