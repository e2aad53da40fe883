// Keeps the project in this browser while it is being worked on, and brings it back at the next start.

import { get, set } from 'idb-keyval'
import { readProject } from '../model/index'
import { workbench } from './workbench'

const KEY = 'modeseam-autosave'
const DELAY_MS = 1000

export type SaveState = 'not saved yet' | 'saved in this browser' | 'not saved: the browser refuses storage'

/** Restores the last session's project; the demo stays where there is none or it cannot be read. */
export async function recoverProject(): Promise<void> {
  try {
    const kept: unknown = await get(KEY)
    if (kept === undefined) return
    const result = readProject(kept)
    if (!result.ok) return
    workbench.getState().replaceProject(result.value)
    workbench.temporal.getState().clear()
  } catch {
    // Blocked storage: the session starts from the demo, and the first save says so on screen.
  }
}

/** Saves a second after the last change and when the page is hidden. Returns the function that stops it. */
export function startAutosave(tell: (state: SaveState) => void): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined
  const save = () => {
    clearTimeout(timer)
    set(KEY, workbench.getState().project).then(
      () => tell('saved in this browser'),
      () => tell('not saved: the browser refuses storage'),
    )
  }
  const whenHidden = () => {
    if (document.visibilityState === 'hidden') save()
  }
  const stop = workbench.subscribe((state, before) => {
    if (state.project === before.project) return
    clearTimeout(timer)
    timer = setTimeout(save, DELAY_MS)
  })
  document.addEventListener('visibilitychange', whenHidden)
  return () => {
    stop()
    clearTimeout(timer)
    document.removeEventListener('visibilitychange', whenHidden)
  }
}
