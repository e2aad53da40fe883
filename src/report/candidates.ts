// The candidates as the sheet sees them: evaluated, judged, with the runs that still hold; and which one is chosen.

import type { ArrayResult } from '../analysis/array/runArray'
import { checkRequirements, type Verdict, type VerdictStatus, type YieldResult } from '../analysis/index'
import type { BudgetLine, Evaluation } from '../analysis/results/evaluation'
import { musts } from '../analysis/verdicts/verdictGroups'
import type { Issue, Result } from '../model/issue'
import type { Candidate } from '../model/schema/candidate'
import type { Project } from '../model/schema/project'
import { byId } from '../model/words/byId'
import { type SheetInput, sheetInputs } from './inputs'

interface SheetLine extends BudgetLine {
  /** Share of the nominal loss, 0 to 1; 0 where the nominal loss is not positive. */
  readonly share: number
}

export interface SheetCandidate {
  readonly id: string
  readonly name: string
  readonly remark: string
  readonly candidate: Candidate
  readonly verdicts: readonly Verdict[]
  readonly inputs: readonly SheetInput[]
  readonly lines: readonly SheetLine[]
  readonly evaluation: Evaluation
  /** The runs that still hold for the numbers on the sheet; null where there is none. */
  readonly yield: YieldResult | null
  readonly array: ArrayResult | null
}

/** Runs by candidate; only those made from the project as it is now. */
export interface SheetRuns {
  readonly yields: ReadonlyMap<string, YieldResult>
  readonly arrays: ReadonlyMap<string, ArrayResult>
}

export const NO_RUNS: SheetRuns = { yields: new Map(), arrays: new Map() }

export interface RefusedCandidate {
  readonly id: string
  readonly name: string
  readonly issues: readonly Issue[]
}

interface SheetCandidates {
  readonly candidates: readonly SheetCandidate[]
  readonly refused: readonly RefusedCandidate[]
}

export type Evaluate = (project: Project, candidateId: string) => Result<Evaluation>

/** Pauses after every candidate. */
export function* sheetCandidates(
  project: Project,
  evaluate: Evaluate,
  runs: SheetRuns,
): Generator<void, SheetCandidates, void> {
  const candidates: SheetCandidate[] = []
  const refused: RefusedCandidate[] = []
  for (const candidate of project.candidates) {
    const { id, name, remark } = candidate
    const result = evaluate(project, id)
    if (!result.ok) {
      refused.push({ id, name, issues: result.issues })
      continue
    }
    const evaluation = result.value
    const whole = evaluation.nominalDb
    candidates.push({
      id,
      name,
      remark: remark ?? '',
      candidate,
      verdicts: checkRequirements(
        project,
        evaluation,
        runs.yields.get(id) ?? null,
        runs.arrays.get(id) ?? null,
      ),
      inputs: sheetInputs(project, id),
      lines: evaluation.lines.map((line) => ({ ...line, share: whole > 0 ? line.lossDb / whole : 0 })),
      evaluation,
      yield: runs.yields.get(id) ?? null,
      array: runs.arrays.get(id) ?? null,
    })
    yield
  }
  return { candidates, refused }
}

export interface Choice {
  readonly candidate: SheetCandidate
  /** Whether the user has selected it; otherwise it is proposed from the numbers. */
  readonly byEngineer: boolean
}

const count = ({ verdicts }: SheetCandidate, status: VerdictStatus) =>
  musts(verdicts).filter((each) => each.status === status).length

/** The engineer's choice, else what the numbers propose: fewest requirements not met, then fewest not evaluated, then lowest loss. */
export function chosenCandidate(project: Project, { candidates }: SheetCandidates): Choice | null {
  const chosen = byId(candidates, project.review?.chosenId)
  if (chosen !== undefined) return { candidate: chosen, byEngineer: true }
  const [best] = candidates.toSorted(
    (a, b) =>
      count(a, 'not met') - count(b, 'not met') ||
      count(a, 'not known') - count(b, 'not known') ||
      a.evaluation.nominalDb - b.evaluation.nominalDb,
  )
  return best === undefined ? null : { candidate: best, byEngineer: false }
}
