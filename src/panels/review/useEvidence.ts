// What the measurements of a project say, computed off the page one after the other and remembered.

import { useEffect, useMemo, useState } from 'react'
import { runMeasureJob } from '../../jobs/measureClient'
import type { Measurement } from '../../model/schema/measurement'
import { type Evidence, evidenceOf } from '../../report/evidence'

const remembered = new WeakMap<Measurement, Evidence>()

/** The evidence known so far, in the project's order; `busy` while some is still to come. */
export function useEvidence(measurements: readonly Measurement[]): {
  readonly evidence: readonly Evidence[]
  readonly busy: boolean
} {
  const [known, setKnown] = useState(0)
  useEffect(() => {
    const job = new AbortController()
    const evaluateAll = async () => {
      for (const measurement of measurements) {
        if (remembered.has(measurement)) continue
        const outcome = await runMeasureJob('evaluate', measurement, { signal: job.signal })
        remembered.set(measurement, evidenceOf(measurement, outcome))
        setKnown((count) => count + 1)
      }
    }
    evaluateAll().catch((error: unknown) => {
      if (!job.signal.aborted) throw error
    })
    return () => job.abort()
  }, [measurements])
  // biome-ignore lint/correctness/useExhaustiveDependencies: what is remembered grows with the count
  const evidence = useMemo(
    () => measurements.flatMap((each) => remembered.get(each) ?? []),
    [measurements, known],
  )
  return { evidence, busy: evidence.length < measurements.length }
}
