// How the mode of each family usually runs, for its picture until it is drafted and where it does not apply.

import type { FamilyId } from '../../analysis/proposals/families'
import { outlineStops } from './outlineStops'
import type { PathStop } from './pathStops'

const FIBRE_UM = 10.4
const FACET_UM = 3.2

const through = (...points: readonly (readonly [at: number, mfdUm: number])[]): readonly PathStop[] =>
  outlineStops(points.map(([at, mfdUm]) => ({ at, mfdUm })))

const straight = through([0, FIBRE_UM], [0.47, FIBRE_UM], [0.64, FACET_UM], [1, FACET_UM])

export const USUAL_OUTLINES: Readonly<Record<FamilyId, readonly PathStop[]>> = {
  'cleaved-dry': straight,
  'cleaved-gel': straight,
  stub: through([0, FIBRE_UM], [0.32, FIBRE_UM], [0.4, FACET_UM], [1, FACET_UM]),
  lensed: through([0, FIBRE_UM], [0.47, FIBRE_UM], [0.64, FACET_UM], [1, FACET_UM]),
  relay: through([0, FIBRE_UM], [0.32, FIBRE_UM], [0.42, 80], [0.65, 80], [0.76, FACET_UM], [1, FACET_UM]),
  ssc: through([0, FIBRE_UM], [0.42, FIBRE_UM], [0.68, 3.5], [1, FACET_UM]),
  'on-chip': through([0, FIBRE_UM], [0.47, FIBRE_UM], [0.64, 5.4], [1, 5.4]),
}
