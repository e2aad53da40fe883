// The worker: the jobs behind a message port, and nothing else.

import { expose, transfer } from 'comlink'
import type { YieldPlan } from '../analysis/yield/runYield'
import type { CostWeights } from '../analysis/yield/shareOut'
import type { Project } from '../model/project'
import { finish } from '../numerics/steps'
import { type YieldJobs, yieldJobs } from './yieldJobs'

let jobs: YieldJobs | null = null

function prepared(): YieldJobs {
  if (jobs === null) throw new Error('the jobs are not prepared')
  return jobs
}

const remote = {
  prepare: (project: Project, plan: YieldPlan) => {
    jobs = yieldJobs(project, plan)
  },
  blocks: (first: number, end: number) => {
    const tally = prepared().blocks(first, end)
    return transfer(tally, [tally.counts.buffer])
  },
  ranking: () => finish(prepared().ranking()),
  array: (samples: number, onProgress: (share: number) => void) => {
    const steps = prepared().array(samples)
    for (;;) {
      const step = steps.next()
      if (step.done) return step.value
      onProgress(step.value)
    }
  },
  shareOut: (wanted: number, weights: CostWeights) => finish(prepared().shareOut(wanted, weights)),
}
export type YieldRemote = typeof remote

expose(remote)
