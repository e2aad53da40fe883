// Work that a click begins and that belongs to its view: one at a time, with progress and cancel, given up with the view.

import { useEffect, useRef, useState } from 'react'
import type { ReportProgress } from '../../jobs/jobRunner'
import type { Outcome } from '../../numerics/outcome'

export interface StartedJob {
  /** Share done; null while nothing runs. */
  readonly progress: number | null
  /** Why the last work gave nothing; empty where it did, or was cancelled. */
  readonly message: string
  /** Work that is still going is given up for the new one. `take` gets what came of it, unless it was refused or given up. */
  readonly start: <T>(
    work: (signal: AbortSignal, onProgress: ReportProgress) => Promise<Outcome<T>>,
    take: (value: T) => void,
  ) => Promise<void>
  readonly cancel: () => void
}

export function useStartedJob(): StartedJob {
  const job = useRef<AbortController>(null)
  const [progress, setProgress] = useState<number | null>(null)
  const [message, setMessage] = useState('')
  useEffect(() => () => job.current?.abort(), [])
  const start: StartedJob['start'] = async (work, take) => {
    job.current?.abort()
    const control = new AbortController()
    job.current = control
    const { signal } = control
    setProgress(0)
    setMessage('')
    try {
      const outcome = await work(signal, (share) => {
        if (!signal.aborted) setProgress(share)
      })
      if (signal.aborted) return
      if (outcome.ok) take(outcome.value)
      else setMessage(outcome.message)
    } catch (error) {
      if (signal.aborted) return
      setMessage(error instanceof Error ? error.message : String(error))
    }
    setProgress(null)
  }
  const cancel = () => {
    job.current?.abort()
    setProgress(null)
  }
  return { progress, message, start, cancel }
}
