// How a page learns that one of its workers has ended: a worker that was killed or ran out of memory sends no event. The worker
// holds a lock as long as it lives, and the page waits for the same lock. Source: Web Locks API, W3C: a lock is released when
// the agent that holds it ends. Where there are no locks (a page from a disk), silence is the only sign.

export const WORKER_ENDED = 'A background worker stopped before the run was complete. Start the run again.'
export const WORKER_SILENT = 'A background worker is not responding. Start the run again.'

/** Whether the error reports a lost worker, rather than a fault of the job. */
export function isWorkerLoss(error: unknown): error is Error {
  return error instanceof Error && [WORKER_ENDED, WORKER_SILENT].includes(error.message)
}

/** Why a run has ended without a result, in words. */
export function failureText(error: unknown): string {
  if (isWorkerLoss(error)) return error.message
  return `The run failed: ${error instanceof Error ? error.message : String(error)}`
}

/** What a worker says first: the name of the lock that it holds for life, or null where it gets none. */
interface LifeMessage {
  readonly life: string | null
}

const isLife = (data: unknown): data is LifeMessage =>
  typeof data === 'object' && data !== null && 'life' in data

/** In the worker: takes a lock for life and tells the page its name. */
export function announceLife(): void {
  const locks = typeof navigator === 'undefined' ? undefined : navigator.locks
  const name = `modeseam-worker-${Math.random()}`
  const say = (life: LifeMessage['life']) => self.postMessage({ life } satisfies LifeMessage)
  if (locks === undefined) say(null)
  else
    locks
      .request(name, () => {
        say(name)
        return new Promise<never>(() => undefined)
      })
      .catch(() => say(null)) // locks are refused here: silence is the only sign
}

/** A worker that has begun to work. */
export interface LivingWorker {
  readonly worker: Worker
  /** Whether the page hears of its end. */
  readonly isWatched: boolean
}

/** No worker can be had here, or it cannot be loaded. */
export class WorkersRefused extends Error {}

/**
 * How long the page waits for the first word of a worker before it starts another beside it: one that is killed while it is loaded
 * leaves no sign. A slow one is not given up, since the first that speaks is taken.
 */
const START_PATIENCE_MS = [10_000, 20_000, 40_000]

/**
 * A worker that is there to work; `ended` is called once it is gone, whoever ended it. Rejects with WorkersRefused, with the signal's
 * reason once it is aborted, and with WORKER_SILENT where several workers say nothing.
 */
export function livingWorker(
  start: () => Worker,
  signal: AbortSignal,
  ended: (worker: Worker) => void,
): Promise<LivingWorker> {
  return new Promise((resolve, reject) => {
    signal.throwIfAborted()
    const started: Worker[] = []
    const listening = new AbortController()
    let timer: ReturnType<typeof setTimeout> | undefined
    const settle = (kept: Worker | null) => {
      clearTimeout(timer)
      listening.abort()
      for (const worker of started) if (worker !== kept) worker.terminate()
    }
    const fail = (reason: unknown) => {
      settle(null)
      reject(reason)
    }
    const hear = (worker: Worker, { life }: LifeMessage) => {
      settle(worker)
      if (life !== null) navigator.locks.request(life, () => ended(worker)).catch(() => undefined)
      resolve({ worker, isWatched: life !== null })
    }
    const startAnother = () => {
      const patienceMs = START_PATIENCE_MS[started.length]
      if (patienceMs === undefined) return fail(new Error(WORKER_SILENT))
      try {
        const worker = start()
        started.push(worker)
        const { signal: heard } = listening
        const refuse = () => fail(new WorkersRefused())
        worker.addEventListener('message', ({ data }) => isLife(data) && hear(worker, data), {
          signal: heard,
        })
        worker.addEventListener('error', refuse, { signal: heard })
        timer = setTimeout(startAnother, patienceMs)
      } catch {
        fail(new WorkersRefused())
      }
    }
    signal.addEventListener('abort', () => fail(signal.reason), { signal: listening.signal })
    startAnother()
  })
}
