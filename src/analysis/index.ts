// The public face of the analysis.
export { checkRequirements } from './results/checkRequirements'
export { evaluateCandidate, tryEvaluate } from './results/evaluateCandidate'
export type { BudgetLine, Evaluation, JointView, LineKind } from './results/evaluation'
export { type LossCause, type LossCauses, lossCauses } from './results/lossCauses'
export type { Verdict, VerdictStatus } from './results/verdict'
export { runYield, type YieldOptions } from './yield/runYield'
export type { Percentile, RankedTolerance, YieldResult } from './yield/yieldResult'
