// The starter catalogue: generic parts to copy into a project, all to be verified with the supplier.

import type { Project } from '../project'
import type { PartList } from '../references'
import { CATALOGUE_CONVERTERS } from './converters'
import { CATALOGUE_FACETS } from './facets'
import { CATALOGUE_FIBRES } from './fibres'
import { CATALOGUE_LENSES } from './lenses'
import { CATALOGUE_MEDIA } from './media'

export type PartLists = { readonly [L in PartList]: readonly Project[L][number][] }

export const CATALOGUE: PartLists = {
  fibres: CATALOGUE_FIBRES,
  facets: CATALOGUE_FACETS,
  media: CATALOGUE_MEDIA,
  converters: CATALOGUE_CONVERTERS,
  lenses: CATALOGUE_LENSES,
}

/** Whether every word of the search stands somewhere in the part's name, remark or kind. */
export function matchesSearch(part: object, search: string): boolean {
  const text = JSON.stringify(part).toLowerCase()
  return search
    .toLowerCase()
    .split(/\s+/)
    .every((word) => text.includes(word))
}
