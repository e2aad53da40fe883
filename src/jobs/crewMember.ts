// A member that can do the jobs of a yield run: a worker behind a message port, or the page itself in slices.

import type { ArrayResult } from '../analysis/array/runArray'
import type { AssemblyResult } from '../analysis/assembly/assemblyResult'
import { answeredHere } from '../analysis/field/fit/knownFits'
import type { Ranking } from '../analysis/yield/ranking'
import type { YieldPlan } from '../analysis/yield/runYield'
import type { CostWeights, ShareOut } from '../analysis/yield/shareOut'
import { addAll, type Tally } from '../analysis/yield/tally'
import type { Project } from '../model/schema/project'
import { nextTask } from './runSteps'
import { type YieldJobs, yieldJobs } from './yieldJobs'

export interface CrewMember {
  readonly prepare: (project: Project, plan: YieldPlan) => Promise<void>
  readonly blocks: (first: number, end: number) => Promise<Tally>
  readonly ranking: () => Promise<Ranking>
  readonly array: (samples: number, onProgress: (share: number) => void) => Promise<ArrayResult>
  readonly assembly: (samples: number, onProgress: (share: number) => void) => Promise<AssemblyResult>
  readonly shareOut: (wanted: number, weights: CostWeights) => Promise<ShareOut>
  /** Ends it at once, in the middle of whatever it does. */
  readonly stop: () => void
}

/** The page works for so long and then pauses, so that it can paint and react. */
const SLICE_MS = 10

/** The page as its own worker, for where workers are blocked. */
export function pageMember(): CrewMember {
  let jobs: YieldJobs | null = null
  let stopped = false
  const own = async (): Promise<YieldJobs> => {
    await nextTask()
    if (jobs === null) throw new Error('the jobs are not prepared')
    if (stopped) throw new Error('stopped')
    return jobs
  }
  /** Takes the steps one by one, with a pause after every time slice. */
  const runInSlices = async <T, P>(
    steps: Generator<P, T, void>,
    onStep: (step: P) => void = () => undefined,
  ): Promise<T> => {
    let sliceStart = performance.now()
    for (;;) {
      const step = answeredHere(() => steps.next())
      if (step.done) return step.value
      if (performance.now() - sliceStart < SLICE_MS) continue
      onStep(step.value)
      await own()
      sliceStart = performance.now()
    }
  }
  return {
    prepare: async (project, plan) => {
      const { computeFitsHere } = await import('../analysis/field/fit/fitHere')
      computeFitsHere() // as a worker does: direct sums, and fits that are not known yet
      jobs = answeredHere(() => yieldJobs(project, plan))
    },
    blocks: async (first, end) => {
      const parts: Tally[] = []
      for (let block = first; block < end; block++) parts.push((await own()).blocks(block, block + 1))
      return addAll(parts)
    },
    ranking: async () => runInSlices((await own()).ranking()),
    array: async (samples, onProgress) => runInSlices((await own()).array(samples), onProgress),
    assembly: async (samples, onProgress) => runInSlices((await own()).assembly(samples), onProgress),
    shareOut: async (wanted, weights) => runInSlices((await own()).shareOut(wanted, weights)),
    stop: () => {
      stopped = true
    },
  }
}
