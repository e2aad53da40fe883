// Evaluations remembered as long as nothing they depend on has changed. An edit of one candidate leaves the
// others' objects as they were, so that only the edited one is computed again.

import { useCallback, useEffect, useReducer } from 'react'
import type { ArrayResult } from '../analysis/array/runArray'
import { questionsLeftOpen } from '../analysis/field/fit/knownFits'
import { checkRequirements, tryEvaluate } from '../analysis/index'
import type { Evaluation } from '../analysis/results/evaluation'
import type { Verdict } from '../analysis/results/verdict'
import type { YieldResult } from '../analysis/yield/yieldResult'
import type { Result } from '../model/issue'
import { stressTestOf } from '../model/measurements/stressTestOf'
import { PART_LISTS } from '../model/project/references'
import type { Candidate } from '../model/schema/candidate'
import type { Project } from '../model/schema/project'
import { byId } from '../model/words/byId'
import { fitCount, useSolvedFields, withSolvedFields } from './solvedFields'

interface Remembered {
  readonly inputs: readonly unknown[]
  readonly result: Result<Evaluation>
  /** How many fits were known, where one was missing; null for a result that no further fit changes. */
  readonly fits: number | null
}

/** The last result of each design and the one before it: a change that is weighed asks for both in turn. */
const remembered = new WeakMap<Candidate, readonly Remembered[]>()

function inputsOf(project: Project, candidate: Candidate): readonly unknown[] {
  const stress = stressTestOf(project, candidate)
  return [stress, project.requirements, ...PART_LISTS.map((list) => project[list])]
}

/** The remembered result for a project with its modes; null where something it depends on has changed. */
function known(project: Project, candidate: Candidate): Result<Evaluation> | null {
  const found = remembered.get(candidate)
  if (found === undefined) return null
  const now = inputsOf(project, candidate)
  const isCurrent = ({ inputs, fits }: Remembered) =>
    (fits === null || fits === fitCount()) && inputs.every((input, at) => input === now[at])
  return found.find(isCurrent)?.result ?? null
}

/** The same as `tryEvaluate` with the modes that are solved, at the cost of a look-up where nothing has changed. */
export function evaluationOf(stored: Project, candidateId: string): Result<Evaluation> {
  const project = withSolvedFields(stored)
  const candidate = byId(project.candidates, candidateId)
  if (candidate === undefined) return tryEvaluate(project, candidateId)
  const before = known(project, candidate)
  if (before !== null) return before
  const open = questionsLeftOpen()
  const result = tryEvaluate(project, candidateId)
  const fits = questionsLeftOpen() === open ? null : fitCount()
  const [last] = remembered.get(candidate) ?? []
  const newest = { inputs: inputsOf(project, candidate), result, fits }
  remembered.set(candidate, last === undefined ? [newest] : [newest, last])
  return result
}

interface RememberedVerdicts {
  readonly run: YieldResult | null
  readonly array: ArrayResult | null
  readonly verdicts: readonly Verdict[]
}

const verdictsOf = new WeakMap<Evaluation, RememberedVerdicts>()

/** `checkRequirements`, remembered: all that it reads of the project is what the evaluation was made from. */
export function rememberedVerdicts(
  project: Project,
  evaluation: Evaluation,
  run: YieldResult | null,
  array: ArrayResult | null,
): readonly Verdict[] {
  const before = verdictsOf.get(evaluation)
  if (before?.run === run && before.array === array) return before.verdicts
  const verdicts = checkRequirements(project, evaluation, run, array)
  verdictsOf.set(evaluation, { run, array, verdicts })
  return verdicts
}

/** `evaluationOf` for a screen: another function, and so drawn again, once a mode is solved that it may use. */
export function useEvaluations(): typeof evaluationOf {
  const { fields } = useSolvedFields()
  // biome-ignore lint/correctness/useExhaustiveDependencies: what it gives depends on the modes that are solved
  return useCallback((project: Project, candidateId: string) => evaluationOf(project, candidateId), [fields])
}

/** Work on the page between two chances to type or paint. */
const SLICE_MS = 40
/** A screen that waits for many results is drawn again so often. */
const DRAW_EVERY_MS = 250

/**
 * Evaluates designs in their order until the slice is over, and answers with those that are left. What is known already costs
 * next to nothing.
 */
export function evaluateSlice(
  project: Project,
  ids: readonly string[],
  now: () => number,
): readonly string[] {
  const end = now() + SLICE_MS
  for (const [at, id] of ids.entries()) {
    if (now() >= end) return ids.slice(at)
    evaluationOf(project, id)
  }
  return []
}

interface EvaluationsInTurn {
  /** The result of a design; null while it waits for its turn. */
  readonly of: (candidateId: string) => Result<Evaluation> | null
  /** What it was before the change, for a design that waits; null where nothing is known. */
  readonly before: (candidateId: string) => Result<Evaluation> | null
  /** Share of the designs that are evaluated. */
  readonly share: number
}

/**
 * The evaluations of all designs of a project, `firstId` before all others: a few at once, many in slices between which the page
 * can be typed into.
 */
export function useEvaluationsInTurn(project: Project, firstId: string): EvaluationsInTurn {
  useSolvedFields() // drawn again once a mode is solved
  const [, drawAgain] = useReducer((count: number) => count + 1, 0)
  const ids = project.candidates.map(({ id }) => id)
  const ordered = ids.includes(firstId) ? [firstId, ...ids.filter((id) => id !== firstId)] : ids
  // The first slice belongs to this very picture: a project of the usual size never shows a design without its numbers.
  const waiting = evaluateSlice(project, ordered, () => performance.now())
  // After every picture that lacks a number: whoever evaluates the rest meanwhile, this screen is drawn with it.
  useEffect(() => {
    if (waiting.length === 0) return
    let timer: ReturnType<typeof setTimeout> | undefined
    const drawn = performance.now()
    const turn = (before: readonly string[]) => {
      const left = evaluateSlice(project, before, () => performance.now())
      if (left.length === 0 || performance.now() - drawn > DRAW_EVERY_MS) drawAgain()
      else timer = setTimeout(turn, 0, left)
    }
    timer = setTimeout(turn, 0, waiting)
    return () => clearTimeout(timer)
  })
  const left = new Set(waiting)
  const withModes = withSolvedFields(project)
  return {
    of: (candidateId) => {
      const candidate = byId(withModes.candidates, candidateId)
      if (candidate === undefined || left.has(candidateId)) {
        return candidate === undefined ? null : known(withModes, candidate)
      }
      return evaluationOf(project, candidateId)
    },
    before: (candidateId) => {
      const candidate = byId(withModes.candidates, candidateId)
      return candidate === undefined ? null : (remembered.get(candidate)?.[0]?.result ?? null)
    },
    share: ids.length === 0 ? 1 : 1 - left.size / ids.length,
  }
}
