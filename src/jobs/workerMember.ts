// A member of the crew in a separate worker. A worker that fails, or is silent for too long, is treated as dead: its pending requests then fail.

import { proxy, releaseProxy, wrap } from 'comlink'
import { knownFits } from '../analysis/field/fit/knownFits'
import type { CrewMember } from './crewMember'
import { WORKER_ENDED, WORKER_SILENT, whenWorkerEnds } from './workerLife'
import type { YieldRemote } from './yieldWorker'

const LONGEST_SILENCE_MS = 15_000

/** Progress that is a sign of life too. */
const telling = (heard: () => void, onProgress: (share: number) => void) =>
  proxy((share: number) => {
    heard()
    onProgress(share)
  })

/** Throws where the browser refuses workers. */
export function workerMember(): CrewMember {
  const worker = new Worker(new URL('./yieldWorker.ts', import.meta.url), { type: 'module' })
  const remote = wrap<YieldRemote>(worker)
  let die: (reason: Error) => void = () => undefined
  const death = new Promise<never>((_, reject) => {
    die = reject
  })
  death.catch(() => undefined) // an idle worker may die unheard; the next job hears of it
  worker.addEventListener('error', (event) =>
    die(new Error(event.message || 'the worker could not be loaded')),
  )
  whenWorkerEnds(worker, () => die(new Error(WORKER_ENDED)))
  worker.addEventListener('messageerror', () => die(new Error('a message from the worker could not be read')))

  const watched = async <T>(start: (heard: () => void) => Promise<T>): Promise<T> => {
    let timer: ReturnType<typeof setTimeout> | undefined
    let over = false // a sign of life may come later than the result, by another port
    const heard = () => {
      clearTimeout(timer)
      if (over) return
      timer = setTimeout(() => die(new Error(WORKER_SILENT)), LONGEST_SILENCE_MS)
    }
    heard()
    try {
      return await Promise.race([start(heard), death])
    } finally {
      over = true
      clearTimeout(timer)
    }
  }
  return {
    prepare: (project, plan) => watched(() => remote.prepare(project, plan, knownFits())),
    blocks: (first, end) => watched(() => remote.blocks(first, end)),
    ranking: () => watched((heard) => remote.ranking(proxy(heard))),
    array: (samples, onProgress) => watched((heard) => remote.array(samples, telling(heard, onProgress))),
    assembly: (samples, onProgress) =>
      watched((heard) => remote.assembly(samples, telling(heard, onProgress))),
    shareOut: (wanted, weights) => watched((heard) => remote.shareOut(wanted, weights, proxy(heard))),
    stop: () => {
      die(new Error('stopped'))
      remote[releaseProxy]()
      worker.terminate()
    },
  }
}
