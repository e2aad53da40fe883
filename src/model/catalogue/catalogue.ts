// The starter catalogue: generic parts to copy into a project, all to be verified with the supplier.

import type { PartLists } from '../project/references'
import { CATALOGUE_CONVERTERS } from './converters'
import { CATALOGUE_FACETS } from './facets'
import { CATALOGUE_FIBRES } from './fibres'
import { CATALOGUE_LENSES } from './lenses'
import { CATALOGUE_MEDIA } from './media'

export const CATALOGUE: PartLists = {
  fibres: CATALOGUE_FIBRES,
  facets: CATALOGUE_FACETS,
  media: CATALOGUE_MEDIA,
  converters: CATALOGUE_CONVERTERS,
  lenses: CATALOGUE_LENSES,
}
