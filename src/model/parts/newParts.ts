// Parts with the values a new one starts from: all estimates, to be replaced.

import { quantityOf } from '../quantity/quantity'
import type {
  FacetEntry,
  FibreEntry,
  LensEntry,
  LensedTipEntry,
  MediumEntry,
  TaperChipEntry,
} from '../schema/parts'

/** A standard fibre at 1550 nm: 10.4 ± 0.5 um (common practice, no source). */
export function newFibre(id: string): FibreEntry {
  return {
    id,
    name: 'New fibre',
    mode: { kind: 'mfd', mfdX: quantityOf(10.4, 'um', 'estimate', 0.5) },
    claddingDiameter: quantityOf(125, 'um', 'estimate', 0.7),
    index: { kind: 'material', material: 'fused silica' },
    polarisationMaintaining: false,
  }
}

export function newFacet(id: string): FacetEntry {
  return {
    id,
    name: 'New facet',
    mfdX: quantityOf(3, 'um', 'estimate', 0.2),
    mfdY: quantityOf(3, 'um', 'estimate', 0.2),
    index: { kind: 'value', index: quantityOf(1.5, '1', 'estimate', 0.02) },
    taperLoss: quantityOf(0.3, 'dB', 'estimate', 0.1),
    guideWidth: quantityOf(0.4, 'um', 'estimate'),
    guideHeight: quantityOf(0.22, 'um', 'estimate'),
    depth: quantityOf(3, 'um', 'estimate'),
  }
}

export function newMedium(id: string): MediumEntry {
  return {
    id,
    name: 'New adhesive',
    state: 'adhesive',
    index: { kind: 'value', index: quantityOf(1.5, '1', 'estimate', 0.01) },
  }
}

/** A facet-sized spot at a working distance, as catalogues list them (common practice, no source). */
export function newLensedTip(id: string): LensedTipEntry {
  return {
    kind: 'lensed tip',
    id,
    name: 'New lensed fibre',
    tip: {
      kind: 'spot',
      spotX: quantityOf(3, 'um', 'estimate', 0.4),
      workingDistance: quantityOf(12, 'um', 'estimate', 2),
    },
  }
}

/** From a standard fibre down to about 3.5 um (common practice, no source). */
export function newTaperChip(id: string): TaperChipEntry {
  return {
    kind: 'taper chip',
    id,
    name: 'New SSC chip',
    inputMfdX: quantityOf(10, 'um', 'estimate', 0.5),
    inputMfdY: quantityOf(10, 'um', 'estimate', 0.5),
    outputMfdX: quantityOf(3.5, 'um', 'estimate', 0.3),
    outputMfdY: quantityOf(3.5, 'um', 'estimate', 0.3),
    transmissionLoss: quantityOf(0.5, 'dB', 'estimate', 0.2),
    inputPitch: quantityOf(127, 'um', 'estimate'),
    outputPitch: quantityOf(127, 'um', 'estimate'),
    index: { kind: 'value', index: quantityOf(1.47, '1', 'estimate', 0.01) },
  }
}

export function newLens(id: string): LensEntry {
  return {
    id,
    name: 'New lens',
    shape: { kind: 'thin', focalLength: quantityOf(500, 'um', 'estimate', 5) },
    glass: { kind: 'material', material: 'fused silica' },
    clearAperture: quantityOf(500, 'um', 'estimate'),
    coating: quantityOf(0.25, '%', 'estimate'),
  }
}
