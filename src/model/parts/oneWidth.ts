// Quantities that are one: where a facet says that one width lies behind both diameters of its mode, MFD y follows MFD x.

import type { Path } from '../issue'
import { coreHalfWidth, coreValue } from '../quantity/quantity'
import type { FacetEntry } from '../schema/parts'
import type { Project } from '../schema/project'

/** Relative change of MFD y for one of MFD x: the ratio of their stated tolerances; in step where either has none. */
export function followingRatio({ mfdX, mfdY }: Pick<FacetEntry, 'mfdX' | 'mfdY'>): number {
  const relative = (quantity: typeof mfdX) => coreHalfWidth(quantity, 'mfd') / coreValue(quantity, 'mfd')
  const [x, y] = [relative(mfdX), relative(mfdY)]
  return x > 0 && y > 0 ? y / x : 1
}

interface Follower {
  readonly path: Path
  /** Its change in core units for one of the leading quantity. */
  readonly perCore: number
}

/** What follows a quantity of a part, so that it is written together with it; null where nothing does. */
export function followerOf({ facets }: Project, path: Path): Follower | null {
  const [list, at, field] = path
  const facet = list === 'facets' ? facets[Number(at)] : undefined
  if (facet?.oneWidth !== true || field !== 'mfdX') return null
  const perCore = (followingRatio(facet) * coreValue(facet.mfdY, 'mfd')) / coreValue(facet.mfdX, 'mfd')
  return { path: ['facets', Number(at), 'mfdY'], perCore }
}
