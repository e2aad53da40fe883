// The further families of the demo, with their parts. Every number here is invented for the demo.

import {
  newDrift,
  newGapElement,
  newIsolator,
  newLensPose,
  newRelayElement,
  newTaperChipElement,
} from '../designs/newElements'
import { quantityOf } from '../quantity/quantity'
import type { Candidate, GapElement, LensPose } from '../schema/candidate'
import type { FibreArray } from '../schema/fibreArray'
import type { Mount } from '../schema/mount'
import type { FacetEntry, LensEntry, LensedTipEntry, MediumEntry, TaperChipEntry } from '../schema/parts'

const normal = (plusMinus: number) => ({ plusMinus, distribution: 'normal' }) as const

export const demoTip: LensedTipEntry = {
  kind: 'lensed tip',
  id: 'tip-3.1',
  name: 'Lensed fibre, 3.1 µm spot',
  tip: {
    kind: 'spot',
    spotX: quantityOf(3.1, 'um', 'estimate', 0.3),
    workingDistance: quantityOf(12, 'um', 'estimate', 2),
  },
}

export const demoChip: TaperChipEntry = {
  kind: 'taper chip',
  id: 'ssc-3.3',
  name: 'SSC chip, 10 to 3.3 µm',
  inputMfdX: quantityOf(10.4, 'um', 'estimate', 0.4),
  inputMfdY: quantityOf(10.4, 'um', 'estimate', 0.4),
  outputMfdX: quantityOf(3.4, 'um', 'estimate', 0.2),
  outputMfdY: quantityOf(3, 'um', 'estimate', 0.2),
  transmissionLoss: quantityOf(0.35, 'dB', 'estimate', 0.1),
  inputPitch: quantityOf(127, 'um', 'estimate', 0.02),
  outputPitch: quantityOf(127, 'um', 'estimate', 0.02),
  holder: 'on a separate glass carrier next to the chip',
  index: { kind: 'value', index: quantityOf(1.47, '1', 'estimate', 0.005) },
}

const lensArray = (id: string, radiusUm: number, thicknessUm: number): LensEntry => ({
  id,
  name: `Silicon lens array, ${radiusUm} µm radius`,
  shape: {
    kind: 'plano-convex',
    radius: quantityOf(radiusUm, 'um', 'estimate', radiusUm / 100),
    thickness: quantityOf(thicknessUm, 'um', 'estimate', 5),
  },
  glass: { kind: 'material', material: 'silicon' },
  clearAperture: quantityOf(116, 'um', 'estimate'),
  coating: quantityOf(0.25, '%', 'estimate'),
  pitch: quantityOf(127, 'um', 'estimate', 0.02),
})
export const demoLenses: readonly LensEntry[] = [
  lensArray('lenses-700', 700, 500),
  lensArray('lenses-250', 250, 200),
]

export const demoLowAdhesive: MediumEntry = {
  id: 'adhesive-low',
  name: 'UV-cured adhesive, index of glass',
  state: 'adhesive',
  index: { kind: 'value', index: quantityOf(1.455, '1', 'estimate', 0.005) },
  thermoOptic: quantityOf(-2e-4, '1/K', 'estimate'),
}

/** The chip of another mask: a narrower tip, whose mode is wider and leaks a little. */
export const demoWideFacet: FacetEntry = {
  id: 'facet-nitride-wide',
  name: 'Silicon-nitride facet, widened mode',
  mfdX: quantityOf(5.6, 'um', 'estimate', 0.4),
  mfdY: quantityOf(5.2, 'um', 'estimate', 0.4),
  index: { kind: 'value', index: quantityOf(1.47, '1', 'estimate', 0.01) },
  taperLoss: quantityOf(0.4, 'dB', 'estimate', 0.1),
  substrateLeakage: quantityOf(0.2, 'dB', 'estimate', 0.1),
  tipWidth: quantityOf(0.22, 'um', 'estimate'),
  routingWidth: quantityOf(1, 'um', 'estimate'),
  taperLength: quantityOf(500, 'um', 'estimate'),
  guideWidth: quantityOf(0.22, 'um', 'estimate'),
  guideHeight: quantityOf(0.2, 'um', 'estimate'),
  depth: quantityOf(5, 'um', 'estimate'),
}

