// Runs a job of the bench off the page. A job has a worker to itself; cancelling ends that worker. Where no worker can
// be had, the job runs on the page.

import { proxy, type Remote, wrap } from 'comlink'
import type { MeasureInput, MeasureJobName, MeasureJobs, MeasureOutput, Tell } from './measureJobs'

export interface JobOptions {
  readonly signal: AbortSignal
  readonly onProgress?: Tell
}

type Call<K extends MeasureJobName> = (input: MeasureInput<K>, tell: Tell) => Promise<MeasureOutput<K>>

/** The remote is kept with its worker: once it is collected as garbage, the worker stops listening. */
interface Hand {
  readonly worker: Worker
  readonly remote: Remote<MeasureJobs>
}

/** One worker is kept warm between jobs, so that a changed number does not wait for a new one to start. */
let idle: Hand | null = null

function takeHand(): Hand | null {
  const kept = idle
  idle = null
  if (kept !== null) return kept
  try {
    const worker = new Worker(new URL('./measureWorker.ts', import.meta.url), { type: 'module' })
    return { worker, remote: wrap<MeasureJobs>(worker) }
  } catch {
    return null // no workers here: the job runs on the page
  }
}

function giveBack(hand: Hand): void {
  if (idle === null) idle = hand
  else hand.worker.terminate()
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
  const hand = takeHand()
  if (hand === null) return runHere(name, input, tell)
  const { worker, remote } = hand
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
    const call = remote[name] as unknown as Call<K>
    call(input, proxy(tell)).then(
      (output) => {
        leave()
        giveBack(hand)
        resolve(output)
      },
      (error: unknown) => {
        leave()
        giveBack(hand)
        reject(error)
      },
    )
  })
}
