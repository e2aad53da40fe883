// What the measurements of a project say, computed one after the other.

import { useMemo, useState } from 'react'
import type { Measurement } from '../../model/schema/measurement'
import { type Evidence, evidenceOf } from '../../report/evidence'
import { knownResult, measurementResult } from '../../ui/jobs/measurementResults'
import { useJob } from '../../ui/jobs/useJob'

/** The evidence known so far, in the project's order; `busy` while some is still to come. */
export function useEvidence(measurements: readonly Measurement[]): {
  readonly evidence: readonly Evidence[]
  readonly busy: boolean
} {
  const [parts, setParts] = useState(0)
  // biome-ignore lint/correctness/useExhaustiveDependencies: what is known grows with the parts
  const partial = useMemo(
    () =>
      measurements.flatMap((each) => {
        const known = knownResult(each)
        return known === undefined ? [] : [evidenceOf(each, known)]
      }),
    [measurements, parts],
  )
  const { answer, isCurrent } = useJob<readonly Evidence[]>({
    key: measurements,
    known: partial.length === measurements.length ? partial : undefined,
    work: async (signal) => {
      const all: Evidence[] = []
      for (const measurement of measurements) {
        all.push(evidenceOf(measurement, await measurementResult(measurement, signal)))
        setParts((count) => count + 1)
      }
      return all
    },
  })
  const evidence = isCurrent && answer !== null ? answer : partial
  return { evidence, busy: evidence.length < measurements.length }
}
