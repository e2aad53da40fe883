// Where glass touches chip: the gap below which no value of a joint can go.

import type { Candidate } from '../../model/schema/candidate'
import type { Variable } from '../results/evaluation'
import type { JoinModel } from './vector/elementModels'

/** By the slot of each gap's value, of a relay that behind its last lens: the joins are the odd elements of the chain. */
export function leastGapsUm(
  variables: readonly Variable[],
  { chain }: Candidate,
  joins: readonly JoinModel[],
): ReadonlyMap<number, number> {
  return new Map(
    variables.flatMap(({ path }, slot): readonly (readonly [number, number])[] => {
      const at = Number(path[3])
      const own = chain[at]?.kind === 'gap' ? 'gap' : 'backGap'
      if (path[2] !== 'chain' || path.length !== 5 || path[4] !== own) return []
      return [[slot, Math.max(0, joins[(at - 1) / 2]?.contact?.gapUm ?? 0)]]
    }),
  )
}
