// The jobs that can be given to a worker: parts of a yield run, tolerance allocation, arrays. Pure, the same in a worker, on
// the page and in tests.

import { type ArrayResult, arraySteps } from '../analysis/array/runArray'
import { type AssemblyResult, assemblySteps } from '../analysis/assembly/assemblyResult'
import { sequenceOf } from '../analysis/assembly/usualSequence'
import { type Assembly, assemblyOf, withDirectSums, withSumsBeyond } from '../analysis/yield/assembly'
import { type Ranking, rankingSteps } from '../analysis/yield/ranking'
import { runBlocks } from '../analysis/yield/runBlocks'
import { finishYield, pointsOfRanking, type YieldPlan } from '../analysis/yield/runYield'
import {
  type CostWeights,
  SHARE_OUT_WIDENING,
  type ShareOut,
  shareOutSteps,
} from '../analysis/yield/shareOut'
import type { Tally } from '../analysis/yield/tally'
import type { YieldResult } from '../analysis/yield/yieldResult'
import { ProjectError } from '../model/project/projectError'
import type { Project } from '../model/schema/project'

export interface YieldJobs {
  readonly blocks: (first: number, end: number) => Tally
  readonly ranking: () => Generator<number, Ranking, void>
  readonly finish: (tally: Tally, ranking: Ranking) => YieldResult
  readonly array: (samples: number) => Generator<number, ArrayResult, void>
  readonly assembly: (samples: number) => Generator<number, AssemblyResult, void>
  readonly shareOut: (wanted: number, weights: CostWeights) => Generator<unknown, ShareOut, void>
}

/** The jobs of one run, long ones in steps. Throws ProjectError where the candidate cannot be computed. */
export function yieldJobs(project: Project, plan: YieldPlan): YieldJobs {
  const result = assemblyOf(project, plan.candidateId)
  if (!result.ok) throw new ProjectError(result.issues)
  const assembly: Assembly = result.value
  const direct = withDirectSums(assembly, project)
  return {
    blocks: (first, end) => runBlocks(direct, plan, first, end),
    ranking: () => rankingSteps(direct, plan.seed, pointsOfRanking(direct, plan)),
    finish: (tally, ranking) => finishYield(direct, plan, tally, ranking),
    array: (samples) => arraySteps(project, plan.candidateId, { samples, seed: plan.seed }),
    assembly: (samples) => {
      const sequence = sequenceOf(project, assembly.compiled.candidate)
      return assemblySteps(project, plan.candidateId, sequence, { samples, seed: plan.seed })
    },
    shareOut: (wanted, weights) => {
      const wide = assemblyOf(project, plan.candidateId, SHARE_OUT_WIDENING)
      if (!wide.ok) throw new ProjectError(wide.issues)
      const exact = withSumsBeyond(wide.value, project, SHARE_OUT_WIDENING)
      return shareOutSteps(wide.value, plan.seed, wanted, weights, exact)
    },
  }
}
