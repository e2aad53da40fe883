// The public face of the analysis.

export { evaluateCandidate, tryEvaluate } from './budget/evaluateCandidate'
export { type LossCause, type LossCauses, lossCauses } from './budget/lossCauses'
export type { BudgetLine, Evaluation, JointView, LineKind } from './results/evaluation'
export type { Verdict, VerdictStatus } from './results/verdict'
export { checkRequirements } from './verdicts/checkRequirements'
export { runYield, type YieldOptions } from './yield/runYield'
export type { Percentile, RankedTolerance, YieldResult } from './yield/yieldResult'
