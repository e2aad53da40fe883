// Saving comes right after the first picture of the page, with what it needs of the database and the reader.

import { workbench } from '../workbench'
import type { AppTools } from './appTools'
import { tellSaveState } from './saveState'

/** Keeps the open project in this browser until the answer is aborted. */
export function keepSaving(app: AppTools): AbortController {
  const ended = new AbortController()
  const { project } = workbench.getState()
  const start = async () => {
    try {
      const { browserTools, startSaving } = await import('./startSaving')
      if (ended.signal.aborted) return
      const stop = startSaving(browserTools(app), project)
      ended.signal.addEventListener('abort', stop)
    } catch {
      tellSaveState('noReader')
      if (!ended.signal.aborted) app.restored()
    }
  }
  void start()
  return ended
}
