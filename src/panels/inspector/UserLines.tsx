// Losses that no element of the chain computes: connectors, propagation, devices, or a line of one's own.

import { quantityOf } from '../../model/quantity/quantity'
import type { Candidate, UserLine } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { USER_LINE_KINDS } from '../../model/words/candidate'
import { freeId } from '../../model/words/freeName'
import { LIMITS } from '../../model/words/limits'
import { editProject } from '../../store/workbench'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { QuantityField } from '../../ui/fields/QuantityField'
import { TextField } from '../../ui/fields/TextField'

const KIND_CHOICES = USER_LINE_KINDS.map((value) => ({ value, label: value }))

export function UserLines({ candidate }: { readonly candidate: Candidate }) {
  const editLines = (recipe: (lines: UserLine[]) => void) =>
    editProject((draft) => {
      const own = draft.candidates.find((each) => each.id === candidate.id)
      if (own !== undefined) recipe(own.userLines)
    })
  const add = () =>
    editLines((lines) => {
      lines.push({
        id: freeId('line', lines),
        label: 'Own line',
        kind: 'user line',
        loss: quantityOf(0.1, 'dB'),
      })
    })
  return (
    <fieldset className="field-grid">
      <legend>Other losses</legend>
      {candidate.userLines.map((line) => (
        <UserLineFields key={line.id} line={line} candidateId={candidate.id} editLines={editLines} />
      ))}
      <div className="wide">
        <button type="button" onClick={add} disabled={candidate.userLines.length >= LIMITS.userLines}>
          Add a loss line
        </button>
      </div>
    </fieldset>
  )
}

function UserLineFields({
  line,
  candidateId,
  editLines,
}: {
  readonly line: UserLine
  readonly candidateId: string
  readonly editLines: (recipe: (lines: UserLine[]) => void) => void
}) {
  const editOwn = (recipe: (own: UserLine) => void) =>
    editLines((lines) => {
      const own = lines.find((each) => each.id === line.id)
      if (own !== undefined) recipe(own)
    })
  const find = (draft: Project) =>
    draft.candidates.find((each) => each.id === candidateId)?.userLines.find((each) => each.id === line.id)
      ?.loss
  return (
    <>
      <TextField
        label="Label"
        text={line.label}
        onCommit={(label) =>
          editOwn((own) => {
            own.label = label
          })
        }
      />
      <ChoiceField
        label="Kind"
        value={line.kind}
        choices={KIND_CHOICES}
        onChoose={(value) =>
          editOwn((own) => {
            own.kind = USER_LINE_KINDS.find((each) => each === value) ?? own.kind
          })
        }
      />
      <QuantityField label={`Loss of ${line.label}`} quantity={line.loss} ruleName="loss" find={find} />
      <div>
        <button
          type="button"
          onClick={() =>
            editLines((lines) => {
              const at = lines.findIndex((each) => each.id === line.id)
              if (at >= 0) lines.splice(at, 1)
            })
          }
        >
          Delete {line.label}
        </button>
      </div>
    </>
  )
}
