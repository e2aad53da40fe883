// Another name for the open project.

import { editProject } from '../store/workbench'
import { Dialog } from '../ui/controls/Dialog'
import { TextField } from '../ui/fields/TextField'

export function RenameDialog({
  name,
  shown,
  onClose,
}: {
  readonly name: string
  readonly shown: boolean
  readonly onClose: () => void
}) {
  return (
    <Dialog title="Rename project" shown={shown} onClose={onClose}>
      <TextField
        label="Project name"
        text={name}
        onCommit={(text) => {
          editProject((draft) => {
            draft.name = text
          })
          onClose()
        }}
      />
    </Dialog>
  )
}
