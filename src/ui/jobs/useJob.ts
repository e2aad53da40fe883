// Work off the page that follows a request: begun whenever the request changes, given up for the next one. The last answer is kept, marked
// as out of date, while the next is found.

import { useEffect, useRef, useState } from 'react'
import type { ReportProgress } from '../../jobs/jobRunner'

interface Job<A> {
  /** What is requested, as text or as an object that every change replaces: the same key has the same answer. */
  readonly key: unknown
  readonly work: (signal: AbortSignal, onProgress: ReportProgress) => Promise<A>
  /** An answer that is known already: nothing is worked out for it. */
  readonly known?: A | undefined
  /** False while what the work needs is not there yet. */
  readonly ready?: boolean
  /** A drag makes many requests; only one that is unchanged for this long is worked out. */
  readonly settleMs?: number
}

/** How the work goes. */
export interface JobState {
  /** Share done of work that takes long enough to be noticed; null otherwise. */
  readonly progress: number | null
  /** Why the current request has failed; empty if it is answered or still running. */
  readonly message: string
  readonly cancel: () => void
  readonly again: () => void
}

export interface AnsweredJob<A> extends JobState {
  /** The last answer; null where there is none yet. */
  readonly answer: A | null
  /** Whether the answer is that of the present request. */
  readonly isCurrent: boolean
}

/** Work that ends sooner shows no progress. */
const NOTICED_MS = 300

export function useJob<A>({ key, work, known, ready = true, settleMs = 0 }: Job<A>): AnsweredJob<A> {
  const [found, setFound] = useState<{ readonly key: unknown; readonly answer: A } | null>(null)
  const [progress, setProgress] = useState<number | null>(null)
  const [message, setMessage] = useState('')
  const [attempt, setAttempt] = useState(0)
  const job = useRef<AbortController>(null)
  const isKnown = known !== undefined
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key stands for the request; its objects change in every frame
  useEffect(() => {
    setMessage('')
    setProgress(null)
    if (known !== undefined) {
      setFound({ key, answer: known })
      return
    }
    if (!ready) return
    const control = new AbortController()
    const { signal } = control
    job.current = control
    let noticed = false
    const notice = setTimeout(() => {
      noticed = true
      setProgress((share) => share ?? 0)
    }, settleMs + NOTICED_MS)
    const run = async () => {
      try {
        const answer = await work(signal, (share) => {
          if (noticed && !signal.aborted) setProgress(share)
        })
        if (signal.aborted) return
        setFound({ key, answer })
      } catch (error) {
        if (signal.aborted) return
        setMessage(error instanceof Error ? error.message : String(error))
      }
      clearTimeout(notice)
      setProgress(null)
    }
    const settled = setTimeout(() => void run(), settleMs)
    signal.addEventListener('abort', () => {
      clearTimeout(settled)
      clearTimeout(notice)
    })
    return () => control.abort()
  }, [key, ready, attempt])
  return {
    answer: known ?? found?.answer ?? null,
    isCurrent: isKnown || (found !== null && Object.is(found.key, key)),
    progress: isKnown ? null : progress,
    message,
    cancel: () => {
      job.current?.abort()
      setProgress(null)
      setMessage('Cancelled.')
    },
    again: () => setAttempt((count) => count + 1),
  }
}
