// The project's name as the menu of what is done with whole projects.

import { useState } from 'react'
import { type Command, commandOf, keyText } from '../store/commands'
import { editProject, useWorkbench } from '../store/workbench'
import { Dialog } from '../ui/controls/Dialog'
import { Menu, type MenuEntry } from '../ui/controls/Menu'
import { TextField } from '../ui/fields/TextField'

export function ProjectMenu({ run }: { readonly run: (command: Command) => void }) {
  const name = useWorkbench((state) => state.project.name)
  const [renaming, setRenaming] = useState(false)
  const entry = (command: Command, label = command.label): MenuEntry => ({
    id: command.id,
    label,
    ...(command.keys[0] === undefined ? {} : { keys: keyText(command.keys[0]) }),
    onChoose: () => run(command),
  })
  return (
    <>
      <Menu
        label={`Project: ${name}`}
        className="app-project"
        entries={[
          entry(commandOf('new'), 'New'),
          entry(commandOf('open'), 'Open…'),
          entry(commandOf('save'), 'Save'),
          entry(commandOf('link'), 'Copy link…'),
          { id: 'rename', label: 'Rename…', onChoose: () => setRenaming(true) },
          { id: 'examples', break: true, label: 'Examples' },
          entry(commandOf('demo'), 'Demo'),
        ]}
      >
        {name} <span aria-hidden="true">▾</span>
      </Menu>
      <Dialog title="Rename project" shown={renaming} onClose={() => setRenaming(false)}>
        <TextField
          label="Project name"
          text={name}
          onCommit={(text) => {
            editProject((draft) => {
              draft.name = text
            })
            setRenaming(false)
          }}
        />
      </Dialog>
    </>
  )
}
