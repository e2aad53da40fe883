// The ends of every chain, and parts put together.

import { PART_LISTS } from '../../model/project/references'
import type { ChainElement } from '../../model/schema/candidate'
import type { Parts, Site } from './ground'

export const fibreElement = ({ fibre }: Site, tipId?: string): ChainElement => ({
  kind: 'fibre',
  id: 'fibre',
  fibreId: fibre.id,
  ...(tipId === undefined ? {} : { tipId }),
})

export const facetElement = (facetId: string): ChainElement => ({
  kind: 'facet',
  id: 'facet',
  facetId,
})

/** All parts of several choices, list by list. */
export function joined(...all: readonly Parts[]): Parts {
  return Object.fromEntries(
    PART_LISTS.map((list) => [list, all.flatMap((each): readonly unknown[] => each[list] ?? [])]),
  )
}
