// A long chain for tests of spectra: a standard fibre, two stubs, a taper chip and a facet, joined five times.

import { newGapElement, newSpliceElement, newStubElement } from '../../../src/model/designs/newElements'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { Candidate } from '../../../src/model/schema/candidate'
import type { Coating } from '../../../src/model/schema/coating'
import type { Project } from '../../../src/model/schema/project'
import { familiesProject } from './families'

/** Two films, about a quarter wave each. */
const twoFilms: Coating = {
  kind: 'films',
  films: [
    { index: { kind: 'material', material: 'silicon nitride' }, thickness: quantityOf(207, 'nm') },
    { index: { kind: 'material', material: 'fused silica' }, thickness: quantityOf(286, 'nm') },
  ],
}

export function fiveJointProject(): Project {
  const base = familiesProject()
  const chain: Candidate['chain'] = [
    { kind: 'fibre', id: 'fibre', fibreId: 'fibre-standard' },
    newSpliceElement('splice-1'),
    newStubElement('stub-1', 'fibre-high-na'),
    { ...newSpliceElement('splice-2'), basis: 'abrupt' },
    newStubElement('stub-2', 'fibre-standard'),
    { ...newGapElement('gap-1', 'air'), nearCoating: twoFilms },
    { kind: 'taper chip', id: 'taper', converterId: 'taper' },
    { ...newGapElement('gap-2', 'air'), farCoating: twoFilms },
    newStubElement('stub-3', 'fibre-high-na'),
    { ...newGapElement('gap-3', 'air'), nearFaceAngle: quantityOf(4, 'deg') },
    { kind: 'facet', id: 'facet', facetId: 'facet-nitride' },
  ]
  return { ...base, candidates: [{ id: 'five-joints', name: 'Five joints', chain, userLines: [] }] }
}
