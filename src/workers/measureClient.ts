// Runs a job of the bench off the page. A job has a worker to itself; cancelling ends that worker. Where no worker can
// be had, the job runs on the page.

import { proxy, type Remote, wrap } from 'comlink'
import type { MeasureInput, MeasureJobName, MeasureJobs, MeasureOutput, Tell } from './measureJobs'

export interface JobOptions {
  readonly signal: AbortSignal
  readonly onProgress?: Tell
}

type Call<K extends MeasureJobName> = (input: MeasureInput<K>, tell: Tell) => Promise<MeasureOutput<K>>

/** One worker is kept warm between jobs, so that a changed number does not wait for a new one to start. */
let idle: Worker | null = null

function takeWorker(): Worker | null {
  const kept = idle
  idle = null
  if (kept !== null) return kept
  try {
    return new Worker(new URL('./measureWorker.ts', import.meta.url), { type: 'module' })
  } catch {
    return null // no workers here: the job runs on the page
  }
}

function giveBack(worker: Worker): void {
  if (idle === null) idle = worker
  else worker.terminate()
}

async function runHere<K extends MeasureJobName>(
  name: K,
  input: MeasureInput<K>,
  tell: Tell,
): Promise<MeasureOutput<K>> {
  const { measureJobs } = await import('./measureJobs')
  return (measureJobs[name] as Call<K>)(input, tell)
}

/** The job's output. Rejects with the signal's reason once it is aborted, and with the bug if the job has one. */
export async function runMeasureJob<K extends MeasureJobName>(
  name: K,
  input: MeasureInput<K>,
  { signal, onProgress = () => {} }: JobOptions,
): Promise<MeasureOutput<K>> {
  signal.throwIfAborted()
  const tell: Tell = (share) => {
    if (!signal.aborted) onProgress(share)
  }
  const worker = takeWorker()
  if (worker === null) return runHere(name, input, tell)
  return new Promise((resolve, reject) => {
    const leave = () => {
      signal.removeEventListener('abort', onAbort)
      worker.removeEventListener('error', onLoadError)
    }
    const onAbort = () => {
      leave()
      worker.terminate()
      reject(signal.reason)
    }
    const onLoadError = () => {
      leave()
      worker.terminate()
      runHere(name, input, tell).then(resolve, reject)
    }
    signal.addEventListener('abort', onAbort)
    worker.addEventListener('error', onLoadError)
    const remote: Remote<MeasureJobs> = wrap<MeasureJobs>(worker)
    const call = remote[name] as unknown as Call<K>
    call(input, proxy(tell)).then(
      (output) => {
        leave()
        giveBack(worker)
        resolve(output)
      },
      (error: unknown) => {
        leave()
        giveBack(worker)
        reject(error)
      },
    )
  })
}
