// Yield and array runs of every design that has none that holds, one after the other.

import { useStore } from 'zustand'
import { createStore } from 'zustand/vanilla'
import { ARRAY_DEFAULTS, hasArrayRun } from '../analysis/array/arrayDefaults'
import type { Project } from '../model/schema/project'
import { cancelRun, startArray, startYield } from './runs'
import { workbench } from './workbench'

interface WantedRun {
  readonly candidateId: string
  readonly name: string
  readonly kind: 'yield' | 'array'
}

/** Samples of every run in place of the usual ones. */
interface RunSizes {
  readonly samples?: number
  readonly arrays?: number
}

interface Turn {
  /** What is being simulated, in words; empty while nothing is. */
  readonly running: string
  readonly current: WantedRun | null
  readonly done: number
  readonly of: number
}

const IDLE: Turn = { running: '', current: null, done: 0, of: 0 }
const all = createStore<Turn>()(() => IDLE)
let cancelled = false

/** What is being simulated, in words; empty while nothing is. */
export const useRunningAll = (): string => useStore(all, ({ running }) => running)

/** The run that is going and how many of how many are done. */
export const useTurn = (): Turn => useStore(all)

/** Gives up the run that is going and those that were to follow. */
export function cancelAll(): void {
  cancelled = true
  const { current } = all.getState()
  if (current !== null) cancelRun(current.kind, current.candidateId)
}

/** Runs that the designs can have. */
export function runsOf(project: Project): readonly WantedRun[] {
  return project.candidates.flatMap((candidate): readonly WantedRun[] => {
    const { id: candidateId, name } = candidate
    return [
      { candidateId, name, kind: 'yield' },
      ...(hasArrayRun(project, candidate) ? [{ candidateId, name, kind: 'array' as const }] : []),
    ]
  })
}

/** Runs them in turn, each for the project as it is then; what has gone from it is skipped. */
export async function runAll(wanted: readonly WantedRun[], sizes: RunSizes = {}): Promise<void> {
  if (all.getState().running !== '') return
  cancelled = false
  const { samples, arrays = ARRAY_DEFAULTS.samples } = sizes
  for (const [done, current] of wanted.entries()) {
    if (cancelled) break
    const { candidateId, name, kind } = current
    const { project } = workbench.getState()
    if (!project.candidates.some(({ id }) => id === candidateId)) continue
    const running = kind === 'yield' ? `assemblies of ${name}` : `arrays of ${name}`
    all.setState({ running, current, done, of: wanted.length })
    await (kind === 'yield'
      ? startYield(project, candidateId, samples === undefined ? {} : { samples })
      : startArray(project, candidateId, arrays))
  }
  all.setState(IDLE)
}
