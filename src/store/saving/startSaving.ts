// Brings back the project of the last session, and keeps the open one in this browser from then on.

import { type Issue, issueText } from '../../model/issue'
import { projectText } from '../../model/project/projectText'
import { hasUnsavedWork } from '../files/starting'
import { loadReadBack, readBackIssues } from '../readBack'
import { workbench } from '../workbench'
import type { AppTools } from './appTools'
import { BROWSER_CLOCK, type Clock } from './clock'
import { browserProjects, type KeptProjects, type SetAside } from './keptProject'
import { BROWSER_PAGE, type PageEvents } from './pageEvents'
import { SAVING, type Saver, saver } from './saver'
import { type SaveState, stateOfError, tellSaveState } from './saveState'
import { offerSetAside } from './setAside'
import { type Locks, takeTurn } from './tabTurn'

interface SavingTools extends AppTools {
  readonly projects: KeptProjects
  readonly locks: Locks | undefined
  readonly clock: Clock
  readonly page: PageEvents
  readonly tell: (state: SaveState) => void
}

export const browserTools = (app: AppTools): SavingTools => ({
  ...app,
  projects: browserProjects(),
  locks: navigator.locks as unknown as Locks | undefined,
  clock: BROWSER_CLOCK,
  page: BROWSER_PAGE,
  tell: tellSaveState,
})

const present = () => workbench.getState().project

/** Starts both. `shown` is the project that the app began with. Returns the function that stops them. */
export function startSaving(
  { projects, locks, clock, page, tell, settle, restored }: SavingTools,
  shown = present(),
): () => void {
  const stopped = new AbortController()
  const { signal } = stopped
  /** What was shown before anybody has changed it: another project may take its place. */
  let untouched = shown
  let running: Saver | null = null
  let toldRestored = false
  const tellRestored = () => {
    if (!toldRestored && !signal.aborted) restored()
    toldRestored = true
  }

  const setAside = async (reason: SetAside['reason'], kept: unknown, issues: readonly Issue[] = []) => {
    const id = `${Date.now()}-${reason}`
    await projects.setAside({ id, reason, kept, issues: issues.map(issueText) })
  }

  /** Shows what storage holds, or sets it aside where it cannot be shown. */
  const bringBack = async (kept: unknown, reason: 'late' | 'other tab') => {
    if (kept === undefined) return
    const { readProject } = await import('../../model/project/parseProject')
    const result = readProject(kept)
    if (signal.aborted) return
    if (!result.ok) await setAside('unreadable', kept, result.issues)
    else if (present() === untouched) {
      workbench.getState().replaceProject(result.value)
      workbench.temporal.getState().clear()
      untouched = result.value
      tell('saved')
    } else if (![untouched, present()].some((each) => projectText(each) === projectText(result.value))) {
      await setAside(reason, kept)
    }
  }

  /** True once it is safe to write: what was kept is on screen or set aside. */
  const restore = async (reason: 'late' | 'other tab'): Promise<boolean> => {
    const stopWaiting = clock.after(SAVING.answerMs, () => {
      tell('silent')
      tellRestored()
    })
    try {
      const kept = await projects.read()
      stopWaiting()
      if (signal.aborted) return false
      await bringBack(kept, reason)
      await offerSetAside(projects)
      return true
    } catch (error) {
      stopWaiting()
      if (signal.aborted) return false
      tell(stateOfError(error))
      // Storage that cannot be opened has nothing to lose; whatever else is wrong, what it holds must stay.
      return isClosed(error)
    } finally {
      tellRestored()
    }
  }

  const begin = async (waited: boolean): Promise<() => void> => {
    if (waited && !(await restore('other tab'))) return () => {}
    const own = saver({
      present,
      kept: untouched,
      issuesOf: readBackIssues,
      write: projects.write,
      clock,
      tell,
    })
    running = own
    if (waited && present() === untouched) tell('saved')
    own.changed()
    const stopWatching = workbench.subscribe((state, before) => {
      if (state.project !== before.project) own.changed()
    })
    return () => {
      running = null
      stopWatching()
      own.stop()
    }
  }

  const start = async () => {
    try {
      await loadReadBack()
    } catch {
      tell('noReader')
      tellRestored()
      return
    }
    if (!(await restore('late')) || signal.aborted) return
    await takeTurn(locks, signal, begin, () => tell('otherTab'))
  }
  void start()

  const stopPage = page.watch({
    hidden: () => {
      settle()
      running?.flush()
    },
    leaving: () => {
      settle()
      running?.flush()
      if (!hasUnsavedWork()) return false // all of it is in a file
      return running === null ? present() !== untouched : running.atRisk()
    },
  })
  return () => {
    stopped.abort()
    stopPage()
  }
}

function isClosed(error: unknown): boolean {
  return error instanceof DOMException && error.name !== 'QuotaExceededError'
}
