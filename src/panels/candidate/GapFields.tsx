// The six degrees of freedom of a gap and its end faces, as numbers.

import type { GapElement } from '../../model/candidate'
import type { RuleName } from '../../model/quantityRules'
import { QuantityField } from '../fields/QuantityField'

type GapQuantity =
  | 'gap'
  | 'offsetX'
  | 'offsetY'
  | 'tiltX'
  | 'tiltY'
  | 'roll'
  | 'nearFaceAngle'
  | 'farFaceAngle'

const FIELDS: readonly { readonly field: GapQuantity; readonly label: string; readonly rule: RuleName }[] = [
  { field: 'gap', label: 'Gap', rule: 'gap' },
  { field: 'offsetX', label: 'Offset x', rule: 'offset' },
  { field: 'offsetY', label: 'Offset y', rule: 'offset' },
  { field: 'tiltX', label: 'Tilt x', rule: 'tilt' },
  { field: 'tiltY', label: 'Tilt y', rule: 'tilt' },
  { field: 'roll', label: 'Roll', rule: 'roll' },
  { field: 'nearFaceAngle', label: 'Near face angle', rule: 'faceAngle' },
  { field: 'farFaceAngle', label: 'Far face angle', rule: 'faceAngle' },
]

export function GapFields({ gap, candidateId }: { readonly gap: GapElement; readonly candidateId: string }) {
  return (
    <fieldset className="field-grid">
      <legend>Gap</legend>
      {FIELDS.map(({ field, label, rule }) => (
        <QuantityField
          key={field}
          label={label}
          quantity={gap[field]}
          ruleName={rule}
          find={(draft) => {
            const chain = draft.candidates.find((each) => each.id === candidateId)?.chain
            const element = chain?.find((each) => each.id === gap.id)
            return element?.kind === 'gap' ? element[field] : undefined
          }}
        />
      ))}
    </fieldset>
  )
}
