// Runs that are begun by a click and outlive the screen they were begun on, by key: derived, so never saved and no part of undo. What
// a run gave is kept with what it was made from, so that it is shown as out of date once that has changed.

import { useStore } from 'zustand'
import { createStore } from 'zustand/vanilla'
import { failureText } from '../jobs/workerLife'
import type { Outcome } from '../numerics/outcome'

export interface StartedRun<Finished> {
  readonly finished: Finished | null
  /** The previous run, to compare a new result with the old. */
  readonly before: Finished | null
  /** Share done, 0 to 1; null while nothing runs. */
  readonly progress: number | null
  /** Why the last run gave nothing; empty where it did. What `finished` holds is then older than that. */
  readonly message: string
}

const IDLE = { finished: null, before: null, progress: null, message: '' } as const

type Work<Finished> = (signal: AbortSignal, onProgress: (share: number) => void) => Promise<Outcome<Finished>>

const forgetting = new Set<() => void>()

/** Ends every run and forgets what all gave: another project may have designs of the same id. */
export function forgetStartedRuns(): void {
  for (const forget of forgetting) forget()
}

export function startedRuns<Finished>() {
  type Run = StartedRun<Finished>
  const store = createStore<{ readonly [key: string]: Run }>()(() => ({}))
  const controllers = new Map<string, AbortController>()
  const of = (key: string, states = store.getState()): Run => states[key] ?? IDLE
  const cancel = (key: string): void => controllers.get(key)?.abort()
  forgetting.add(() => {
    for (const controller of controllers.values()) controller.abort()
    controllers.clear()
    store.setState({}, true)
  })
  return {
    of,
    cancel,
    use: (key: string): Run => useStore(store, (states) => of(key, states)),
    /** Every run by its key; the component is drawn again with each change of one. */
    useAll: () => useStore(store, (states) => states),
    anyGoing: (): boolean => Object.values(store.getState()).some(({ progress }) => progress !== null),
    /**
     * Starts a run; one of the same key that is still going is given up for it. What the work refuses replaces the result
     * before; one that failed or was cancelled leaves it.
     */
    start: async (key: string, work: Work<Finished>): Promise<void> => {
      cancel(key)
      const controller = new AbortController()
      controllers.set(key, controller)
      const update = (change: Partial<Run>) => {
        if (controllers.get(key) === controller) store.setState({ [key]: { ...of(key), ...change } })
      }
      update({ progress: 0, message: '' })
      try {
        const outcome = await work(controller.signal, (progress) => {
          // Messages of a worker may be on their way when its run is over or given up.
          if (of(key).progress !== null && !controller.signal.aborted) update({ progress })
        })
        if (outcome.ok) update({ finished: outcome.value, before: of(key).finished, progress: null })
        else update({ finished: null, progress: null, message: outcome.message })
      } catch (error) {
        const message = controller.signal.aborted ? 'Cancelled.' : failureText(error)
        update({ progress: null, message })
      }
    },
  }
}
