// Moving the working point of a gap along two axes of its map: one edit, one undo step.

import { setCoreValue } from '../../model/quantity/coreQuantity'
import { coreValue } from '../../model/quantity/quantity'
import { RULES, type RuleName } from '../../model/quantity/quantityRules'
import type { GapElement } from '../../model/schema/candidate'
import type { GaussianJoint, MisalignmentAxis } from '../../optics/index'
import { editElement } from '../../store/elementEdits'

const PLACES: Readonly<
  Record<
    MisalignmentAxis,
    { readonly field: 'offsetX' | 'offsetY' | 'gap' | 'tiltX' | 'tiltY' | 'roll'; readonly rule: RuleName }
  >
> = {
  offsetXUm: { field: 'offsetX', rule: 'offset' },
  offsetYUm: { field: 'offsetY', rule: 'offset' },
  gapUm: { field: 'gap', rule: 'gap' },
  tiltXRad: { field: 'tiltX', rule: 'tilt' },
  tiltYRad: { field: 'tiltY', rule: 'tilt' },
  rollRad: { field: 'roll', rule: 'roll' },
}
/** Digits that a click is written with: more than a person places by eye. */
const DIGITS = 4

export type MovedAxis = readonly [axis: MisalignmentAxis, toCore: number]

/** The value within the range that the field allows. */
function allowed(rule: RuleName, core: number): number {
  const { minCore, maxCore } = RULES[rule]
  return Math.min(maxCore, Math.max(minCore, core))
}

/** Moves a gap so that its joint has the given values; what the joint adds to the fields, such as pointing, stays. */
export function moveWorkingPoint(
  designId: string,
  elementId: string,
  joint: GaussianJoint,
  moves: readonly MovedAxis[],
): void {
  editElement(designId, elementId, 'gap', (gap: GapElement) => {
    for (const [axis, toCore] of moves) {
      if (toCore === joint[axis]) continue
      const { field, rule } = PLACES[axis]
      const quantity = gap[field]
      setCoreValue(quantity, rule, allowed(rule, coreValue(quantity, rule) + toCore - joint[axis]), DIGITS)
    }
  })
}
