// What has become of the last change, in one sentence.

import { useStore } from 'zustand'
import { createStore } from 'zustand/vanilla'

export const SAVE_SENTENCES = {
  fresh: 'Not saved yet',
  saving: 'Saving…',
  saved: 'Saved in this browser',
  blocked: 'Not autosaved: browser storage is blocked. Save to a file.',
  full: 'Not autosaved: browser storage is full. Save to a file.',
  silent: 'Not autosaved: browser storage is not responding. Save to a file.',
  otherTab: 'Not autosaved: another tab is saving this project; this tab takes over when that one is closed.',
  unreadable: 'Not autosaved: the project could not be read back. Undo the last change.',
  noReader: 'Not autosaved: a part of the app could not be loaded. Save to a file.',
} as const
/** The command that helps, where it is not saving to a file. */
export const REMEDIES: { readonly [state in SaveState]?: 'undo' } = { unreadable: 'undo' }

export type SaveState = keyof typeof SAVE_SENTENCES

const state = createStore<{ readonly at: SaveState }>()(() => ({ at: 'fresh' }))

export function tellSaveState(at: SaveState): void {
  state.setState({ at })
}

export function useSaveState(): SaveState {
  return useStore(state, ({ at }) => at)
}

/** Whether the state needs action by the user. */
export function needsAttention(at: SaveState): boolean {
  return at !== 'fresh' && at !== 'saving' && at !== 'saved'
}

/** The state that corresponds to an error of the browser's storage. */
export function stateOfError(error: unknown): SaveState {
  return error instanceof DOMException && error.name === 'QuotaExceededError' ? 'full' : 'blocked'
}
