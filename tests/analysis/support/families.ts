// One project with every way to reach one facet, for tests. All numbers are invented.

import {
  newGapElement,
  newIsolator,
  newRelayElement,
  newSpliceElement,
  newStubElement,
} from '../../../src/model/designs/newElements'
import { demoProject } from '../../../src/model/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { Candidate, RelayElement } from '../../../src/model/schema/candidate'
import type { ConverterEntry, LensEntry } from '../../../src/model/schema/parts'
import type { Project } from '../../../src/model/schema/project'

export const WAVELENGTH_UM = 1.6537

const groundTip: ConverterEntry = {
  kind: 'lensed tip',
  id: 'tip-ground',
  name: 'Ground tip',
  tip: { kind: 'radius', radius: quantityOf(14, 'um', 'data sheet', 0.5) },
}

const tipBySpot: ConverterEntry = {
  kind: 'lensed tip',
  id: 'tip-spot',
  name: 'Tip by its spot',
  tip: {
    kind: 'spot',
    spotX: quantityOf(3.1, 'um', 'data sheet', 0.3),
    workingDistance: quantityOf(12, 'um', 'data sheet', 2),
  },
}

const taperChip: ConverterEntry = {
  kind: 'taper chip',
  id: 'taper',
  name: 'Glass taper chip',
  inputMfdX: quantityOf(10, 'um', 'data sheet', 0.4),
  inputMfdY: quantityOf(10, 'um', 'data sheet', 0.4),
  outputMfdX: quantityOf(3.4, 'um', 'data sheet', 0.2),
  outputMfdY: quantityOf(3.2, 'um', 'data sheet', 0.2),
  transmissionLoss: quantityOf(0.4, 'dB', 'data sheet', 0.1),
  inputPitch: quantityOf(127, 'um', 'data sheet'),
  outputPitch: quantityOf(127, 'um', 'data sheet'),
  index: { kind: 'value', index: quantityOf(1.47, '1', 'estimate', 0.005) },
}

export const thinLensEntry = (id: string, focalLengthUm: number): LensEntry => ({
  id,
  name: `Lens of ${focalLengthUm} um`,
  shape: { kind: 'thin', focalLength: quantityOf(focalLengthUm, 'um', 'data sheet', 1) },
  glass: { kind: 'material', material: 'fused silica' },
  clearAperture: quantityOf(600, 'um', 'data sheet'),
  coating: quantityOf(0.25, '%', 'data sheet'),
})

export const planoConvexEntry = (id: string, radiusUm: number, thicknessUm: number): LensEntry => ({
  ...thinLensEntry(id, 0),
  name: `Plano-convex of ${radiusUm} um`,
  shape: {
    kind: 'plano-convex',
    radius: quantityOf(radiusUm, 'um', 'data sheet', 2),
    thickness: quantityOf(thicknessUm, 'um', 'data sheet', 5),
  },
})

const fibre = { kind: 'fibre', id: 'fibre', fibreId: 'fibre-standard' } as const
const facet = { kind: 'facet', id: 'facet', facetId: 'facet-nitride' } as const
const dry = (id: string, gapUm: number) => ({
  ...newGapElement(id, 'air'),
  gap: quantityOf(gapUm, 'um', 'estimate', 1),
})

export const relayElement = (change: Partial<RelayElement> = {}): RelayElement => ({
  ...newRelayElement('relay', 'air', 'lens-1', 'lens-2'),
  device: newIsolator(),
  ...change,
})

const candidate = (id: string, chain: Candidate['chain']): Candidate => ({
  id,
  name: id,
  chain,
  userLines: [],
})

/** Butt and stub of the demo's parts, then: ground tip, tip by spot, taper chip, taper chip behind a tip, relay. */
export function familiesProject(relay: RelayElement = relayElement()): Project {
  const base = structuredClone(demoProject()) // the parts of the demo are shared constants
  return {
    ...base,
    converters: structuredClone([groundTip, tipBySpot, taperChip]),
    lenses: [
      thinLensEntry('lens-1', 1000),
      thinLensEntry('lens-2', 300),
      planoConvexEntry('plano-1', 450, 300),
      planoConvexEntry('plano-2', 140, 100),
    ],
    candidates: [
      candidate('cleaved-dry', [fibre, newGapElement('gap', 'air'), facet]),
      candidate('high-na-bonded', [
        fibre,
        newSpliceElement('splice'),
        newStubElement('stub', 'fibre-high-na'),
        newGapElement('gap', 'adhesive'),
        facet,
      ]),
      candidate('ground-tip', [{ ...fibre, tipId: 'tip-ground' }, dry('gap', 17), facet]),
      candidate('spot-tip', [{ ...fibre, tipId: 'tip-spot' }, dry('gap', 12), facet]),
      candidate('taper', [
        fibre,
        newGapElement('gap-1', 'adhesive'),
        { kind: 'taper chip', id: 'taper', converterId: 'taper' },
        newGapElement('gap-2', 'adhesive'),
        facet,
      ]),
      candidate('tip-taper', [
        fibre,
        newGapElement('gap-1', 'adhesive'),
        { kind: 'taper chip', id: 'taper', converterId: 'taper' },
        newGapElement('gap-2', 'adhesive'),
        facet,
      ]),
      candidate('relay', [fibre, relay, facet]),
    ],
  }
}
