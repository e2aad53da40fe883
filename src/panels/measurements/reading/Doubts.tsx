// Every doubt of the reader as a question with its choices; an answer reads the file again.

import type { Doubt } from '../../../measure/index'
import { answerDoubt } from '../../../store/benchDesk'
import { ChoiceField } from '../../../ui/fields/ChoiceField'
import { DELIMITER_CHOICES, MARK_CHOICES } from '../measurementText'

const NAMES = new Map([...DELIMITER_CHOICES, ...MARK_CHOICES].map(({ value, label }) => [value, label]))
const nameOf = (doubt: Doubt, value: string) =>
  doubt.id === 'decimal-mark'
    ? value === ','
      ? 'a decimal mark'
      : 'a thousands separator'
    : (NAMES.get(value) ?? (value === 'um' ? 'µm' : value))

export function Doubts({ doubts }: { readonly doubts: readonly Doubt[] }) {
  if (doubts.length === 0) return <p className="quiet">No ambiguities.</p>
  return (
    <fieldset className="questions">
      <legend>{doubts.length === 1 ? '1 item to confirm' : `${doubts.length} items to confirm`}</legend>
      {doubts.map((doubt) => (
        <ChoiceField
          key={doubt.id}
          label={doubt.question}
          value={doubt.assumed}
          choices={[doubt.assumed, ...doubt.alternatives].map((value) => ({
            value,
            label: value === doubt.assumed ? `${nameOf(doubt, value)} (assumed)` : nameOf(doubt, value),
          }))}
          onChoose={(answer) => answerDoubt(doubt.id, answer)}
        />
      ))}
    </fieldset>
  )
}
