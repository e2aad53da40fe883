// Results of kept measurements, computed off the page and remembered as long as nothing of a measurement has changed.

import { runMeasureJob } from '../../jobs/measureClient'
import type { MeasureOutput } from '../../jobs/measureJobs'
import type { Measurement } from '../../model/schema/measurement'

const remembered = new WeakMap<Measurement, MeasureOutput<'evaluate'>>()

export function knownResult(measurement: Measurement): MeasureOutput<'evaluate'> | undefined {
  return remembered.get(measurement)
}

/** The result; why there is none where the computation itself failed, which is tried again the next time. */
export async function measurementResult(
  measurement: Measurement,
  signal: AbortSignal,
): Promise<MeasureOutput<'evaluate'>> {
  const known = remembered.get(measurement)
  if (known !== undefined) return known
  try {
    const outcome = await runMeasureJob('evaluate', measurement, { signal })
    remembered.set(measurement, outcome)
    return outcome
  } catch (error) {
    signal.throwIfAborted()
    return { ok: false, message: error instanceof Error ? error.message : String(error) }
  }
}
