// Keeps the project in this browser while it is being worked on, and brings it back at the next start.
// Only the first tab saves: two tabs that save over each other would lose one's work without a word.

import { get, set } from 'idb-keyval'
import { failure, type Issue } from '../model/issue'
import { workbench } from './workbench'

const KEY = 'modeseam-autosave'
const UNREAD_KEY = 'modeseam-autosave-unread'
const DELAY_MS = 1000

export const SAVE_STATES = {
  fresh: 'not saved yet',
  saved: 'saved in this browser',
  refused: 'not kept: the browser refuses storage; save to a file',
  otherTab: 'not kept: open in another tab too; save to a file',
} as const
export type SaveState = (typeof SAVE_STATES)[keyof typeof SAVE_STATES]

const UNREAD: Issue = {
  path: [],
  code: 'format',
  message: 'the project kept in this browser from the last session cannot be read',
  fix: `It is set aside in the browser's storage as ${UNREAD_KEY}, where later saves leave it alone.`,
}

/**
 * Restores the last session's project; the demo stays where there is none or it cannot be read.
 * What cannot be read is set aside, because the next save would take its place. Returns why it was not restored.
 */
export async function recoverProject(onRestored: () => void): Promise<readonly Issue[]> {
  try {
    const kept: unknown = await get(KEY)
    if (kept === undefined) return []
    // The reader comes late; without it the kept project is set aside like one that cannot be read.
    const reader = await import('../model/project/parseProject').catch(() => null)
    const result = reader?.readProject(kept) ?? failure()
    if (!result.ok) {
      await set(UNREAD_KEY, kept)
      return [UNREAD, ...result.issues]
    }
    workbench.getState().replaceProject(result.value)
    workbench.temporal.getState().clear()
    onRestored()
  } catch {
    // Blocked storage: the session starts from the demo, and the first save says so on screen.
  }
  return []
}

/** Within one tab the turns follow each other: a restart must not take the turn it ends for another tab. */
let lastTurn: Promise<unknown> = Promise.resolve()

/** Runs `work` in this tab if no other tab of the program is doing so already. Returns the function that ends it. */
function asOnlyTab(work: () => () => void, otherwise: () => void): () => void {
  let release = () => {}
  const ended = new Promise<void>((resolve) => {
    release = resolve
  })
  if (navigator.locks === undefined) {
    const stop = work()
    return stop
  }
  const { locks } = navigator
  lastTurn = lastTurn.then(() =>
    locks.request(KEY, { ifAvailable: true }, async (lock) => {
      if (lock === null) {
        otherwise()
        return
      }
      const stop = work()
      await ended
      stop()
    }),
  )
  return () => release()
}

/** Saves a second after the last change, or at once if the page is hidden before. Returns the function that stops it. */
export function startAutosave(tell: (state: SaveState) => void): () => void {
  return asOnlyTab(
    () => saveOnChange(tell),
    () => tell(SAVE_STATES.otherTab),
  )
}

function saveOnChange(tell: (state: SaveState) => void): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined
  /** False until something changes: a page hidden while it still starts must not save the demo over the kept project. */
  let changed = false
  const save = async () => {
    clearTimeout(timer)
    try {
      const { project } = workbench.getState()
      await set(KEY, project)
      if (workbench.getState().project === project) changed = false
      tell(SAVE_STATES.saved)
    } catch {
      tell(SAVE_STATES.refused)
    }
  }
  const whenHidden = () => {
    if (changed && document.visibilityState === 'hidden') void save()
  }
  const stop = workbench.subscribe((state, before) => {
    if (state.project === before.project) return
    changed = true
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
