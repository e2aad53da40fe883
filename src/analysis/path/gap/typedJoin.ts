// An entered value in place of a computed joint, with a note that gives the computed loss.

import type { Path } from '../../../model/issue'
import type { Quantity } from '../../../model/quantity/quantity'
import { fixedText } from '../../../numerics/numberText'
import type { ChainContext, JoinModel } from '../vector/elementModels'

export function typedJoin(
  context: ChainContext,
  join: JoinModel,
  elementId: string,
  loss: Quantity,
  path: Path,
): JoinModel {
  const lossDb = context.readers.quantity(loss, 'loss', 'entered joint loss', path)
  const { gapJoint: _, ...rest } = join
  return {
    ...rest,
    lossDb,
    searchDb: lossDb,
    lines: [
      {
        id: `${elementId}/typed`,
        label: 'Joint, entered value',
        kind: 'user line',
        provenance: loss.provenance,
        elementId,
        lossDb,
      },
    ],
    notes: (v) => [
      {
        elementId,
        message: `The loss of this joint is an entered value, ${fixedText(lossDb(v), 2)} dB; computed from its parts it is ${fixedText(join.lossDb(v), 2)} dB. Tolerances of the parts do not change an entered value.`,
      },
      ...join.notes(v),
    ],
  }
}
