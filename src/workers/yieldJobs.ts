// The jobs that can be handed to somebody else: parts of a yield run, sharing out, arrays. Pure, the same in a worker, on
// the page and in tests.

import { type ArrayResult, arraySteps } from '../analysis/array/runArray'
import { type Assembly, assemblyOf } from '../analysis/yield/assembly'
import { type Ranking, rankingSteps, rankTolerances } from '../analysis/yield/ranking'
import { runBlocks } from '../analysis/yield/runBlocks'
import { finishYield, type YieldPlan } from '../analysis/yield/runYield'
import { type CostWeights, SHARE_OUT_WIDENING, type ShareOut, shareOut } from '../analysis/yield/shareOut'
import type { Tally } from '../analysis/yield/tally'
import type { YieldResult } from '../analysis/yield/yieldResult'
import { ProjectError } from '../model/parseProject'
import type { Project } from '../model/project'

export interface YieldJobs {
  readonly blocks: (first: number, end: number) => Tally
  readonly ranking: () => Ranking
  readonly rankingSteps: () => Generator<number, Ranking, void>
  readonly finish: (tally: Tally, ranking: Ranking) => YieldResult
  readonly arraySteps: (samples: number) => Generator<number, ArrayResult, void>
  readonly shareOut: (wanted: number, weights: CostWeights) => ShareOut
}

/** The jobs of one run. Throws ProjectError where the candidate cannot be computed. */
export function yieldJobs(project: Project, plan: YieldPlan): YieldJobs {
  const result = assemblyOf(project, plan.candidateId)
  if (!result.ok) throw new ProjectError(result.issues)
  const assembly: Assembly = result.value
  return {
    blocks: (first, end) => runBlocks(assembly, plan, first, end),
    ranking: () => rankTolerances(assembly, plan.seed),
    rankingSteps: () => rankingSteps(assembly, plan.seed),
    finish: (tally, ranking) => finishYield(assembly, plan, tally, ranking),
    arraySteps: (samples) => arraySteps(project, plan.candidateId, { samples, seed: plan.seed }),
    shareOut: (wanted, weights) => {
      const wide = assemblyOf(project, plan.candidateId, SHARE_OUT_WIDENING)
      if (!wide.ok) throw new ProjectError(wide.issues)
      return shareOut(wide.value, plan.seed, wanted, weights)
    },
  }
}
