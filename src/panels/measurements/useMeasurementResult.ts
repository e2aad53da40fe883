// The result of a kept measurement for its views.

import type { MeasurementResult, Outcome } from '../../measure/index'
import type { Measurement } from '../../model/schema/measurement'
import { knownResult, measurementResult } from '../../ui/jobs/measurementResults'
import { useJob } from '../../ui/jobs/useJob'

interface ShownResult {
  /** Of the present or, while that is computed, of the measurement as it was before the last change. */
  readonly outcome: Outcome<MeasurementResult> | null
  /** True while the outcome is not yet that of the present measurement. */
  readonly busy: boolean
}

interface ResultOf {
  readonly id: string
  readonly outcome: Outcome<MeasurementResult>
}

export function useMeasurementResult(measurement: Measurement | undefined): ShownResult {
  const known = measurement && knownResult(measurement)
  const { answer, isCurrent } = useJob<ResultOf>({
    key: measurement,
    known: measurement && known && { id: measurement.id, outcome: known },
    ready: measurement !== undefined,
    work: async (signal) => {
      if (measurement === undefined) throw new Error('a result was requested without a measurement')
      return { id: measurement.id, outcome: await measurementResult(measurement, signal) }
    },
  })
  return {
    outcome: answer !== null && answer.id === measurement?.id ? answer.outcome : null,
    busy: measurement !== undefined && !isCurrent,
  }
}
