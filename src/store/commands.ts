// The commands of the workbench: the buttons, the shortcuts and the list of keys all read this.

import { DEMO_DESIGN_ID, demoProject } from '../model/index'
import type { Issue } from '../model/issue'
import { byId } from '../model/words/byId'
import { showLink } from './address/openLink'
import { describeNew, openInstead } from './files/starting'
import { nextTheme } from './theme'
import { redo, undo } from './workbench'

export interface Command {
  readonly id: string
  readonly label: string
  /** Key with Ctrl (or Cmd); `Z` with shift is written `shift+z`. */
  readonly keys: readonly string[]
  /** True where text being typed has the same command of its own. */
  readonly alsoForText: boolean
  readonly run: () => Promise<readonly Issue[]>
}

/** What works with files comes with the first file. */
const files = () => import('./files/projectFiles')

const plain = (act: () => void) => async (): Promise<readonly Issue[]> => {
  act()
  return []
}

export const COMMANDS: readonly Command[] = [
  {
    id: 'new',
    label: 'New',
    keys: [],
    alsoForText: false,
    run: async () => {
      await describeNew()
      return []
    },
  },
  {
    id: 'demo',
    label: 'Demo',
    keys: [],
    alsoForText: false,
    run: async () => {
      await openInstead('Open the demo', async () => demoProject(), DEMO_DESIGN_ID)
      return []
    },
  },
  {
    id: 'open',
    label: 'Open',
    keys: ['o'],
    alsoForText: false,
    run: async () => (await files()).openProject(),
  },
  {
    id: 'save',
    label: 'Save',
    keys: ['s'],
    alsoForText: false,
    run: async () => (await files()).saveProject(),
  },
  { id: 'link', label: 'Copy link', keys: [], alsoForText: false, run: plain(() => showLink(true)) },
  { id: 'undo', label: 'Undo', keys: ['z'], alsoForText: true, run: plain(undo) },
  { id: 'redo', label: 'Redo', keys: ['shift+z', 'y'], alsoForText: true, run: plain(redo) },
  { id: 'theme', label: 'Theme', keys: [], alsoForText: false, run: plain(nextTheme) },
]

/** `shift+z` as people read it: `Ctrl+Shift+Z`. */
export function keyText(key: string): string {
  const parts = key.split('+').map((part) => part.charAt(0).toUpperCase() + part.slice(1))
  return ['Ctrl', ...parts].join('+')
}

/** The command of that id, which must be in the list. */
export function commandOf(id: string): Command {
  const command = byId(COMMANDS, id)
  if (command === undefined) throw new Error(`unknown command: "${id}"`)
  return command
}

export function commandFor(event: KeyboardEvent): Command | undefined {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return undefined
  const key = `${event.shiftKey ? 'shift+' : ''}${event.key.toLowerCase()}`
  return COMMANDS.find((command) => command.keys.includes(key))
}
