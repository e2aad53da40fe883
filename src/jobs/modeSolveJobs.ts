// Solving and sweeping cross-sections as plain functions: run by the worker, by tests, and on the page where there is none.

import { type FacetMode, facetModeSteps, type ModeRequest } from '../analysis/crossSection/facetMode'
import { type SweepRequest, type SweepResult, sweepSteps } from '../analysis/crossSection/modeSweep'
import { type TaperChain, type TaperRequest, taperSteps } from '../analysis/crossSection/taperChain'
import { attemptedSteps, type Outcome } from '../numerics/outcome'
import type { ReportProgress } from './jobRunner'
import { runSteps } from './runSteps'

export const modeJobs = {
  solve: (request: ModeRequest, report: ReportProgress): Promise<Outcome<FacetMode>> =>
    runSteps(attemptedSteps(facetModeSteps(request)), report),
  sweep: (request: SweepRequest, report: ReportProgress): Promise<Outcome<SweepResult>> =>
    runSteps(attemptedSteps(sweepSteps(request)), report),
  taper: (request: TaperRequest, report: ReportProgress): Promise<Outcome<TaperChain>> =>
    runSteps(attemptedSteps(taperSteps(request)), report),
}

export type ModeJobs = typeof modeJobs
