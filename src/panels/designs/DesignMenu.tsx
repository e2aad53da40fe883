// What is done with a whole design: rename, duplicate, delete, move.

import { current } from 'immer'
import { useState } from 'react'
import type { Candidate } from '../../model/schema/candidate'
import { byId } from '../../model/words/byId'
import { freeId, freeName } from '../../model/words/freeName'
import { LIMITS } from '../../model/words/limits'
import { selectDesign } from '../../store/view'
import { editProject, workbench } from '../../store/workbench'
import { Dialog } from '../../ui/controls/Dialog'
import { Menu } from '../../ui/controls/Menu'
import { TextField } from '../../ui/fields/TextField'

export function DesignMenu({
  designId,
  name,
  at,
  count,
  isStop,
}: {
  readonly designId: string
  readonly name: string
  /** Its place among all designs. */
  readonly at: number
  readonly count: number
  /** Whether Tab stops at it: at that of the chosen design. */
  readonly isStop: boolean
}) {
  const [renaming, setRenaming] = useState(false)
  const designs = () => workbench.getState().project.candidates
  const duplicate = () => {
    const id = freeId('candidate', designs())
    editProject((draft) => {
      const own = draft.candidates[at]
      if (own === undefined) return
      const copy: Candidate = structuredClone(current(own))
      draft.candidates.splice(at + 1, 0, {
        ...copy,
        id,
        name: freeName(`${own.name} (copy)`, draft.candidates),
      })
    })
    selectDesign(id)
  }
  const remove = () => {
    const rest = designs().filter((each) => each.id !== designId)
    editProject((draft) => {
      draft.candidates = draft.candidates.filter((each) => each.id !== designId)
    })
    selectDesign(rest[Math.min(at, rest.length - 1)]?.id ?? '')
  }
  const move = (to: number) =>
    editProject((draft) => {
      const [own] = draft.candidates.splice(at, 1)
      if (own !== undefined) draft.candidates.splice(to, 0, own)
    })
  const full = count >= LIMITS.candidates
  return (
    <>
      <Menu
        label={`Actions for ${name}`}
        className="subtle design-actions"
        align="end"
        isStop={isStop}
        entries={() => [
          { id: 'rename', label: 'Rename…', onChoose: () => setRenaming(true) },
          {
            id: 'duplicate',
            label: 'Duplicate',
            disabled: full,
            ...(full ? { note: `A project holds at most ${LIMITS.candidates} designs.` } : {}),
            onChoose: duplicate,
          },
          { id: 'up', label: 'Move up', disabled: at === 0, onChoose: () => move(at - 1) },
          {
            id: 'down',
            label: 'Move down',
            disabled: at === count - 1,
            onChoose: () => move(at + 1),
          },
          { id: 'line', break: true },
          { id: 'delete', label: 'Delete', onChoose: remove },
        ]}
      >
        <span aria-hidden="true">⋯</span>
      </Menu>
      <Dialog title="Rename design" shown={renaming} onClose={() => setRenaming(false)}>
        <TextField
          label="Design name"
          text={name}
          onCommit={(text) => {
            editProject((draft) => {
              const own = byId(draft.candidates, designId)
              if (own !== undefined) own.name = text
            })
            setRenaming(false)
          }}
        />
      </Dialog>
    </>
  )
}
