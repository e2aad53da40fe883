// The public interface of the analysis. Code that imports it can wait for the fits of real joints. The page cannot: its bundle takes from here
// what it names and leaves out the call below (package.json, sideEffects), and main.tsx has a worker make the fits.

import { computeFitsHere } from './field/fit/fitHere'

computeFitsHere()

export { evaluateCandidate, tryEvaluate } from './budget/evaluateCandidate'
export { type LossCause, type LossCauses, lossCauses } from './budget/lossCauses'
export type { BudgetLine, Evaluation, JointView, LineKind } from './results/evaluation'
export type { Verdict, VerdictStatus } from './results/verdict'
export { checkRequirements } from './verdicts/checkRequirements'
export { runYield, type YieldOptions } from './yield/runYield'
export type { Percentile, RankedTolerance, YieldResult } from './yield/yieldResult'
