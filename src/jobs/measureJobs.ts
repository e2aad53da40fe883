// The heavy work of the measurements as plain functions: run by the worker, by tests, and on the page if workers are blocked.

import { lossCauses } from '../analysis/index'
import { explainLotSteps, type LotExplanation, type MeasuredLot } from '../analysis/production/explainLot'
import type { DifferenceResult, MeasurementResult, Outcome, Reading, ScanAnswers } from '../measure/index'
import { attempted, evaluateMeasurement, explainDifference, readMeasurement } from '../measure/index'
import type { Measurement } from '../model/schema/measurement'
import type { Project } from '../model/schema/project'
import type { JobOutput, ReportProgress } from './jobRunner'
import { runSteps } from './runSteps'

interface ReadInput {
  readonly blob: Blob
  readonly fileName: string
  readonly answers: ScanAnswers
}

export interface ExplainInput {
  readonly project: Project
  readonly candidateId: string
  readonly axis: 'x' | 'y'
  readonly positionsUm: readonly number[]
  readonly measuredDb: readonly number[]
  readonly standardDb: readonly number[]
  /** True where only the shape of the curve is known: both curves then are measured from their lowest point. */
  readonly shapeOnly: boolean
  /** Fields of the joint about which the measurement gives no information: `offsetX`. */
  readonly without: readonly string[]
}

export interface LotInput {
  readonly project: Project
  readonly candidateId: string
  readonly lot: MeasuredLot
}

interface Explanation {
  readonly result: DifferenceResult
  /** Losses at the nominal values, for the drawing. */
  readonly predictedDb: readonly number[]
  readonly held: readonly string[]
}

function fromLowest(losses: Float64Array): Float64Array {
  const lowest = losses.reduce((least, loss) => Math.min(least, loss), Number.POSITIVE_INFINITY)
  return losses.map((loss) => loss - lowest)
}

export const measureJobs = {
  read: async ({ blob, fileName, answers }: ReadInput, report: ReportProgress): Promise<Outcome<Reading>> => {
    const bytes = new Uint8Array(await blob.arrayBuffer())
    return attempted(() => readMeasurement(bytes, fileName, answers, report))
  },
  evaluate: async (measurement: Measurement): Promise<Outcome<MeasurementResult>> =>
    attempted(() => evaluateMeasurement(measurement)),
  explain: async (input: ExplainInput): Promise<Outcome<Explanation>> => {
    const causes = lossCauses(input.project, input.candidateId)
    if (!causes.ok) return { ok: false, message: causes.issues.map((issue) => issue.message).join(' ') }
    const { lossesDb, held } = causes.value
    const predict = (values: Readonly<Record<string, number>>) => {
      const losses = lossesDb(values, input.axis, input.positionsUm)
      return input.shapeOnly ? fromLowest(losses) : losses
    }
    return attempted(() => ({
      result: explainDifference({
        predict,
        measuredDb: input.measuredDb,
        standardDb: input.standardDb,
        causes: causes.value.causes.filter(({ field }) => !input.without.includes(field)),
      }),
      predictedDb: [...predict({})],
      held,
    }))
  },
  explainLot: async (
    { project, candidateId, lot }: LotInput,
    report: ReportProgress,
  ): Promise<Outcome<LotExplanation>> => {
    const result = await runSteps(explainLotSteps(project, candidateId, lot), report)
    return result.ok
      ? { ok: true, value: result.value }
      : { ok: false, message: result.issues.map((issue) => issue.message).join(' ') }
  },
}

export type MeasureJobs = typeof measureJobs
export type MeasureOutput<K extends keyof MeasureJobs> = JobOutput<MeasureJobs, K>
