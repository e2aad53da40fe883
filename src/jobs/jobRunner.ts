// Runs named jobs off the page. A job has a worker to itself; cancelling ends that worker. Where no worker can be had, the
// job runs on the page.

import { proxy, type Remote, wrap } from 'comlink'
import { livingWorker, WORKER_ENDED, WORKER_SILENT, WorkersRefused } from './workerLife'

export type ReportProgress = (share: number) => void

interface JobOptions {
  readonly signal: AbortSignal
  readonly onProgress?: ReportProgress
}

type JobTable = Readonly<Record<string, (input: never, report: ReportProgress) => Promise<unknown>>>
type JobInput<Jobs extends JobTable, K extends keyof Jobs> = Parameters<Jobs[K]>[0]
export type JobOutput<Jobs extends JobTable, K extends keyof Jobs> = Awaited<ReturnType<Jobs[K]>>

/** The remote is kept with its worker: once it is collected as garbage, the worker stops listening. */
interface KeptWorker<Jobs> {
  readonly worker: Worker
  readonly remote: Remote<Jobs>
  /** Whoever waits for a job of it. */
  ended: () => void
}

/** Longer than any step of a job takes, on a slow machine too. */
const LONGEST_SILENCE_MS = 120_000

/**
 * The runner of a table of jobs: `start` makes a worker that exposes the table, `load` gets the same table for the page.
 * Without `keepsWarm` no worker outlives its job, so that the memory of a large one is free at once. What it returns resolves to a job's output, and rejects with the signal's reason once it is aborted, and with the bug
 * if the job has one.
 */
export function jobRunner<Jobs extends JobTable>(
  start: () => Worker,
  load: () => Promise<Jobs>,
  { keepsWarm = true } = {},
) {
  type Call<K extends keyof Jobs> = (
    input: JobInput<Jobs, K>,
    report: ReportProgress,
  ) => Promise<JobOutput<Jobs, K>>

  /** One worker is kept warm between jobs, so that a changed number does not wait for a new one to start. */
  let idle: KeptWorker<Jobs> | null = null

  async function takeWorker(signal: AbortSignal): Promise<KeptWorker<Jobs>> {
    const kept = idle
    idle = null
    if (kept !== null) return kept
    let held: KeptWorker<Jobs> | null = null
    const { worker } = await livingWorker(start, signal, () => {
      if (idle === held) idle = null
      held?.ended()
    })
    held = { worker, remote: wrap<Jobs>(worker), ended: () => undefined }
    return held
  }

  function giveBack(held: KeptWorker<Jobs>): void {
    if (keepsWarm && idle === null) idle = held
    else held.worker.terminate()
  }

  async function runHere<K extends keyof Jobs>(
    name: K,
    input: JobInput<Jobs, K>,
    report: ReportProgress,
  ): Promise<JobOutput<Jobs, K>> {
    const jobs = await load()
    const call = jobs[name] as unknown as Call<K>
    return call(input, report)
  }

  return async function run<K extends keyof Jobs & string>(
    name: K,
    input: JobInput<Jobs, K>,
    { signal, onProgress = () => {} }: JobOptions,
  ): Promise<JobOutput<Jobs, K>> {
    signal.throwIfAborted()
    const report: ReportProgress = (share) => {
      if (!signal.aborted) onProgress(share)
    }
    // On the page there is nothing to terminate: a job ends where it next reports its progress.
    const reportHere: ReportProgress = (share) => {
      signal.throwIfAborted()
      onProgress(share)
    }
    const held = await takeWorker(signal).catch((error: unknown) => {
      if (error instanceof WorkersRefused) return null // the job runs on the page
      throw error
    })
    if (held === null) return runHere(name, input, reportHere)
    const { worker, remote } = held
    return new Promise<JobOutput<Jobs, K>>((resolve, reject) => {
      let silence: ReturnType<typeof setTimeout> | undefined
      let over = false // a sign of life may come later than the result, by another port
      const leave = () => {
        over = true
        held.ended = () => undefined
        clearTimeout(silence)
        signal.removeEventListener('abort', onAbort)
        worker.removeEventListener('error', onError)
      }
      const fail = (message: string) => {
        leave()
        worker.terminate()
        reject(new Error(message))
      }
      const listen = () => {
        clearTimeout(silence)
        if (over) return
        silence = setTimeout(() => fail(WORKER_SILENT), LONGEST_SILENCE_MS)
      }
      const onAbort = () => {
        leave()
        worker.terminate()
        reject(signal.reason)
      }
      // What broke a worker at work would break the page too.
      const onError = () => fail(WORKER_ENDED)
      signal.addEventListener('abort', onAbort)
      worker.addEventListener('error', onError)
      held.ended = () => fail(WORKER_ENDED)
      listen()
      const call = (remote as Readonly<Record<string, unknown>>)[name] as Call<K>
      const reportAlive: ReportProgress = (share) => {
        listen()
        report(share)
      }
      call(input, proxy(reportAlive)).then(
        (output) => {
          leave()
          giveBack(held)
          resolve(output)
        },
        (error: unknown) => {
          leave()
          giveBack(held)
          reject(error)
        },
      )
    })
  }
}
