// Solved and swept cross-sections of facets, and the modes along their tapers: derived, so never saved and no part of undo. A result is kept with the request
// it answers; once the request has changed it is shown as out of date.

import type { FacetMode, ModeRequest } from '../analysis/crossSection/facetMode'
import type { SweepRequest, SweepResult } from '../analysis/crossSection/modeSweep'
import type { TaperChain, TaperRequest } from '../analysis/crossSection/taperChain'
import type { Outcome } from '../numerics/outcome'
import { type StartedRun, startedRuns } from './startedRuns'

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

interface FinishedRun<K extends ModeRunKind> {
  readonly request: Requests[K]
  readonly result: Results[K]
}
type ModeRun<K extends ModeRunKind> = StartedRun<FinishedRun<K>>

const runs = startedRuns<FinishedRun<ModeRunKind>>()

const keyOf = (kind: ModeRunKind, facetId: string) => `${kind}/${facetId}`

export function useModeRun<K extends ModeRunKind>(kind: K, facetId: string): ModeRun<K> {
  return runs.use(keyOf(kind, facetId)) as ModeRun<K>
}

/** Whether a finished run answers exactly this request. */
export function answers<K extends ModeRunKind>(run: ModeRun<K>, request: Requests[K]): boolean {
  return run.finished !== null && JSON.stringify(run.finished.request) === JSON.stringify(request)
}

export function cancelModeRun(kind: ModeRunKind, facetId: string): void {
  runs.cancel(keyOf(kind, facetId))
}

export function startModeRun<K extends ModeRunKind>(
  kind: K,
  facetId: string,
  request: Requests[K],
): Promise<void> {
  return runs.start(keyOf(kind, facetId), async (signal, onProgress) => {
    const { runModeJob } = await import('../jobs/modeSolveClient')
    const outcome = (await runModeJob(kind, request as never, { signal, onProgress })) as Outcome<Results[K]>
    return outcome.ok ? { ok: true, value: { request, result: outcome.value } } : outcome
  })
}
