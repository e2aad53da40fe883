// The review sheet as plain data: what a screen, a printer or a file format renders.

import type { ArrayResult } from '../analysis/array/runArray'
import type { BudgetLine, Evaluation } from '../analysis/evaluation'
import { checkRequirements, tryEvaluate, type Verdict, type YieldResult } from '../analysis/index'
import { type TemperatureSweep, temperatureSweep } from '../analysis/temperature/temperatureSweep'
import type { Issue } from '../model/issue'
import type { Project } from '../model/project'
import { requirementLines, type SheetInput, sheetInputs } from './inputs'

export interface SheetLine extends BudgetLine {
  /** Share of the nominal loss, 0 to 1; 0 where the nominal loss is not positive. */
  readonly share: number
}

export interface SheetCandidate {
  readonly id: string
  readonly name: string
  readonly remark: string
  readonly verdicts: readonly Verdict[]
  readonly inputs: readonly SheetInput[]
  readonly lines: readonly SheetLine[]
  readonly evaluation: Evaluation
  /** The runs that still hold for the numbers on the sheet; null where there is none. */
  readonly yield: YieldResult | null
  readonly array: ArrayResult | null
  /** Null where no mount is described. */
  readonly temperature: TemperatureSweep | null
}

/** Runs by candidate; only those made from the project as it is now. */
export interface SheetRuns {
  readonly yields: ReadonlyMap<string, YieldResult>
  readonly arrays: ReadonlyMap<string, ArrayResult>
}

const NO_RUNS: SheetRuns = { yields: new Map(), arrays: new Map() }

export interface RefusedCandidate {
  readonly id: string
  readonly name: string
  readonly issues: readonly Issue[]
}

export interface Sheet {
  readonly title: string
  readonly remark: string
  readonly requirements: readonly string[]
  /** As the caller passes it: nothing here reads a clock. */
  readonly date: string
  readonly candidates: readonly SheetCandidate[]
  readonly refused: readonly RefusedCandidate[]
  readonly assumptions: readonly string[]
  readonly openQuestions: readonly string[]
}

/** What each total assumes; stands on every sheet. */
export const TOTAL_ASSUMPTIONS = [
  'Nominal: every quantity at its nominal value; the exact paraxial overlap of two Gaussian modes.',
  'Root sum square: each quantity alone at the worse end of its tolerance, independent of the others, added as squares.',
  'Worst corner: all tolerances used up together, signs searched; unlikely, but not excluded.',
  'Worst temperature: the same totals at the worst of the required range, the mount expanding linearly and indices following their temperature slopes.',
  'Percentiles and yield: assemblies drawn from the tolerances; what each run assumes stands with it, with its seed and sample count.',
  'Return loss: powers of all faces added, seen from the fibre, and the least with all in phase; scatter and core backscatter neglected.',
  'Ripple: the round trips between the two faces of each gap; not in the other totals.',
] as const

/** Lines whose number is only an estimate become questions to whoever supplies the part. */
function openQuestions(candidates: readonly SheetCandidate[]): readonly string[] {
  return candidates.flatMap((candidate) =>
    candidate.lines
      .filter((line) => line.provenance === 'estimate' && line.lossDb > 0)
      .map(
        (line) =>
          `${candidate.name}: ${line.label} of ${line.lossDb.toFixed(2)} dB is an estimate; confirm it.`,
      ),
  )
}

function sweepOf(project: Project, candidateId: string): TemperatureSweep | null {
  const result = temperatureSweep(project, candidateId)
  return result.ok ? result.value : null
}

/** The sheet of all candidates. `date` is printed as given. */
export function buildSheet(project: Project, date: string, runs: SheetRuns = NO_RUNS): Sheet {
  const candidates: SheetCandidate[] = []
  const refused: RefusedCandidate[] = []
  for (const { id, name, remark, mount } of project.candidates) {
    const result = tryEvaluate(project, id)
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
      temperature: mount === undefined ? null : sweepOf(project, id),
    })
  }
  return {
    title: project.name,
    remark: project.remark ?? '',
    requirements: requirementLines(project),
    date,
    candidates,
    refused,
    assumptions: TOTAL_ASSUMPTIONS,
    openQuestions: openQuestions(candidates),
  }
}
