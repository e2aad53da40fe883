// The chip's edge facet, with the on-chip taper behind it.

import type { Path } from '../../model/issue'
import { indexReader } from './indexReader'
import type { ChainContext, GuideModel, LineModel } from './models'
import { flatPort } from './ports'

export function facetGuide(context: ChainContext, facetId: string, elementId: string): GuideModel {
  const at = context.project.facets.findIndex((facet) => facet.id === facetId)
  const facet = context.project.facets[at]
  if (facet === undefined) throw new Error(`no facet ${facetId}`)
  const path: Path = ['facets', at]
  const { quantity } = context.readers
  const port = flatPort(
    quantity(facet.mfdX, 'mfd', `MFD x of ${facet.name}`, [...path, 'mfdX']),
    quantity(facet.mfdY, 'mfd', `MFD y of ${facet.name}`, [...path, 'mfdY']),
    indexReader(context, facet.index, `index of ${facet.name}`, [...path, 'index']),
  )
  const line = (
    field: 'taperLoss' | 'substrateLeakage',
    tag: string,
    label: string,
  ): readonly LineModel[] => {
    const loss = facet[field]
    if (loss === undefined) return []
    return [
      {
        id: `${elementId}/${tag}`,
        label,
        kind: 'taper',
        provenance: loss.provenance,
        elementId,
        lossDb: quantity(loss, 'loss', `${label.toLowerCase()} of ${facet.name}`, [...path, field]),
      },
    ]
  }
  return {
    entry: port,
    exit: port,
    lines: [
      ...line('taperLoss', 'taper', 'On-chip taper'),
      ...line('substrateLeakage', 'substrate', 'Leakage into the substrate'),
    ],
    notes: [],
  }
}
