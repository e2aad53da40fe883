// The model to which tolerances, temperatures and wavelengths of a joint apply, one sentence each, for every screen that shows such numbers.

import type { CompiledCandidate } from './compileCandidate'

/** One sentence for every joint that is computed by its fields; empty where all are Gaussian. */
export function movedModels({ joins, nominal }: CompiledCandidate): readonly string[] {
  return [...new Set(joins.flatMap((join) => join.view?.(nominal).field?.moves ?? []))]
}
