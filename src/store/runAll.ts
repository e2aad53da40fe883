// Yield and array runs of every design that has none that holds, one after the other.

import { useStore } from 'zustand'
import { createStore } from 'zustand/vanilla'
import { ARRAY_DEFAULTS, hasArrayRun } from '../analysis/array/arrayDefaults'
import type { Project } from '../model/schema/project'
import { startArray, startYield } from './runs'
import { workbench } from './workbench'

export interface WantedRun {
  readonly candidateId: string
  readonly name: string
  readonly kind: 'yield' | 'array'
}

const all = createStore<{ readonly running: string }>()(() => ({ running: '' }))

/** What is being simulated, in words; empty while nothing is. */
export const useRunningAll = (): string => useStore(all, ({ running }) => running)

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
export async function runAll(wanted: readonly WantedRun[]): Promise<void> {
  if (all.getState().running !== '') return
  for (const { candidateId, name, kind } of wanted) {
    const { project } = workbench.getState()
    if (!project.candidates.some(({ id }) => id === candidateId)) continue
    all.setState({ running: kind === 'yield' ? `assemblies of ${name}` : `arrays of ${name}` })
    await (kind === 'yield'
      ? startYield(project, candidateId, {})
      : startArray(project, candidateId, ARRAY_DEFAULTS.samples))
  }
  all.setState({ running: '' })
}