/** What the search on power leaves, and how far curing moves the row. */
function bonded(id: string, shiftUm: number, mediumId: string): GapElement {
  const shift = () => quantityOf(0, 'um', 'estimate', normal(shiftUm))
  return {
    ...newGapElement(id, mediumId),
    offsetX: quantityOf(0, 'um', 'estimate', normal(0.2)),
    offsetY: quantityOf(0, 'um', 'estimate', normal(0.2)),
    roll: quantityOf(0, 'deg', 'estimate', 0.03),
    aligned: ['offsetX', 'offsetY', 'roll'],
    bondShift: { x: shift(), y: shift(), z: shift() },
  }
}

/** A lens array held to a tolerance across the light. */
const lensPose = (acrossUm: number): LensPose => ({
  ...newLensPose(),
  offsetX: quantityOf(0, 'um', 'estimate', normal(acrossUm)),
  offsetY: quantityOf(0, 'um', 'estimate', normal(acrossUm)),
})

/** A carrier whose height expands nearly as the chip's own stack does. */
const matchedMount: Mount = {
  assemblyTemperature: quantityOf(23, 'degC', 'estimate'),
  fibreSide: [
    { expansion: { kind: 'material', material: 'alumina' }, axis: 'y', length: quantityOf(2, 'mm') },
    {
      expansion: { kind: 'material', material: 'borosilicate glass' },
      axis: 'y',
      length: quantityOf(1, 'mm'),
    },
  ],
  chipSide: [
    { expansion: { kind: 'material', material: 'alumina' }, axis: 'y', length: quantityOf(2.3, 'mm') },
    { expansion: { kind: 'material', material: 'silicon' }, axis: 'y', length: quantityOf(0.7, 'mm') },
  ],
}

/** Lensed fibre, relay, SSC chip and on-chip taper, in addition to the two designs that the demo began with. */
export function demoFamilies(fibreId: string, facetId: string, array: FibreArray): readonly Candidate[] {
  const fibre = { kind: 'fibre', id: 'fibre', fibreId } as const
  const facet = { kind: 'facet', id: 'facet', facetId } as const
  return [
    {
      id: 'lensed-fibre',
      name: 'Lensed fibre',
      chain: [
        { ...fibre, tipId: demoTip.id },
        {
          ...newGapElement('gap', 'air'),
          gap: quantityOf(12, 'um', 'estimate', 1),
          offsetX: quantityOf(0, 'um', 'estimate', normal(0.2)),
          offsetY: quantityOf(0, 'um', 'estimate', normal(0.2)),
          aligned: ['offsetX', 'offsetY'],
          pinned: [],
          bondShift: newDrift(),
        },
        facet,
      ],
      userLines: [],
    },
    {
      id: 'relay',
      name: 'Two-lens relay with isolator',
      chain: [
        fibre,
        {
          ...newRelayElement('relay', 'air', 'lenses-700', 'lenses-250'),
          frontGap: quantityOf(143.5, 'um', 'estimate', 2),
          stretch: quantityOf(2.7, 'mm', 'estimate', 0.05),
          backGap: quantityOf(46.73, 'um', 'estimate', 0.5),
          roll: quantityOf(0, 'deg', 'estimate', 0.03),
          lens1: lensPose(0.5),
          lens2: lensPose(0.2),
          offsetX: quantityOf(0, 'um', 'estimate', normal(0.2)),
          offsetY: quantityOf(0, 'um', 'estimate', normal(0.2)),
          aligned: ['offsetX', 'offsetY'],
          device: { ...newIsolator(), clearAperture: quantityOf(1.8, 'mm', 'estimate') },
        },
        facet,
      ],
      userLines: [],
      mount: matchedMount,
    },
    {
      id: 'ssc-chip',
      name: 'SSC chip',
      chain: [
        fibre,
        bonded('gap-1', 0.3, demoLowAdhesive.id),
        newTaperChipElement('ssc-chip', demoChip.id),
        bonded('gap-2', 0.3, 'adhesive'),
        facet,
      ],
      userLines: [],
      mount: matchedMount,
      array,
    },
    {
      id: 'on-chip-taper',
      name: 'On-chip taper, bonded',
      chain: [fibre, bonded('gap', 0.6, demoLowAdhesive.id), { ...facet, facetId: demoWideFacet.id }],
      userLines: [],
      mount: matchedMount,
      array,
    },
  ]
}
