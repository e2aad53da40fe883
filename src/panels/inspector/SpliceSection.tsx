// A splice: the loss that its process reaches, or the bound that an abrupt joint of the two modes sets.

import type { ValidityNote } from '../../analysis/results/evaluation'
import type { ElementOf } from '../../model/schema/candidate'
import { editElement, findElement } from '../../store/elementEdits'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { QuantityRow } from '../../ui/fields/QuantityRow'

const MODELS = [
  { value: 'typed', label: 'entered loss (diffused cores)' },
  { value: 'abrupt', label: 'abrupt mode mismatch' },
]

export function SpliceSection({
  splice,
  designId,
  notes,
}: {
  readonly splice: ElementOf<'splice'>
  readonly designId: string
  /** What the evaluation says about it: the bound that the abrupt joint sets. */
  readonly notes: readonly ValidityNote[]
}) {
  return (
    <div className="inspector-rows">
      <ChoiceField
        label="Splice model"
        value={splice.basis}
        choices={MODELS}
        onChoose={(value) =>
          editElement(designId, splice.id, 'splice', (own) => {
            own.basis = value === 'abrupt' ? 'abrupt' : 'typed'
          })
        }
      />
      {splice.basis === 'typed' && (
        <QuantityRow
          label="Splice loss"
          quantity={splice.loss}
          ruleName="loss"
          find={(draft) => findElement(draft, designId, splice.id, 'splice')?.loss}
        />
      )}
      {notes.map(({ message, caution }) => (
        <p key={message} className={caution === true ? 'complaint' : 'quiet'}>
          {message}
        </p>
      ))}
    </div>
  )
}
