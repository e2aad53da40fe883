// Why a facet or an end of a chip cannot have the mode that it is said to have.

import type { ModeHolder } from '../../field/portShape'
import type { ValidityNote } from '../../results/evaluation'

export function shapeNotes(
  name: string,
  { modeShape, crossSection }: ModeHolder,
  isKnown: boolean,
  elementId: string,
): readonly ValidityNote[] {
  if (modeShape?.kind !== 'cross-section' || isKnown) return []
  const why =
    crossSection === undefined
      ? 'it has no cross-section yet'
      : 'its cross-section is not solved yet; open the Fields tab to solve it'
  return [
    {
      elementId,
      message: `${name}: a Gaussian is used instead of the mode of the cross-section, because ${why}.`,
    },
  ]
}
