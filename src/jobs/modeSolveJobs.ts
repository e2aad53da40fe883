// Solving and sweeping cross-sections as plain functions: run by the worker, by tests, and on the page where there is none.

import { type FacetMode, facetModeSteps, type ModeRequest } from '../analysis/crossSection/facetMode'
import { type SweepRequest, type SweepResult, sweepSteps } from '../analysis/crossSection/modeSweep'
import { type TaperChain, type TaperRequest, taperSteps } from '../analysis/crossSection/taperChain'
import { attemptedSteps, type Outcome } from '../numerics/outcome'
import type { Tell } from './jobRunner'
import { walked } from './walked'

export const modeJobs = {
  solve: (request: ModeRequest, tell: Tell): Promise<Outcome<FacetMode>> =>
    walked(attemptedSteps(facetModeSteps(request)), tell),
  sweep: (request: SweepRequest, tell: Tell): Promise<Outcome<SweepResult>> =>
    walked(attemptedSteps(sweepSteps(request)), tell),
  taper: (request: TaperRequest, tell: Tell): Promise<Outcome<TaperChain>> =>
    walked(attemptedSteps(taperSteps(request)), tell),
}

export type ModeJobs = typeof modeJobs
