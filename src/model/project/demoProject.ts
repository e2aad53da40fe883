// The demo: a methane leak-survey receiver. Every number here is invented for the demo.

import { newGapElement, newSpliceElement, newStubElement } from '../designs/newElements'
import { quantityOf } from '../quantity/quantity'
import type { GapElement } from '../schema/candidate'
import type { CrossSectionEntry } from '../schema/crossSection'
import type { FibreArray } from '../schema/fibreArray'
import type { Mount } from '../schema/mount'
import type { FacetEntry, FibreEntry, MediumEntry } from '../schema/parts'
import type { Project } from '../schema/project'
import { demoChip, demoFamilies, demoLenses, demoLowAdhesive, demoTip, demoWideFacet } from './demoFamilies'
import { demoPurchase } from './demoPurchase'
import { emptyProject } from './emptyProject'

/** The remark on every number of the demo. */
const INVENTED = 'Invented for the demo.'

const standardFibre: FibreEntry = {
  id: 'fibre-standard',
  name: 'Standard single-mode fibre',
  remark: 'Defined by its core only; the mode at 1653.7 nm is computed from it.',
  mode: {
    kind: 'core',
    coreDiameter: quantityOf(8.2, 'um', 'estimate', 0.2),
    na: quantityOf(0.125, '1', 'estimate', 0.003),
  },
  claddingDiameter: quantityOf(125, 'um', 'estimate', 0.7),
  index: { kind: 'material', material: 'fused silica' },
  polarisationMaintaining: false,
}

const highNaFibre: FibreEntry = {
  id: 'fibre-high-na',
  name: 'High-NA bridge fibre',
  mode: {
    kind: 'core',
    coreDiameter: quantityOf(2.2, 'um', 'estimate', 0.06),
    na: quantityOf(0.41, '1', 'estimate', 0.01),
  },
  claddingDiameter: quantityOf(125, 'um', 'estimate', 1),
  index: { kind: 'value', index: quantityOf(1.462, '1', 'estimate', 0.005) },
  polarisationMaintaining: false,
}

const facet: FacetEntry = {
  id: 'facet-nitride',
  name: 'Silicon-nitride facet',
  mfdX: quantityOf(3.4, 'um', 'estimate', 0.2),
  mfdY: quantityOf(2.8, 'um', 'estimate', 0.2),
  index: { kind: 'value', index: quantityOf(1.457, '1', 'estimate', 0.01) },
  taperLoss: quantityOf(0.25, 'dB', 'estimate', 0.1),
  guideWidth: quantityOf(0.48, 'um', 'estimate'),
  guideHeight: quantityOf(0.2, 'um', 'estimate'),
  depth: quantityOf(3.3, 'um', 'estimate'),
  crossSection: twinCores(),
}

/**
 * Two narrow cores side by side, whose common mode is 3.43 x 2.77 um (solver, best Gaussian): the stated diameters within
 * their tolerance.
 */
function twinCores(): CrossSectionEntry {
  const oxide = (id: string, name: string, um: number) => ({
    id,
    name,
    thickness: quantityOf(um, 'um'),
    index: { kind: 'material', material: 'fused silica' } as const,
  })
  const core = (id: string, name: string, x: number) => ({
    id,
    name,
    width: quantityOf(0.48, 'um'),
    height: quantityOf(0.2, 'um'),
    sidewall: quantityOf(90, 'deg'),
    x: quantityOf(x, 'um'),
    bottom: quantityOf(4, 'um'),
    index: { kind: 'material', material: 'silicon nitride' } as const,
  })
  return {
    polarisation: 'TE',
    substrate: { index: { kind: 'material', material: 'silicon' } },
    layers: [oxide('layer-1', 'Lower oxide', 4), oxide('layer-2', 'Upper oxide', 3.5)],
    cover: { index: { kind: 'material', material: 'air' } },
    cores: [core('core-1', 'Left core', -0.5), core('core-2', 'Right core', 0.5)],
  }
}

const gel: MediumEntry = {
  id: 'gel',
  name: 'Index gel',
  state: 'gel',
  index: { kind: 'value', index: quantityOf(1.45, '1', 'estimate', 0.005) },
  thermoOptic: quantityOf(-3.5e-4, '1/K', 'estimate'),
}

const adhesive: MediumEntry = {
  id: 'adhesive',
  name: 'UV-cured adhesive',
  state: 'adhesive',
  index: { kind: 'value', index: quantityOf(1.475, '1', 'estimate', 0.005) },
  thermoOptic: quantityOf(-2e-4, '1/K', 'estimate'),
}

const normal = (plusMinus: number) => ({ plusMinus, distribution: 'normal' }) as const

