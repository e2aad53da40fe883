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

interface LifeMessage {
  readonly life: string
}

const isLife = (data: unknown): data is LifeMessage =>
  typeof data === 'object' && data !== null && typeof (data as Partial<LifeMessage>).life === 'string'

/** In the worker: takes a lock for life and sends the page its name. */
export function announceLife(): void {
  const locks = typeof navigator === 'undefined' ? undefined : navigator.locks
  const name = `modeseam-worker-${Math.random()}`
  locks
    ?.request(name, () => {
      const message: LifeMessage = { life: name }
      self.postMessage(message)
      return new Promise<never>(() => undefined)
    })
    .catch(() => undefined) // locks are refused here: silence is the only sign
}

/** On the page: calls `ended` once the worker is gone, whoever ended it. */
export function whenWorkerEnds(worker: Worker, ended: () => void): void {
  worker.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
    if (!isLife(data)) return
    navigator.locks.request(data.life, ended).catch(() => undefined)
  })
}
