// Somebody who can do the jobs of a yield run: a worker behind a message port, or the page itself in slices.

import type { ArrayResult } from '../analysis/array/runArray'
import type { Ranking } from '../analysis/yield/ranking'
import type { YieldPlan } from '../analysis/yield/runYield'
import type { CostWeights, ShareOut } from '../analysis/yield/shareOut'
import { addAll, type Tally } from '../analysis/yield/tally'
import type { Project } from '../model/project'
import { type YieldJobs, yieldJobs } from './yieldJobs'

export interface CrewMember {
  readonly prepare: (project: Project, plan: YieldPlan) => Promise<void>
  readonly blocks: (first: number, end: number) => Promise<Tally>
  readonly ranking: () => Promise<Ranking>
  readonly array: (samples: number, onProgress: (share: number) => void) => Promise<ArrayResult>
  readonly shareOut: (wanted: number, weights: CostWeights) => Promise<ShareOut>
  /** Ends it at once, in the middle of whatever it does. */
  readonly stop: () => void
}

/** The page breathes after so many blocks: a few milliseconds of work. */
const BLOCKS_A_SLICE = 2

const breath = () => new Promise<void>((resolve) => setTimeout(resolve, 0))

/** Takes the steps one by one, with a pause after each. */
async function walked<T>(
  steps: Generator<number, T, void>,
  pause: (share: number) => Promise<unknown>,
): Promise<T> {
  for (;;) {
    const step = steps.next()
    if (step.done) return step.value
    await pause(step.value)
  }
}

/** The page as its own worker, for where workers are blocked. */
export function pageMember(): CrewMember {
  let jobs: YieldJobs | null = null
  let stopped = false
  const own = async (): Promise<YieldJobs> => {
    await breath()
    if (jobs === null) throw new Error('the jobs are not prepared')
    if (stopped) throw new Error('stopped')
    return jobs
  }
  return {
    prepare: async (project, plan) => {
      jobs = yieldJobs(project, plan)
    },
    blocks: async (first, end) => {
      const parts: Tally[] = []
      for (let from = first; from < end; from += BLOCKS_A_SLICE) {
        parts.push((await own()).blocks(from, Math.min(end, from + BLOCKS_A_SLICE)))
      }
      return addAll(parts)
    },
    ranking: async () => walked((await own()).rankingSteps(), () => own()),
    array: async (samples, onProgress) =>
      walked((await own()).arraySteps(samples), async (share) => {
        onProgress(share)
        await own()
      }),
    shareOut: async (wanted, weights) => (await own()).shareOut(wanted, weights),
    stop: () => {
      stopped = true
    },
  }
}
