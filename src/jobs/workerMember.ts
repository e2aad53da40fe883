// A member of the crew in a separate worker. A worker that fails, or is silent for too long, is treated as dead: its pending requests then fail.

import { proxy, type Remote, releaseProxy, wrap } from 'comlink'
import { knownFits } from '../analysis/field/fit/knownFits'
import type { CrewMember } from './crewMember'
import { livingWorker, WORKER_ENDED, WORKER_SILENT } from './workerLife'
import type { YieldRemote } from './yieldWorker'

/** Of a worker whose end the page hears of, which can only be slow; and of one whose silence is the only sign. */
const LONGEST_SILENCE_MS = { watched: 120_000, unwatched: 15_000 } as const

/** Progress that is a sign of life too. */
const reporting = (heard: () => void, onProgress: (share: number) => void) =>
  proxy((share: number) => {
    heard()
    onProgress(share)
  })

const startWorker = () => new Worker(new URL('./yieldWorker.ts', import.meta.url), { type: 'module' })

export function workerMember(): CrewMember {
  const stopping = new AbortController()
  let die: (reason: Error) => void = () => undefined
  const death = new Promise<never>((_, reject) => {
    die = reject
  })
  death.catch(() => undefined) // an idle worker may die unheard; the next job hears of it
  let end: () => void = () => undefined
  let longestSilenceMs: number = LONGEST_SILENCE_MS.unwatched
  let started: Promise<Remote<YieldRemote>> | null = null
  const remoteOnce = (): Promise<Remote<YieldRemote>> => (started ??= startRemote())
  const startRemote = async () => {
    const { worker, isWatched } = await livingWorker(startWorker, stopping.signal, () =>
      die(new Error(WORKER_ENDED)),
    )
    const remote = wrap<YieldRemote>(worker)
    if (isWatched) longestSilenceMs = LONGEST_SILENCE_MS.watched
    worker.addEventListener('error', (event) => die(new Error(event.message || 'the worker has failed')))
    worker.addEventListener('messageerror', () =>
      die(new Error('a message from the worker could not be read')),
    )
    end = () => {
      remote[releaseProxy]()
      worker.terminate()
    }
    return remote
  }

  const watched = async <T>(
    start: (remote: Remote<YieldRemote>, heard: () => void) => Promise<T>,
  ): Promise<T> => {
    const remote = await remoteOnce()
    let timer: ReturnType<typeof setTimeout> | undefined
    let over = false // a sign of life may come later than the result, by another port
    const heard = () => {
      clearTimeout(timer)
      if (over) return
      timer = setTimeout(() => die(new Error(WORKER_SILENT)), longestSilenceMs)
    }
    heard()
    try {
      return await Promise.race([start(remote, heard), death])
    } finally {
      over = true
      clearTimeout(timer)
    }
  }
  return {
    prepare: (project, plan) => watched((remote) => remote.prepare(project, plan, knownFits())),
    blocks: (first, end) => watched((remote) => remote.blocks(first, end)),
    ranking: () => watched((remote, heard) => remote.ranking(proxy(heard))),
    array: (samples, onProgress) =>
      watched((remote, heard) => remote.array(samples, reporting(heard, onProgress))),
    assembly: (samples, onProgress) =>
      watched((remote, heard) => remote.assembly(samples, reporting(heard, onProgress))),
    shareOut: (wanted, weights) => watched((remote, heard) => remote.shareOut(wanted, weights, proxy(heard))),
    stop: () => {
      die(new Error('stopped'))
      stopping.abort()
      end()
      end = () => undefined // a member is stopped when its run is cancelled, and once more when the run is over
    },
  }
}
