// Project files of earlier sessions, where the browser gives handles of files: names and handles stay in this browser.

import { get, set } from 'idb-keyval'
import { useStore } from 'zustand'
import { createStore } from 'zustand/vanilla'

const KEY = 'modeseam-recent-files'
const MOST = 5

/** A handle of the file system, with the permission calls that the type library leaves out. */
export interface FileHandle {
  readonly kind: string
  readonly name: string
  readonly getFile: () => Promise<File>
  readonly isSameEntry: (other: never) => Promise<boolean>
  readonly requestPermission?: (what: { mode: 'read' }) => Promise<string>
}

const recent = createStore<{ readonly files: readonly FileHandle[] }>()(() => ({ files: [] }))

export const useRecentFiles = (): readonly FileHandle[] => useStore(recent, ({ files }) => files)

const isHandle = (value: unknown): value is FileHandle =>
  typeof value === 'object' && value !== null && 'getFile' in value && 'name' in value

/** Reads the list that this browser keeps; an empty one where storage is blocked. */
export async function loadRecentFiles(): Promise<void> {
  try {
    const stored: unknown = await get(KEY)
    if (Array.isArray(stored)) recent.setState({ files: stored.filter(isHandle).slice(0, MOST) })
  } catch {
    // Without storage there are no recent files; opening and saving go on.
  }
}

/** Puts a file at the head of the list. Files that came without a handle leave no trace. */
export async function rememberFile(handle: unknown): Promise<void> {
  if (!isHandle(handle)) return
  try {
    const others: FileHandle[] = []
    for (const each of recent.getState().files) {
      if (!(await each.isSameEntry(handle as never))) others.push(each)
    }
    const files = [handle, ...others].slice(0, MOST)
    recent.setState({ files })
    await set(KEY, files)
  } catch {
    // The list is a convenience: a handle that cannot be kept is not worth a message.
  }
}
