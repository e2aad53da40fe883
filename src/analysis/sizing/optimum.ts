// The optimum of a design with what the search may change: free settings, and parts that were freed. Plain data, so that it can be
// found elsewhere.

import type { Project } from '../../model/schema/project'
import { type Steps, within } from '../../numerics/steps'
import { compileCandidate } from '../path/compileCandidate'
import { type BestSettings, bestSettingSteps } from '../tolerance/bestSettings'
import type { SizedDimension } from './dimensions'
import { type FreedPart, freeingSteps, type PartFit, partFits } from './partFits'

export interface Optimum extends BestSettings {
  readonly fits: readonly PartFit[]
  /** What freeing has changed in the parts. */
  readonly changed: readonly FreedPart[]
}

/** Share of the work that sizing freed parts is. */
const FREEING = 0.5

/** Without the function that reads it from a path, which no worker can send. */
function plain<T extends SizedDimension | null>(dimension: T): T {
  if (dimension === null) return dimension
  const { reading: _, ...rest } = dimension as SizedDimension
  return rest as T
}

/** The optimum of a design, against its loss as it is; null where it cannot be computed. */
export function* optimumSteps(project: Project, designId: string): Steps<Optimum | null> {
  const compiled = compileCandidate(project, designId)
  if (!compiled.ok) return null
  const freed = yield* within(0, FREEING, freeingSteps(project, designId))
  const there = freed.changed.length === 0 ? compiled : compileCandidate(freed.project, designId)
  if (!there.ok) return null
  const best = yield* within(FREEING, 1, bestSettingSteps(there.value))
  return {
    ...best,
    nowDb: compiled.value.lossDb(compiled.value.nominal),
    fits: partFits(project, compiled.value).map((fit) => ({ ...fit, dimension: plain(fit.dimension) })),
    changed: freed.changed.map((part) => ({ ...part, dimension: plain(part.dimension) })),
  }
}
