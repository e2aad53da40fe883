// The project's name as the menu of what is done with whole projects.

import { lazy, Suspense, useEffect, useState } from 'react'
import { DEMO_DESIGN_ID } from '../model/index'
import type { Issue } from '../model/issue'
import { EXAMPLES } from '../panels/start/examples'
import { type Command, commandOf, keyText } from '../store/commands'
import { type FileHandle, loadRecentFiles, useRecentFiles } from '../store/files/recentFiles'
import { openInstead } from '../store/files/starting'
import { refuse } from '../store/refusals'
import { useWorkbench } from '../store/workbench'
import { Menu, type MenuEntry } from '../ui/controls/Menu'

const RenameDialog = lazy(async () => ({ default: (await import('./RenameDialog')).RenameDialog }))

function exampleEntries(): readonly MenuEntry[] {
  return EXAMPLES.map(({ id, label, story, load }) => ({
    id,
    label,
    note: story,
    onChoose: () => void openInstead(`Open ${label}`, load, id === 'demo' ? DEMO_DESIGN_ID : undefined),
  }))
}

async function openRecent(file: FileHandle): Promise<readonly Issue[]> {
  return (await import('../store/files/projectFiles')).openRecent(file)
}

function recentEntries(files: ReturnType<typeof useRecentFiles>): readonly MenuEntry[] {
  if (files.length === 0) return []
  return [
    { id: 'recent', break: true, label: 'Recent files' },
    ...files.map((file, at) => ({
      id: `recent-${at}`,
      label: file.name,
      onChoose: () => void openRecent(file).then(refuse),
    })),
  ]
}

export function ProjectMenu({ run }: { readonly run: (command: Command) => void }) {
  const name = useWorkbench((state) => state.project.name)
  const [renaming, setRenaming] = useState<boolean | null>(null)
  const recent = useRecentFiles()
  useEffect(() => {
    void loadRecentFiles()
  }, [])
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
        entries={() => [
          entry(commandOf('new'), 'New…'),
          entry(commandOf('open'), 'Open…'),
          entry(commandOf('save'), 'Save'),
          entry(commandOf('link'), 'Copy link…'),
          { id: 'rename', label: 'Rename…', onChoose: () => setRenaming(true) },
          ...recentEntries(recent),
          { id: 'examples', break: true, label: 'Examples' },
          ...exampleEntries(),
        ]}
      >
        {name} <span aria-hidden="true">▾</span>
      </Menu>
      {renaming !== null && (
        <Suspense fallback={null}>
          <RenameDialog name={name} shown={renaming} onClose={() => setRenaming(false)} />
        </Suspense>
      )}
    </>
  )
}
