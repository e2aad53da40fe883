// What each change between two designs does to the loss and the yield of a candidate: alone, and all together.

import { leadingLoss } from '../../model/project/lossCriteria'
import { designOf } from '../../model/project/revisions'
import type { Design, Project } from '../../model/schema/project'
import { tryEvaluate } from '../budget/evaluateCandidate'
import { directSums } from '../field/fit/knownFits'
import { modeHolders } from '../field/modeHolders'
import { awaitsMode } from '../field/portShape'
import { assemblyOf, withDirectSums } from '../yield/assembly'
import { blocksOf, runBlocks } from '../yield/runBlocks'
import { tallyQuantile } from '../yield/tally'
import { type Change, designChanges } from './changes'

/** Enough to see a change of the yield of half a per cent; the same points serve every state. */
export const EFFECT_SAMPLES = 4096

/** Loss and yield of one state; null where it cannot be computed. */
export interface State {
  readonly lossDb: number | null
  readonly rootSumSquareDb: number | null
  readonly worstCaseDb: number | null
  /** At the share that the leading loss criterion asks for. */
  readonly percentileDb: number | null
  readonly yield: number | null
  /** How far the fit is off by which percentile and yield were found, where it misses its target and nothing is summed here, dB. */
  readonly fitMissesDb: number | null
  /** True where a Gaussian replaced the mode of a cross-section that is not solved. */
  readonly awaitsMode: boolean
}

interface ChangeEffect {
  readonly change: Change
  /** The earlier state with this change alone. */
  readonly alone: State
}

interface Effects {
  readonly before: State
  readonly after: State
  readonly effects: readonly ChangeEffect[]
}

const NOTHING: State = {
  lossDb: null,
  rootSumSquareDb: null,
  worstCaseDb: null,
  percentileDb: null,
  yield: null,
  fitMissesDb: null,
  awaitsMode: false,
}

function stateOf(project: Project, candidateId: string, seed: number): State {
  const evaluation = tryEvaluate(project, candidateId)
  if (!evaluation.ok) return NOTHING
  const { nominalDb, rootSumSquare, worstCorner } = evaluation.value
  const found = {
    ...NOTHING,
    lossDb: nominalDb,
    rootSumSquareDb: rootSumSquare.lossDb,
    worstCaseDb: worstCorner.lossDb,
    awaitsMode: modeHolders(project).some(({ holder }) => awaitsMode(holder)),
  }
  const assembly = assemblyOf(project, candidateId)
  if (!assembly.ok) return found
  const missesDb = Math.max(0, ...assembly.value.compiled.joins.map(({ fitMissesDb = 0 }) => fitMissesDb))
  const tally = runBlocks(
    withDirectSums(assembly.value, project),
    { samples: EFFECT_SAMPLES, seed, method: 'sobol' },
    0,
    blocksOf(EFFECT_SAMPLES),
  )
  return {
    ...found,
    percentileDb: tallyQuantile(tally, leadingLoss(project.requirements).percentile / 100),
    yield: tally.passed / tally.samples,
    fitMissesDb: missesDb > 0 && directSums() === null ? missesDb : null,
  }
}

/**
 * Effects on one candidate of all changes from `before` to `after`; yields are counted with the seed of `after`. Each state is
 * computed with the modes that `withModes` puts into it.
 */
export function changeEffects(
  before: Project,
  after: Project,
  candidateId: string,
  withModes: (project: Project) => Project = (project) => project,
): Effects {
  const { seed } = after
  const now = (design: Design) => stateOf(withModes({ ...before, ...design }), candidateId, seed)
  return {
    before: now(before),
    after: stateOf(withModes(after), candidateId, seed),
    effects: designChanges(designOf(before), designOf(after)).map((change) => ({
      change,
      alone: now(change.apply(before)),
    })),
  }
}
