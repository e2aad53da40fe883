// The chip's edge facet, with the on-chip taper behind it.

import type { Path } from '../../model/issue'
import type { FacetEntry } from '../../model/parts'
import type { ValidityNote } from '../evaluation'
import { facetShape } from '../field/portShape'
import { indexReader } from './indexReader'
import type { ChainContext, GuideModel, LineModel } from './models'
import { flatPort } from './ports'

export function facetGuide(context: ChainContext, facetId: string, elementId: string): GuideModel {
  const at = context.project.facets.findIndex((facet) => facet.id === facetId)
  const facet = context.project.facets[at]
  if (facet === undefined) throw new Error(`no facet ${facetId}`)
  const path: Path = ['facets', at]
  const { quantity } = context.readers
  const flat = flatPort(
    quantity(facet.mfdX, 'mfd', `MFD x of ${facet.name}`, [...path, 'mfdX']),
    quantity(facet.mfdY, 'mfd', `MFD y of ${facet.name}`, [...path, 'mfdY']),
    indexReader(context, facet.index, `index of ${facet.name}`, [...path, 'index']),
  )
  const shape = facetShape(facet, context.wavelengthUm)
  const port = { ...flat, ...(shape && { shape }) }
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
    notes: shapeNotes(facet, shape !== null, elementId),
  }
}

/** What stands in the way of the mode that the facet is said to have. */
function shapeNotes(facet: FacetEntry, isKnown: boolean, elementId: string): readonly ValidityNote[] {
  if (facet.modeShape?.kind !== 'cross-section' || isKnown) return []
  const why =
    facet.crossSection === undefined
      ? 'it has no cross-section yet'
      : 'its cross-section is not solved yet; open "Mode fields" to have it solved'
  return [
    {
      elementId,
      message: `${facet.name}: a Gaussian stands for the mode of the cross-section, because ${why}.`,
    },
  ]
}
