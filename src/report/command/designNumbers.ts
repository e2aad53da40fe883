// The numbers of one design as a script reads them: plain JSON, units in the names, null where a number is missing.

import { checkRequirements, runYield, tryEvaluate } from '../../analysis/index'
import type { VerdictStatus } from '../../analysis/results/verdict'
import { issueText } from '../../model/issue'
import type { Project } from '../../model/schema/project'

export interface DesignNumbers {
  readonly id: string
  readonly name: string
  /** Why the design cannot be evaluated; empty where it can, and the numbers are null where it cannot. */
  readonly faults: readonly string[]
  readonly nominalDb: number | null
  readonly rssDb: number | null
  readonly worstCaseDb: number | null
  /** Powers of all faces added; null where nothing reflects. */
  readonly returnLossFibreDb: number | null
  readonly returnLossChipDb: number | null
  /** The budget; its lines add up to the nominal loss. */
  readonly lines: readonly { readonly label: string; readonly kind: string; readonly lossDb: number }[]
  readonly verdicts: readonly {
    readonly id: string
    readonly label: string
    readonly status: VerdictStatus
    readonly reason: string
  }[]
  /** Null where no run was requested. */
  readonly yield: {
    readonly samples: number
    readonly seed: number
    readonly limitDb: number
    readonly yield: number
    readonly p50Db: number
    readonly p95Db: number
    readonly p99Db: number
  } | null
}

/** Evaluates a design, with a yield run of so many samples where it is above 0. */
export function designNumbers(project: Project, designId: string, samples = 0): DesignNumbers {
  const name = project.candidates.find(({ id }) => id === designId)?.name ?? designId
  const result = tryEvaluate(project, designId)
  if (!result.ok) {
    const none = {
      nominalDb: null,
      rssDb: null,
      worstCaseDb: null,
      returnLossFibreDb: null,
      returnLossChipDb: null,
    }
    const faults = result.issues.map(issueText)
    return { id: designId, name, faults, ...none, lines: [], verdicts: [], yield: null }
  }
  const evaluation = result.value
  const run = samples > 0 ? runYield(project, designId, { samples, rankingPoints: null }) : null
  return {
    id: designId,
    name,
    faults: [],
    nominalDb: evaluation.nominalDb,
    rssDb: evaluation.rootSumSquare.lossDb,
    worstCaseDb: evaluation.worstCorner.lossDb,
    returnLossFibreDb: evaluation.returnLoss.fibre.incoherentDb,
    returnLossChipDb: evaluation.returnLoss.chip.incoherentDb,
    lines: evaluation.lines.map(({ label, kind, lossDb }) => ({ label, kind, lossDb })),
    verdicts: checkRequirements(project, evaluation, run).map(({ id, label, status, reason }) => ({
      id,
      label,
      status,
      reason,
    })),
    yield:
      run === null
        ? null
        : {
            samples: run.samples,
            seed: run.seed,
            limitDb: run.limitDb,
            yield: run.yield,
            p50Db: run.p50Db,
            p95Db: run.p95Db,
            p99Db: run.p99Db,
          },
  }
}