/** Aligned across the chip on power, then bonded: what the search leaves, and how far curing pulls the block. */
function bondedGap(): GapElement {
  return {
    ...newGapElement('gap', adhesive.id),
    offsetX: quantityOf(0, 'um', 'estimate', normal(0.2)),
    offsetY: quantityOf(0, 'um', 'estimate', normal(0.2)),
    roll: quantityOf(0, 'deg', 'estimate', 0.03),
    aligned: ['offsetX', 'offsetY', 'roll'],
    bondShift: {
      x: quantityOf(0, 'um', 'estimate', normal(0.6)),
      y: quantityOf(-0.2, 'um', 'estimate', normal(0.6)),
      z: quantityOf(0, 'um', 'estimate', normal(0.5)),
    },
  }
}

/** A glass block next to the chip on its ceramic carrier, of equal height. */
const mount: Mount = {
  assemblyTemperature: quantityOf(23, 'degC', 'estimate'),
  fibreSide: [
    {
      expansion: { kind: 'material', material: 'borosilicate glass' },
      axis: 'y',
      length: quantityOf(3, 'mm'),
    },
  ],
  chipSide: [
    { expansion: { kind: 'material', material: 'alumina' }, axis: 'y', length: quantityOf(2.3, 'mm') },
    { expansion: { kind: 'material', material: 'silicon' }, axis: 'y', length: quantityOf(0.7, 'mm') },
  ],
}

const fibreBlock: FibreArray = {
  pitch: quantityOf(127, 'um', 'estimate', { ...normal(0.02), share: 'part' }),
  coreX: quantityOf(0, 'um', 'estimate', { ...normal(0.5), share: 'channel' }),
  coreY: quantityOf(0, 'um', 'estimate', { ...normal(0.5), share: 'channel' }),
  bow: quantityOf(0, 'um', 'estimate', normal(0.2)),
  aim: 'worst channel',
}

/** A copy in which every number is marked as an estimate. */
function invented(project: Project): Project {
  const marked = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(marked)
    if (typeof value !== 'object' || value === null) return value
    const copy = Object.fromEntries(Object.entries(value).map(([key, each]) => [key, marked(each)]))
    return 'provenance' in copy ? { ...copy, provenance: 'estimate', note: INVENTED } : copy
  }
  return marked(project) as Project
}

/** The design of the demo that meets every requirement, on which it opens. */
export const DEMO_DESIGN_ID = 'ssc-chip'

/** Twelve channels at 1653.7 nm, and six families of designs from the fibre to the facet. A fresh copy. */
export function demoProject(): Project {
  const base = emptyProject()
  return invented({
    ...base,
    name: 'Methane leak-survey receiver',
    remark: 'Receiver chip of a methane leak-survey instrument. Demo: all part data are invented.',
    seed: 16537,
    requirements: {
      ...base.requirements,
      wavelength: quantityOf(1653.7, 'nm', 'estimate'),
      wavelengthMin: quantityOf(1650.7, 'nm', 'estimate'),
      wavelengthMax: quantityOf(1656.7, 'nm', 'estimate'),
      channels: 12,
      pitch: quantityOf(127, 'um', 'estimate', 0.01),
      losses: [
        {
          id: 'loss',
          limit: quantityOf(2, 'dB', 'estimate'),
          basis: 'RSS',
          percentile: 95,
          channels: 'one',
        },
      ],
      returnLossFibre: quantityOf(40, 'dB', 'estimate'),
      temperatureMin: quantityOf(-20, 'degC', 'estimate'),
      temperatureMax: quantityOf(60, 'degC', 'estimate'),
      station: {
        lateral: quantityOf(0.5, 'um', 'estimate'),
        axial: quantityOf(1, 'um', 'estimate'),
        angular: quantityOf(0.3, 'deg', 'estimate'),
      },
    },
    purchase: demoPurchase,
    fibres: [standardFibre, highNaFibre],
    facets: [facet, demoWideFacet],
    media: [...base.media, gel, adhesive, demoLowAdhesive],
    converters: [demoTip, demoChip],
    lenses: [...demoLenses],
    candidates: [
      {
        id: 'cleaved-dry',
        name: 'Cleaved fibre, dry',
        chain: [
          { kind: 'fibre', id: 'fibre', fibreId: standardFibre.id },
          newGapElement('gap', 'air'),
          { kind: 'facet', id: 'facet', facetId: facet.id },
        ],
        userLines: [],
      },
      {
        id: 'high-na-bonded',
        name: 'High-NA stub, bonded',
        chain: [
          { kind: 'fibre', id: 'fibre', fibreId: standardFibre.id },
          newSpliceElement('splice'),
          newStubElement('stub', highNaFibre.id),
          bondedGap(),
          { kind: 'facet', id: 'facet', facetId: facet.id },
        ],
        userLines: [],
        mount,
        array: fibreBlock,
      },
      ...demoFamilies(standardFibre.id, facet.id, fibreBlock),
    ],
  })
}
