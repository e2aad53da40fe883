// Evaluations remembered as long as nothing they depend on has changed. An edit of one candidate leaves the
// others' objects as they were, so that only the edited one is computed again.

import { useCallback } from 'react'
import { tryEvaluate } from '../analysis/index'
import type { Evaluation } from '../analysis/results/evaluation'
import type { Result } from '../model/issue'
import { PART_LISTS } from '../model/project/references'
import type { Candidate } from '../model/schema/candidate'
import type { Project } from '../model/schema/project'
import { useSolvedFields, withSolvedFields } from './solvedFields'

interface Remembered {
  readonly inputs: readonly unknown[]
  readonly result: Result<Evaluation>
}

const remembered = new WeakMap<Candidate, Remembered>()

function inputsOf(project: Project): readonly unknown[] {
  return [project.requirements, ...PART_LISTS.map((list) => project[list])]
}

/** The same as `tryEvaluate` with the modes that are solved, at the cost of a look-up where nothing has changed. */
export function evaluationOf(stored: Project, candidateId: string): Result<Evaluation> {
  const project = withSolvedFields(stored)
  const candidate = project.candidates.find((each) => each.id === candidateId)
  if (candidate === undefined) return tryEvaluate(project, candidateId)
  const inputs = inputsOf(project)
  const known = remembered.get(candidate)
  if (known?.inputs.every((input, at) => input === inputs[at])) return known.result
  const result = tryEvaluate(project, candidateId)
  remembered.set(candidate, { inputs, result })
  return result
}

/** `evaluationOf` for a screen: another function, and so drawn again, once a mode is solved that it may count. */
export function useEvaluations(): typeof evaluationOf {
  const { fields } = useSolvedFields()
  // biome-ignore lint/correctness/useExhaustiveDependencies: what it gives depends on the modes that are solved
  return useCallback((project: Project, candidateId: string) => evaluationOf(project, candidateId), [fields])
}
