// A search over a design, run off the page whenever what it depends on changes. The last answer is kept, marked as out of date, while
// the next is found; the latest answers are remembered.

import { useEffect, useRef, useState } from 'react'
import { knownFits } from '../../analysis/field/fit/knownFits'
import type { DesignJobs } from '../../jobs/design/designJobs'
import type { Project } from '../../model/schema/project'
import { inputsOf } from '../../store/runs'
import { withSolvedFields } from '../../store/solvedFields'

type Request<K extends keyof DesignJobs> = Omit<Parameters<DesignJobs[K]>[0], 'project' | 'designId' | 'fits'>
type Answer<K extends keyof DesignJobs> = Awaited<ReturnType<DesignJobs[K]>>

export interface SearchedDesign {
  readonly project: Project
  readonly designId: string
  /** False while the joints of the design wait for their fits: the search begins once they are known. */
  readonly ready: boolean
}

interface Found<K extends keyof DesignJobs> {
  readonly key: string
  readonly answer: Answer<K>
}

/** How a search goes. */
export interface SearchState {
  /** Share done of a search that takes long enough to be noticed; null otherwise. */
  readonly progress: number | null
  /** Why there is no answer to the present numbers; empty where there is, or will be. */
  readonly message: string
  readonly cancel: () => void
  readonly again: () => void
}

interface DesignJob<K extends keyof DesignJobs> extends SearchState {
  /** The last answer; null where there is none yet. */
  readonly answer: Answer<K> | null
  /** Whether the answer is that of the present numbers. */
  readonly isCurrent: boolean
}

/** A drag makes many requests; only one that is unchanged for this long is searched. */
const SETTLE_MS = 120
/** A search that ends sooner shows no progress. */
const NOTICED_MS = 300
const MOST_REMEMBERED = 12

const remembered = new Map<string, unknown>()

function remember(key: string, answer: unknown): void {
  remembered.set(key, answer)
  const [oldest] = remembered.keys()
  if (remembered.size > MOST_REMEMBERED && oldest !== undefined) remembered.delete(oldest)
}

/** For one design and one kind of search: another design is another component. */
export function useDesignJob<K extends keyof DesignJobs>(
  name: K,
  { project, designId, ready }: SearchedDesign,
  request: Request<K>,
): DesignJob<K> {
  const key = `${name} ${designId}\n${JSON.stringify(request)}\n${inputsOf(project, designId)}`
  const [found, setFound] = useState<Found<K> | null>(null)
  const [progress, setProgress] = useState<number | null>(null)
  const [message, setMessage] = useState('')
  const job = useRef<AbortController>(null)
  const [attempt, setAttempt] = useState(0)
  const known = remembered.get(key) as Answer<K> | undefined
  const isKnown = known !== undefined
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key is the request as text; objects change in every frame
  useEffect(() => {
    setMessage('')
    setProgress(null)
    if (isKnown) {
      setFound({ key, answer: remembered.get(key) as Answer<K> })
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
    }, SETTLE_MS + NOTICED_MS)
    const run = async () => {
      try {
        const { runDesignJob } = await import('../../jobs/design/designClient')
        // Readings of measurements play no part, and may be large.
        const sent = { ...withSolvedFields(project), measurements: [] }
        const input = { ...request, project: sent, designId, fits: knownFits() }
        const onProgress = (share: number) => {
          if (noticed) setProgress(share)
        }
        const answer = (await runDesignJob(name, input as never, { signal, onProgress })) as Answer<K>
        if (signal.aborted) return
        remember(key, answer)
        setFound({ key, answer })
      } catch (error) {
        if (signal.aborted) return
        setMessage(error instanceof Error ? error.message : String(error))
      }
      clearTimeout(notice)
      setProgress(null)
    }
    const timer = setTimeout(() => void run(), SETTLE_MS)
    signal.addEventListener('abort', () => {
      clearTimeout(timer)
      clearTimeout(notice)
    })
    return () => control.abort()
  }, [key, ready, attempt])
  return {
    answer: known ?? found?.answer ?? null,
    isCurrent: isKnown || found?.key === key,
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
