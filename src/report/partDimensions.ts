// The numbers of a part that an order states, labelled, with their tolerances: what catalogue and order list read.

import type { PartList, PartLists } from '../model/project/references'
import type { Quantity } from '../model/quantity/quantity'
import { fieldWords, toleranceText, valueText } from '../model/quantity/quantityWords'
import type { ConverterEntry, FacetEntry, FibreEntry, LensEntry, MediumEntry } from '../model/schema/parts'

/** Numbers that a part does not state are undefined, and left out when printed. */
export type Dimensions = readonly (readonly [label: string, quantity: Quantity | undefined])[]

function ofFibre({ mode, claddingDiameter }: FibreEntry): Dimensions {
  const known: Dimensions =
    mode.kind === 'mfd'
      ? [
          ['MFD', mode.mfdX],
          ['MFD y', mode.mfdY],
        ]
      : [
          ['core', mode.coreDiameter],
          ['NA', mode.na],
        ]
  return [...known, ['cladding', claddingDiameter]]
}

function ofConverter(converter: ConverterEntry): Dimensions {
  if (converter.kind === 'taper chip') {
    return [
      ['input MFD x', converter.inputMfdX],
      ['input MFD y', converter.inputMfdY],
      ['output MFD x', converter.outputMfdX],
      ['output MFD y', converter.outputMfdY],
    ]
  }
  const { tip } = converter
  if (tip.kind === 'radius') return [['tip radius', tip.radius]]
  return [
    ['spot', tip.spotX],
    ['spot y', tip.spotY],
    ['working distance', tip.workingDistance],
    ['tip radius', tip.radius],
  ]
}

function ofLens({ shape, clearAperture }: LensEntry): Dimensions {
  const { kind: _, ...numbers } = shape
  // Conic and aspheric terms are plain numbers without a tolerance.
  const own = Object.entries(numbers).flatMap(([field, value]) =>
    typeof value === 'object' && !Array.isArray(value) ? [[fieldWords(field), value] as const] : [],
  )
  return [...own, ['clear aperture', clearAperture]]
}

function ofMedium({ index }: MediumEntry): Dimensions {
  return index.kind === 'value' ? [['index', index.index]] : []
}

function ofFacet(facet: FacetEntry): Dimensions {
  return [
    ['MFD x', facet.mfdX],
    ['MFD y', facet.mfdY],
    ['tip width', facet.tipWidth],
    ['routing width', facet.routingWidth],
    ['taper length', facet.taperLength],
  ]
}

const READERS: { readonly [L in PartList]: (part: PartLists[L][number]) => Dimensions } = {
  fibres: ofFibre,
  facets: ofFacet,
  media: ofMedium,
  converters: ofConverter,
  lenses: ofLens,
}

export function partDimensions<L extends PartList>(list: L, part: PartLists[L][number]): Dimensions {
  return READERS[list](part)
}

/** Every number with its tolerance behind it: `MFD 9.2 µm ± 0.4 µm, cladding 125 µm ± 0.7 µm`. */
export function dimensionsText(dimensions: Dimensions): string {
  return dimensions
    .flatMap(([label, quantity]) =>
      quantity === undefined ? [] : `${label} ${valueText(quantity)} ${toleranceText(quantity)}`.trim(),
    )
    .join(', ')
}
