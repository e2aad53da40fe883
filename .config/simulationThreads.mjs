// Threads that run designs for a command: each run goes to the next free thread, and what it gives depends on the design alone.

import { availableParallelism } from 'node:os'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { isMainThread, parentPort, Worker } from 'node:worker_threads'
import { libraryPath } from './library.mjs'

/** Runs of designs on `size` threads, which start with the first run and end with `stop`. */
export function simulationThreads(size = availableParallelism()) {
  const waiting = []
  const idle = []
  const threads = new Set()
  /** What each thread is doing. */
  const jobs = new Map()
  const settle = (thread, { result, fault }) => {
    const job = jobs.get(thread)
    jobs.delete(thread)
    if (fault === undefined) job?.resolve(result)
    else job?.reject(new Error(fault))
  }
  const hire = () => {
    const thread = new Worker(fileURLToPath(import.meta.url))
    threads.add(thread)
    thread.on('message', (answer) => {
      settle(thread, answer)
      idle.push(thread)
      next()
    })
    // A thread that broke takes no further job; another takes its place.
    thread.on('error', ({ message }) => {
      threads.delete(thread)
      settle(thread, { fault: message })
      next()
    })
    return thread
  }
  const next = () => {
    while (waiting.length > 0) {
      const thread = idle.pop() ?? (threads.size < size ? hire() : undefined)
      if (thread === undefined) return
      const job = waiting.shift()
      jobs.set(thread, job)
      thread.postMessage(job.request)
    }
  }
  const run = (kind) => (project, candidateId, samples) =>
    new Promise((resolve, reject) => {
      waiting.push({ request: { kind, project, candidateId, samples }, resolve, reject })
      next()
    })
  return {
    yieldOf: run('yield'),
    arrayOf: run('array'),
    stop: () => Promise.all(Array.from(threads, (thread) => thread.terminate())),
  }
}

if (!isMainThread && parentPort !== null) {
  const { runArray, runYield } = await import(pathToFileURL(libraryPath).href)
  parentPort.on('message', ({ kind, project, candidateId, samples }) => {
    try {
      const result = (kind === 'yield' ? runYield : runArray)(project, candidateId, { samples })
      parentPort.postMessage({ result })
    } catch (error) {
      parentPort.postMessage({ fault: error instanceof Error ? error.message : String(error) })
    }
  })
}
