// A loss that no element of the path computes: a connector, propagation, a device, or one of one's own.

import type { UserLine } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import { USER_LINE_KINDS } from '../../model/words/candidate'
import { selectElement } from '../../store/view'
import { editProject } from '../../store/workbench'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { QuantityRow } from '../../ui/fields/QuantityRow'
import { TextField } from '../../ui/fields/TextField'

const KINDS = USER_LINE_KINDS.map((value) => ({
  value,
  label: value === 'user line' ? 'user-defined' : value,
}))

export function UserLineSection({ line, designId }: { readonly line: UserLine; readonly designId: string }) {
  const linesOf = (draft: Project) => byId(draft.candidates, designId)?.userLines
  const find = (draft: Project) => byId(linesOf(draft), line.id)
  const edit = (recipe: (own: UserLine) => void) =>
    editProject((draft) => {
      const own = find(draft)
      if (own !== undefined) recipe(own)
    })
  const remove = () => {
    editProject((draft) => {
      const lines = linesOf(draft)
      const at = lines?.findIndex((each) => each.id === line.id) ?? -1
      if (at >= 0) lines?.splice(at, 1)
    })
    selectElement('')
  }
  return (
    <div className="inspector-rows">
      <TextField
        label="Label"
        text={line.label}
        onCommit={(label) =>
          edit((own) => {
            own.label = label
          })
        }
      />
      <ChoiceField
        label="Kind"
        value={line.kind}
        choices={KINDS}
        onChoose={(value) =>
          edit((own) => {
            own.kind = USER_LINE_KINDS.find((each) => each === value) ?? own.kind
          })
        }
      />
      <QuantityRow label="Loss" quantity={line.loss} ruleName="loss" find={(draft) => find(draft)?.loss} />
      <button type="button" className="subtle" onClick={remove}>
        Delete {line.label}
      </button>
    </div>
  )
}
