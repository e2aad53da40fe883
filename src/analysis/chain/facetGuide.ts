// The chip's edge facet, with the on-chip taper behind it.

import type { Path } from '../../model/issue'
import { indexReader } from './indexReader'
import type { ChainContext, GuideModel } from './models'

export function facetGuide(context: ChainContext, facetId: string, elementId: string): GuideModel {
  const at = context.project.facets.findIndex((facet) => facet.id === facetId)
  const facet = context.project.facets[at]
  if (facet === undefined) throw new Error(`no facet ${facetId}`)
  const path: Path = ['facets', at]
  const { quantity } = context.readers
  return {
    port: {
      mfdXUm: quantity(facet.mfdX, 'mfd', `MFD x of ${facet.name}`, [...path, 'mfdX']),
      mfdYUm: quantity(facet.mfdY, 'mfd', `MFD y of ${facet.name}`, [...path, 'mfdY']),
      index: indexReader(context, facet.index, `index of ${facet.name}`, [...path, 'index']),
    },
    lines: [
      {
        id: `${elementId}/taper`,
        label: 'On-chip taper',
        kind: 'taper',
        provenance: facet.taperLoss.provenance,
        elementId,
        lossDb: quantity(facet.taperLoss, 'loss', `taper loss of ${facet.name}`, [...path, 'taperLoss']),
      },
    ],
    notes: [],
  }
}
