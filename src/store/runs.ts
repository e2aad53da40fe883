// Yield and array runs of the candidates: derived, so never saved and no part of undo. A result is kept with the inputs
// it came from; once these have changed it is shown as out of date, never as the present answer.

import { useRef } from 'react'
import type { ArrayResult } from '../analysis/array/runArray'
import type { AssemblyResult } from '../analysis/assembly/assemblyResult'
import type { YieldOptions } from '../analysis/yield/runYield'
import type { CostWeights, ShareOut } from '../analysis/yield/shareOut'
import type { YieldResult } from '../analysis/yield/yieldResult'
import { stressTestOf } from '../model/measurements/stressTestOf'
import { PART_LISTS } from '../model/project/references'
import type { Project } from '../model/schema/project'
import { byId } from '../model/words/byId'
import { solvedKeys, withSolvedFields } from './solvedFields'
import { type StartedRun, startedRuns } from './startedRuns'

const RUN_KINDS = ['yield', 'array', 'shareOut', 'assembly'] as const
export type RunKind = (typeof RUN_KINDS)[number]

interface RunResults {
  readonly yield: YieldResult
  readonly array: ArrayResult
  readonly shareOut: ShareOut
  readonly assembly: AssemblyResult
}

/** A finished run and what it was made from. */
interface FinishedRun<K extends RunKind> {
  readonly result: RunResults[K]
  readonly inputs: string
}

export type RunState<K extends RunKind> = StartedRun<FinishedRun<K>>

const runs = startedRuns<FinishedRun<RunKind>>()

const keyOf = (kind: RunKind, candidateId: string) => `${kind}/${candidateId}`

const texts = new WeakMap<object, string>()

/** JSON of what an edit leaves the same object as long as nothing in it has changed. */
function textOf(value: object): string {
  const known = texts.get(value)
  if (known !== undefined) return known
  const text = JSON.stringify(value)
  texts.set(value, text)
  return text
}

/**
 * Everything of the project that a run of the candidate depends on, as text. Names and other candidates are ignored, and the
 * assembly sequence only for a run through it.
 */
export function inputsOf(project: Project, candidateId: string, kind: RunKind = 'yield'): string {
  const candidate = byId(project.candidates, candidateId)
  const { name: _, remark: __, assembly, ...chain } = candidate ?? { name: '', assembly: undefined }
  const kept = [project.requirements, ...PART_LISTS.map((list) => project[list])].map(textOf)
  const steps = kind === 'assembly' ? [JSON.stringify(assembly ?? null)] : []
  const stress = candidate === undefined ? undefined : stressTestOf(project, candidate)
  const tested = stress === undefined ? [] : [textOf(stress)]
  return [...kept, JSON.stringify(chain), solvedKeys(project), ...steps, ...tested].join('\n')
}

function stateOf<K extends RunKind>(kind: K, candidateId: string): RunState<K> {
  return runs.of(keyOf(kind, candidateId)) as RunState<K>
}

export function useRun<K extends RunKind>(kind: K, candidateId: string): RunState<K> {
  return runs.use(keyOf(kind, candidateId)) as RunState<K>
}

/** The results that still hold for the project, by candidate: what verdicts and sheets may quote. */
export function useFreshRuns<K extends RunKind>(
  kind: K,
  project: Project,
): ReadonlyMap<string, RunResults[K]> {
  const all = runs.useAll()
  const now = new Map(
    project.candidates.flatMap(({ id }) => {
      const finished = (all[keyOf(kind, id)] as RunState<K> | undefined)?.finished
      return finished != null && finished.inputs === inputsOf(project, id, kind)
        ? [[id, finished.result] as const]
        : []
    }),
  )
  // The same map as long as it holds the same, so that what is made from it is not made again.
  const last = useRef(now)
  const same = last.current.size === now.size && [...now].every(([id, run]) => last.current.get(id) === run)
  if (!same) last.current = now
  return last.current
}

