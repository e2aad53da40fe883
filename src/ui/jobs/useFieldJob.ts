// A job on the fields of a joint, run whenever its request changes.

import { runFieldJob } from '../../jobs/fieldClient'
import type { FieldJobs } from '../../jobs/fieldJobs'
import type { Outcome } from '../../numerics/outcome'
import { specKey } from '../../optics/index'
import { type AnsweredJob, useJob } from './useJob'

type JobName = 'tolerance' | 'relayTolerance' | 'pictures' | 'firstLight'
type Request<K extends JobName> = Parameters<FieldJobs[K]>[0]
type Answer<K extends JobName> = Extract<Awaited<ReturnType<FieldJobs[K]>>, { ok: true }>['value']

const SETTLE_MS = 150

interface FieldJob<K extends JobName>
  extends Pick<AnsweredJob<Answer<K>>, 'answer' | 'message' | 'progress'> {
  /** Whether the answer to the present request is still to come. */
  readonly busy: boolean
}

export function useFieldJob<K extends JobName>(name: K, request: Request<K>): FieldJob<K> {
  const { spec, ...rest } = { spec: null, ...request }
  const { answer, isCurrent, message, progress } = useJob({
    key: `${name} ${spec === null ? '' : specKey(spec)} ${JSON.stringify(rest)}`,
    settleMs: SETTLE_MS,
    work: (signal, onProgress) =>
      runFieldJob(name, request as never, { signal, onProgress }) as Promise<Outcome<Answer<K>>>,
  })
  const refusal = isCurrent && answer?.ok === false ? answer.message : ''
  return {
    answer: message === '' && answer?.ok ? answer.value : null,
    message: message === '' ? refusal : message,
    progress,
    busy: !isCurrent && message === '',
  }
}
