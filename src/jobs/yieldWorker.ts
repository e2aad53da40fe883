// The worker: the jobs behind a message port, and nothing else.

import { expose, transfer } from 'comlink'
import { computeFitsHere } from '../analysis/field/fit/fitHere'
import { type KnownFit, learnFits } from '../analysis/field/fit/knownFits'
import type { YieldPlan } from '../analysis/yield/runYield'
import type { CostWeights } from '../analysis/yield/shareOut'
import type { Project } from '../model/schema/project'
import { announceLife } from './workerLife'
import { type YieldJobs, yieldJobs } from './yieldJobs'

let jobs: YieldJobs | null = null

function prepared(): YieldJobs {
  if (jobs === null) throw new Error('the jobs are not prepared')
  return jobs
}

/** A sign of life so often, so that a long job is not taken for a dead worker. */
const REPORT_EVERY_MS = 200

/** Runs a long job to its end and reports its progress. */
function runToEnd<P, T>(steps: Generator<P, T, void>, onProgress: (step: P) => void): T {
  let lastReport = performance.now()
  for (;;) {
    const step = steps.next()
    if (step.done) return step.value
    if (performance.now() - lastReport < REPORT_EVERY_MS) continue
    lastReport = performance.now()
    onProgress(step.value)
  }
}

const remote = {
  prepare: (project: Project, plan: YieldPlan, fits: readonly KnownFit[]) => {
    learnFits(fits)
    jobs = yieldJobs(project, plan)
  },
  blocks: (first: number, end: number) => {
    const tally = prepared().blocks(first, end)
    return transfer(tally, [tally.counts.buffer])
  },
  ranking: (onStep: (share: number) => void) => runToEnd(prepared().ranking(), onStep),
  array: (samples: number, onProgress: (share: number) => void) =>
    runToEnd(prepared().array(samples), onProgress),
  assembly: (samples: number, onProgress: (share: number) => void) =>
    runToEnd(prepared().assembly(samples), onProgress),
  shareOut: (wanted: number, weights: CostWeights, onStep: (step: unknown) => void) =>
    runToEnd(prepared().shareOut(wanted, weights), onStep),
}
export type YieldRemote = typeof remote

computeFitsHere()
announceLife()
expose(remote)
