// Solving and sweeping cross-sections as plain functions: run by the worker, by tests, and on the page where there is none.

import { type FacetMode, facetModeSteps, type ModeRequest } from '../analysis/crossSection/facetMode'
import { type SweepRequest, type SweepResult, sweepSteps } from '../analysis/crossSection/modeSweep'
import { type Refusable, refusable } from '../analysis/crossSection/refusable'
import type { Tell } from './jobRunner'

const breath = () => new Promise<void>((resolve) => setTimeout(resolve, 0))

/** Takes the steps one by one, and lets the page draw in between where it does the work itself. */
async function walked<T>(steps: Generator<number, T, void>, tell: Tell): Promise<T> {
  for (;;) {
    const step = steps.next()
    if (step.done) return step.value
    tell(step.value)
    await breath()
  }
}

export const modeJobs = {
  solve: (request: ModeRequest, tell: Tell): Promise<Refusable<FacetMode>> =>
    walked(refusable(facetModeSteps(request)), tell),
  sweep: (request: SweepRequest, tell: Tell): Promise<Refusable<SweepResult>> =>
    walked(refusable(sweepSteps(request)), tell),
}

export type ModeJobs = typeof modeJobs