/** The last results, whether they still hold or not: for showing what was, marked as out of date. */
export function useLastRuns<K extends RunKind>(
  kind: K,
  project: Project,
): ReadonlyMap<string, RunResults[K]> {
  const all = runs.useAll()
  return new Map(
    project.candidates.flatMap(({ id }) => {
      const finished = (all[keyOf(kind, id)] as RunState<K> | undefined)?.finished
      return finished == null ? [] : [[id, finished.result] as const]
    }),
  )
}

export interface OutdatedRun {
  readonly kind: 'yield' | 'array'
  readonly key: string
  readonly candidateId: string
  /** Samples or arrays of the run that no longer holds. */
  readonly samples: number
  /** What the project's inputs are now. */
  readonly inputs: string
}

/** Finished runs whose inputs have changed since. */
export function outdatedRuns(project: Project): readonly OutdatedRun[] {
  return project.candidates.flatMap(({ id: candidateId }) =>
    (['yield', 'array'] as const).flatMap((kind): readonly OutdatedRun[] => {
      const { finished } = stateOf(kind, candidateId)
      if (finished === null) return []
      const inputs = inputsOf(project, candidateId)
      return finished.inputs === inputs
        ? []
        : [{ kind, key: keyOf(kind, candidateId), candidateId, samples: finished.result.samples, inputs }]
    }),
  )
}

/** Whether any run is going. */
export const runsGoing = runs.anyGoing

export function cancelRun(kind: RunKind, candidateId: string): void {
  runs.cancel(keyOf(kind, candidateId))
}

/** Starts a run; its result is kept with the project's inputs of now. */
function start<K extends RunKind>(
  kind: K,
  project: Project,
  candidateId: string,
  work: (signal: AbortSignal, onProgress: (share: number) => void) => Promise<RunResults[K]>,
): Promise<void> {
  return runs.start(keyOf(kind, candidateId), async (signal, onProgress) => {
    const result = await work(signal, onProgress)
    return { ok: true, value: { result, inputs: inputsOf(project, candidateId, kind) } }
  })
}

/** What runs need is loaded with the first of them. */
async function runTools() {
  const [crew, { yieldPlan }] = await Promise.all([
    import('../jobs/yieldClient'),
    import('../analysis/yield/runYield'),
  ])
  return { ...crew, yieldPlan }
}

export function startYield(project: Project, candidateId: string, options: YieldOptions): Promise<void> {
  return start('yield', project, candidateId, async (signal, onProgress) => {
    const { BROWSER_CREW, crewSize, runYieldCrew, yieldPlan } = await runTools()
    return runYieldCrew(withSolvedFields(project), yieldPlan(project, candidateId, options), {
      ...BROWSER_CREW,
      signal,
      onProgress,
      size: crewSize(navigator.hardwareConcurrency),
    })
  })
}

export function startArray(project: Project, candidateId: string, samples: number): Promise<void> {
  return start('array', project, candidateId, async (signal, onProgress) => {
    const { BROWSER_CREW, runJob, yieldPlan } = await runTools()
    const work = { ...BROWSER_CREW, signal }
    return runJob(
      withSolvedFields(project),
      yieldPlan(project, candidateId),
      (member) => member.array(samples, onProgress),
      work,
    )
  })
}

export function startShareOut(
  project: Project,
  candidateId: string,
  wanted: number,
  weights: CostWeights,
): Promise<void> {
  return start('shareOut', project, candidateId, async (signal) => {
    const { BROWSER_CREW, runJob, yieldPlan } = await runTools()
    const work = { ...BROWSER_CREW, signal }
    return runJob(
      withSolvedFields(project),
      yieldPlan(project, candidateId),
      (member) => member.shareOut(wanted, weights),
      work,
    )
  })
}

/** Through the sequence of the design, or through the usual one where none is planned. */
export function startAssembly(project: Project, candidateId: string, samples: number): Promise<void> {
  return start('assembly', project, candidateId, async (signal, onProgress) => {
    const { BROWSER_CREW, runJob, yieldPlan } = await runTools()
    return runJob(
      withSolvedFields(project),
      yieldPlan(project, candidateId),
      (member) => member.assembly(samples, onProgress),
      { ...BROWSER_CREW, signal },
    )
  })
}
