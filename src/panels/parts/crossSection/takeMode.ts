// A solved mode becomes what the facet or the end of a chip shows: diameters and effective index, computed, with what the grid leaves open.

import type { FacetModeNumbers } from '../../../analysis/crossSection/facetMode'
import { type SweepVariable, setVariable } from '../../../analysis/crossSection/sweepVariable'
import { setCoreValue } from '../../../model/quantity/coreQuantity'
import { coreValue, type Quantity, quantityOf } from '../../../model/quantity/quantity'
import type { CrossSectionEntry } from '../../../model/schema/crossSection'
import type { IndexSource } from '../../../model/schema/indexSource'
import type { FacetEntry } from '../../../model/schema/parts'
import { nmOf, rounded } from '../../../numerics/numberText'

export const DEFINITIONS = [
  'best-fit Gaussian',
  'second moment',
  'Petermann II',
  '1/e² width through the peak',
] as const
export type Definition = (typeof DEFINITIONS)[number]

export function diameterBy(
  { widths }: FacetModeNumbers,
  definition: Definition,
): { readonly x: number; readonly y: number } {
  switch (definition) {
    case 'best-fit Gaussian':
      return widths.gaussian.mfdUm
    case 'second moment':
      return widths.secondMomentUm
    case 'Petermann II':
      return widths.petermann2Um
    case '1/e² width through the peak':
      return widths.cutUm
  }
}

const DIGITS = 4

/** The tolerance stays what it was: it describes fabrication, the solver the nominal shape. */
function computed(before: Quantity, value: number, unit: 'um' | '1', note: string): Quantity {
  const { tolerance } = before
  const entry: Quantity = { ...quantityOf(rounded(value, DIGITS + 1), unit, 'computed'), note }
  return tolerance === undefined || before.unit !== unit ? entry : { ...entry, tolerance }
}

/** What a solved mode says of the part that has it. */
export interface ModeQuantities {
  mfdX: Quantity
  mfdY: Quantity
  index: IndexSource
}

/** Diameters and effective index of the mode, in the place of those before. */
export function solvedQuantities(
  before: ModeQuantities,
  numbers: FacetModeNumbers,
  definition: Definition,
  polarisation: CrossSectionEntry['polarisation'],
): ModeQuantities {
  const { x, y } = diameterBy(numbers, definition)
  const wavelength = `${nmOf(numbers.wavelengthUm)} nm`
  const source = `Solved cross-section, quasi-${polarisation} at ${wavelength}`
  const note = `${source}, ${definition}.`
  const index = before.index.kind === 'value' ? before.index.index : quantityOf(1, '1')
  return {
    mfdX: computed(before.mfdX, x, 'um', note),
    mfdY: computed(before.mfdY, y, 'um', note),
    index: { kind: 'value', index: computed(index, numbers.effectiveIndex, '1', `${source}.`) },
  }
}

/** Writes a swept value into the cross-section, and the width of its first core into the facet's own tip width. */
export function takeSweptValue(draft: FacetEntry, variable: SweepVariable, value: number): void {
  if (draft.crossSection === undefined) return
  setVariable(draft.crossSection, variable, value)
  const [first] = draft.crossSection.cores
  if (variable.kind !== 'width' || first === undefined) return
  const widthUm = coreValue(first.width, 'guideSize')
  if (draft.tipWidth === undefined) draft.tipWidth = quantityOf(widthUm, 'um', first.width.provenance)
  else setCoreValue(draft.tipWidth, 'guideSize', widthUm, DIGITS)
}
