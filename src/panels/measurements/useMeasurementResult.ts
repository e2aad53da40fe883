// The result of a kept measurement, computed off the page and remembered as long as nothing of it has changed.

import { useEffect, useState } from 'react'
import { runMeasureJob } from '../../jobs/measureClient'
import type { MeasurementResult, Outcome } from '../../measure/index'
import type { Measurement } from '../../model/schema/measurement'

interface ShownResult {
  /** Of the present or, while that is computed, of the measurement as it was before the last change. */
  readonly outcome: Outcome<MeasurementResult> | null
  /** True while the outcome is not yet that of the present measurement. */
  readonly busy: boolean
}

const remembered = new WeakMap<Measurement, Outcome<MeasurementResult>>()

export function useMeasurementResult(measurement: Measurement | undefined): ShownResult {
  const [last, setLast] = useState<{
    readonly measurement: Measurement
    readonly outcome: Outcome<MeasurementResult>
  } | null>(null)

  useEffect(() => {
    if (measurement === undefined || remembered.has(measurement)) return
    const job = new AbortController()
    runMeasureJob('evaluate', measurement, { signal: job.signal }).then(
      (outcome) => {
        if (job.signal.aborted) return
        remembered.set(measurement, outcome)
        setLast({ measurement, outcome })
      },
      (error: unknown) => {
        if (job.signal.aborted) return
        const message = error instanceof Error ? error.message : String(error)
        setLast({ measurement, outcome: { ok: false, message } })
      },
    )
    return () => job.abort()
  }, [measurement])

  const known = measurement && remembered.get(measurement)
  if (known !== undefined) return { outcome: known, busy: false }
  const stale = measurement !== undefined && last?.measurement.id === measurement.id
  return { outcome: stale ? last.outcome : null, busy: last?.measurement !== measurement }
}
