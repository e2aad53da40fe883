// The chip's edge facet, with the on-chip taper behind it. TM has its own mode where the part states one.

import type { Path } from '../../../model/issue'
import { followingRatio } from '../../../model/parts/oneWidth'
import { coreValue } from '../../../model/quantity/quantity'
import type { FacetEntry } from '../../../model/schema/parts'
import { facetShape } from '../../field/portShape'
import type { ChainContext, GuideModel, LineModel, PortReaders } from '../vector/elementModels'
import { indexReader } from '../vector/indexReader'
import { mfdFactors } from '../vector/mfdFactors'
import { flatPort } from '../vector/ports'
import { type Reader, readerOf } from '../vector/valueReaders'
import { shapeNotes } from './shapeNotes'

/** The reader for TE, and for the vector that says TM a constant of its own. */
function orTm(context: ChainContext, te: Reader, tm: number | undefined): Reader {
  if (tm === undefined) return te
  return readerOf([context.polarisation, te], (v) => (context.polarisation(v) === 2 ? tm : te(v)))
}

/** MFD y of a facet whose diameters come from one width: it deviates as MFD x does. */
function following(facet: FacetEntry, x: Reader): Reader {
  const [nominalX, nominalY] = [coreValue(facet.mfdX, 'mfd'), coreValue(facet.mfdY, 'mfd')]
  const ratio = followingRatio(facet)
  return readerOf([x], (v) => nominalY * (1 + ratio * (x(v) / nominalX - 1)))
}

function facetPort(context: ChainContext, facet: FacetEntry, path: Path): PortReaders {
  const { quantity } = context.readers
  const { tm } = facet
  const shape = mfdFactors(context, facet.overWavelength)
  const stated = (field: 'mfdX' | 'mfdY', axis: string) =>
    quantity(facet[field], 'mfd', `MFD ${axis} of ${facet.name}`, [...path, field])
  const x = stated('mfdX', facet.oneWidth === true ? 'x and y' : 'x')
  const y = facet.oneWidth === true ? following(facet, x) : stated('mfdY', 'y')
  const mfd = (field: 'mfdX' | 'mfdY', axis: 'x' | 'y') => {
    const te = axis === 'x' ? x : y
    const one = orTm(context, te, tm && coreValue(tm[field], 'mfd'))
    return shape === null ? one : readerOf([one, shape[axis]], (v) => one(v) * shape[axis](v))
  }
  const index = indexReader(context, facet.index, facet.name, [...path, 'index'])
  return flatPort(
    mfd('mfdX', 'x'),
    mfd('mfdY', 'y'),
    orTm(context, index, tm?.index && coreValue(tm.index, 'index')),
  )
}

export function facetGuide(context: ChainContext, facetId: string, elementId: string): GuideModel {
  const at = context.project.facets.findIndex((facet) => facet.id === facetId)
  const facet = context.project.facets[at]
  if (facet === undefined) throw new Error(`no facet ${facetId}`)
  const path: Path = ['facets', at]
  const { quantity } = context.readers
  const shape = facetShape(facet, context.wavelengthUm)
  const port = { ...facetPort(context, facet, path), ...(shape && { shape }) }
  const line = (
    field: 'taperLoss' | 'substrateLeakage',
    tag: string,
    label: string,
    loss: string,
    tmLossDb?: number,
  ): readonly LineModel[] => {
    const entered = facet[field]
    if (entered === undefined) return []
    const te = quantity(entered, 'loss', `${loss} of ${facet.name}`, [...path, field])
    return [
      {
        id: `${elementId}/${tag}`,
        label,
        kind: 'taper',
        provenance: entered.provenance,
        elementId,
        lossDb: orTm(context, te, tmLossDb),
      },
    ]
  }
  const tmTaper = facet.tm?.taperLoss
  return {
    entry: port,
    exit: port,
    lines: [
      ...line('taperLoss', 'taper', 'On-chip taper', 'taper loss', tmTaper && coreValue(tmTaper, 'loss')),
      ...line('substrateLeakage', 'substrate', 'Substrate leakage', 'substrate leakage'),
    ],
    notes: shapeNotes(facet.name, facet, shape !== null, elementId),
  }
}
