// Parts and candidates with the values a new one starts from: all estimates, to be typed over.

import type { Candidate } from './candidate'
import { newGapElement, newSpliceElement, newStubElement } from './newElements'
import type { FacetEntry, FibreEntry, MediumEntry } from './parts'
import { quantityOf } from './quantity'

/** The first id of the form `stem-1`, `stem-2` … that no entry has. */
export function freeId(stem: string, entries: readonly { readonly id: string }[]): string {
  const taken = new Set(entries.map((entry) => entry.id))
  let number = 1
  while (taken.has(`${stem}-${number}`)) number += 1
  return `${stem}-${number}`
}

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

/** A fibre straight at the facet. */
export function buttCandidate(id: string, fibreId: string, facetId: string, mediumId: string): Candidate {
  return {
    id,
    name: 'Fibre at the facet',
    chain: [
      { kind: 'fibre', id: 'fibre', fibreId },
      newGapElement('gap', mediumId),
      { kind: 'facet', id: 'facet', facetId },
    ],
    userLines: [],
  }
}

/** The same with a stub of another fibre spliced on. */
export function stubCandidate(
  id: string,
  fibreId: string,
  stubFibreId: string,
  facetId: string,
  mediumId: string,
): Candidate {
  const [fibre, ...rest] = buttCandidate(id, fibreId, facetId, mediumId).chain
  return {
    id,
    name: 'Spliced stub at the facet',
    chain: [
      ...(fibre ? [fibre] : []),
      newSpliceElement('splice'),
      newStubElement('stub', stubFibreId),
      ...rest,
    ],
    userLines: [],
  }
}
