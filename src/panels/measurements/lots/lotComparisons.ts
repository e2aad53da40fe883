// Comparisons of measured lots with the prediction of a design, by measurement: derived, so never saved and no part of undo, but kept
// while the page is left. A comparison is kept with the inputs it came from; once these have changed it is shown as out of date.

import type { LotExplanation } from '../../../analysis/production/explainLot'
import type { LotSummary } from '../../../measure/index'
import type { Project } from '../../../model/schema/project'
import { inputsOf } from '../../../store/runs'
import { withSolvedFields } from '../../../store/solvedFields'
import { type StartedRun, startedRuns } from '../../../store/startedRuns'

export interface ComparedLot {
  readonly candidateId: string
  readonly lot: LotSummary
  readonly found: LotExplanation
  readonly inputs: string
}

const runs = startedRuns<ComparedLot>()

const inputsOfLot = (project: Project, candidateId: string) =>
  `${project.seed}\n${inputsOf(project, candidateId)}`

/** Whether a comparison is still that of the lot with the design as it is now. */
export function isOutdated({ candidateId, lot, inputs }: ComparedLot, project: Project, now: LotSummary) {
  return lot !== now || inputs !== inputsOfLot(project, candidateId)
}

/** The comparison of a measurement, or an idle run where there is none. */
export const lotComparisonOf = runs.of

export function useLotComparison(measurementId: string): StartedRun<ComparedLot> {
  return runs.use(measurementId)
}

export function cancelLotComparison(measurementId: string): void {
  runs.cancel(measurementId)
}

export function compareLot(
  measurementId: string,
  project: Project,
  candidateId: string,
  lot: LotSummary,
): Promise<void> {
  const inputs = inputsOfLot(project, candidateId)
  const { lossDb, assemblyOf, channelOf, assemblies, channels, standardDb } = lot
  const measured = {
    lossDb,
    assemblyOf,
    channelOf,
    assemblies: assemblies.length,
    channels: channels.length,
    standardDb,
  }
  // The readings are by far the most of a project, and a lot has not drifted yet.
  const input = {
    project: { ...withSolvedFields(project), measurements: [] },
    candidateId,
    lot: measured,
  }
  return runs.start(measurementId, async (signal, onProgress) => {
    const { runMeasureJob } = await import('../../../jobs/measureClient')
    const outcome = await runMeasureJob('explainLot', input, {
      signal,
      onProgress,
    })
    return outcome.ok ? { ok: true, value: { candidateId, lot, found: outcome.value, inputs } } : outcome
  })
}
