// A job on the fields of a joint, run off the page whenever its request changes. The last answer is kept, marked as out of date, while
// the next is computed.

import { useEffect, useState } from 'react'
import { runFieldJob } from '../../jobs/fieldClient'
import type { FieldJobs } from '../../jobs/fieldJobs'
import { specKey } from '../../optics/index'

type JobName = 'tolerance' | 'pictures' | 'firstLight'
type Request<K extends JobName> = Parameters<FieldJobs[K]>[0]
type Answer<K extends JobName> = Extract<Awaited<ReturnType<FieldJobs[K]>>, { ok: true }>['value']

interface FieldJobState<K extends JobName> {
  readonly answer: Answer<K> | null
  /** Why there is no answer to the present request; empty where there is, or will be. */
  readonly message: string
  /** Share done; null once the answer is that of the present request. */
  readonly progress: number | null
}

/** A drag makes many requests; only one that is unchanged for this long is computed. */
const SETTLE_MS = 150

export function useFieldJob<K extends JobName>(name: K, request: Request<K>): FieldJobState<K> {
  const [state, setState] = useState<FieldJobState<K>>({ answer: null, message: '', progress: 0 })
  const { spec, ...rest } = request
  const key = `${spec === null ? '' : specKey(spec)} ${JSON.stringify(rest)}`
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key is the request as text; objects change in every frame
  useEffect(() => {
    const job = new AbortController()
    const { signal } = job
    const run = () => {
      setState((last) => ({ ...last, message: '', progress: 0 }))
      const onProgress = (progress: number) => setState((last) => ({ ...last, progress }))
      runFieldJob(name, request as never, { signal, onProgress }).then(
        (outcome) => {
          if (signal.aborted) return
          const value = outcome.ok ? (outcome.value as Answer<K>) : null
          setState({ answer: value, message: outcome.ok ? '' : outcome.message, progress: null })
        },
        (error: unknown) => {
          if (signal.aborted) return
          const message = error instanceof Error ? error.message : String(error)
          setState({ answer: null, message, progress: null })
        },
      )
    }
    const timer = setTimeout(run, SETTLE_MS)
    return () => {
      clearTimeout(timer)
      job.abort()
    }
  }, [name, key])
  return state
}
