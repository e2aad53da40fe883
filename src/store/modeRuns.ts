// Solved and swept cross-sections of facets, and the modes along their tapers: derived, so never saved and no part of undo. A result is kept with the request
// it answers; once the request has changed it is shown as out of date.

import { useStore } from 'zustand'
import { createStore } from 'zustand/vanilla'
import type { FacetMode, ModeRequest } from '../analysis/crossSection/facetMode'
import type { SweepRequest, SweepResult } from '../analysis/crossSection/modeSweep'
import type { TaperChain, TaperRequest } from '../analysis/crossSection/taperChain'
import { failureText } from '../jobs/workerLife'
import type { Outcome } from '../numerics/outcome'

interface Requests {
  readonly solve: ModeRequest
  readonly sweep: SweepRequest
  readonly taper: TaperRequest
}
interface Results {
  readonly solve: FacetMode
  readonly sweep: SweepResult
  readonly taper: TaperChain
}
export type ModeRunKind = keyof Requests

interface ModeRun<K extends ModeRunKind> {
  readonly finished: { readonly request: Requests[K]; readonly result: Results[K] } | null
  /** Share done, 0 to 1; null while nothing runs. */
  readonly progress: number | null
  /** Why the last run gave nothing; empty where it did. */
  readonly message: string
}

const IDLE = { finished: null, progress: null, message: '' } as const

const runs = createStore<{ readonly [key: string]: ModeRun<ModeRunKind> }>()(() => ({}))
const controllers = new Map<string, AbortController>()

const keyOf = (kind: ModeRunKind, facetId: string) => `${kind}/${facetId}`

export function useModeRun<K extends ModeRunKind>(kind: K, facetId: string): ModeRun<K> {
  return useStore(runs, (state) => (state[keyOf(kind, facetId)] ?? IDLE) as ModeRun<K>)
}

/** Whether a finished run answers exactly this request. */
export function answers<K extends ModeRunKind>(run: ModeRun<K>, request: Requests[K]): boolean {
  return run.finished !== null && JSON.stringify(run.finished.request) === JSON.stringify(request)
}

export function cancelModeRun(kind: ModeRunKind, facetId: string): void {
  controllers.get(keyOf(kind, facetId))?.abort()
}

/** Starts a run; one of the same kind and facet that is still going is given up for it. */
export async function startModeRun<K extends ModeRunKind>(
  kind: K,
  facetId: string,
  request: Requests[K],
): Promise<void> {
  cancelModeRun(kind, facetId)
  const controller = new AbortController()
  const key = keyOf(kind, facetId)
  controllers.set(key, controller)
  const update = (change: Partial<ModeRun<K>>) => {
    if (controllers.get(key) !== controller) return
    const before = (runs.getState()[key] ?? IDLE) as ModeRun<K>
    runs.setState({ [key]: { ...before, ...change } as ModeRun<ModeRunKind> })
  }
  update({ progress: 0, message: '' })
  try {
    const { runModeJob } = await import('../jobs/modeSolveClient')
    const outcome = (await runModeJob(kind, request as never, {
      signal: controller.signal,
      onProgress: (progress) => update({ progress }),
    })) as Outcome<Results[K]>
    if (outcome.ok) update({ finished: { request, result: outcome.value }, progress: null })
    else update({ finished: null, progress: null, message: outcome.message })
  } catch (error) {
    const message = controller.signal.aborted ? 'Cancelled. Showing the previous result.' : failureText(error)
    update({ progress: null, message })
  }
}
