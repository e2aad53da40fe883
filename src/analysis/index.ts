// The public face of the analysis.
export { checkRequirements } from './checkRequirements'
export { evaluateCandidate, tryEvaluate } from './evaluateCandidate'
export type { BudgetLine, Evaluation, JointView, LineKind } from './evaluation'
export { type LossCause, type LossCauses, lossCauses } from './lossCauses'
export type { Verdict, VerdictStatus } from './verdict'
export { runYield, type YieldOptions } from './yield/runYield'
export type { Percentile, RankedTolerance, YieldResult } from './yield/yieldResult'
