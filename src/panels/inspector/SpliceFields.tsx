// A splice: the loss that its process reaches, or the bound that an abrupt joint of the two modes sets.

import type { ValidityNote } from '../../analysis/results/evaluation'
import type { ElementOf } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { editProject } from '../../store/workbench'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { QuantityField } from '../../ui/fields/QuantityField'

type Splice = ElementOf<'splice'>

const BASES = [
  { value: 'typed', label: 'typed loss, cores diffused' },
  { value: 'abrupt', label: 'abrupt mode mismatch' },
]

export function SpliceFields({
  splice,
  candidateId,
  notes,
}: {
  readonly splice: Splice
  readonly candidateId: string
  /** What the budget says about it: the bound that the abrupt joint sets. */
  readonly notes: readonly ValidityNote[]
}) {
  const find = (draft: Project): Splice | undefined => {
    const chain = draft.candidates.find((each) => each.id === candidateId)?.chain
    const element = chain?.find((each) => each.id === splice.id)
    return element?.kind === 'splice' ? element : undefined
  }
  return (
    <>
      <ChoiceField
        label="Splice counted by"
        value={splice.basis}
        choices={BASES}
        onChoose={(value) =>
          editProject((draft) => {
            const own = find(draft)
            if (own !== undefined) own.basis = value === 'abrupt' ? 'abrupt' : 'typed'
          })
        }
      />
      {splice.basis === 'typed' && (
        <QuantityField
          label="Splice loss"
          quantity={splice.loss}
          ruleName="loss"
          find={(draft) => find(draft)?.loss}
        />
      )}
      {notes.map(({ message, caution }) => (
        <p key={message} className={caution === true ? 'complaint chain-note' : 'quiet chain-note'}>
          {message}
        </p>
      ))}
    </>
  )
}
