// Projects with known answers: two equal round modes in air, nothing between them but what a test adds.

import { demoProject } from '../../../src/model/index'
import { quantityOf, type Tolerance } from '../../../src/model/quantity/quantity'
import type { GapElement } from '../../../src/model/schema/candidate'
import type { Project } from '../../../src/model/schema/project'

export const normal = (sigma: number): Tolerance => ({
  plusMinus: sigma,
  distribution: 'normal',
  coverage: 1,
})

/** Equal modes of `mfdUm` at 1550 nm, index-matched in air, one channel, no gap; the gap as `change` says. */
export function matchedProject(mfdUm: number, limitDb: number, change: Partial<GapElement> = {}): Project {
  const demo = demoProject()
  const air = { kind: 'material', material: 'air' } as const
  const aligned = { ...change }
  const gap: GapElement = {
    kind: 'gap',
    id: 'gap',
    mediumId: 'air',
    gap: quantityOf(0, 'um'),
    offsetX: quantityOf(0, 'um'),
    offsetY: quantityOf(0, 'um'),
    tiltX: quantityOf(0, 'deg'),
    tiltY: quantityOf(0, 'deg'),
    roll: quantityOf(0, 'deg'),
    nearFaceAngle: quantityOf(0, 'deg'),
    farFaceAngle: quantityOf(0, 'deg'),
    facePlane: 'x',
    pointing: 'refracted',
    ...aligned,
  }
  return {
    ...demo,
    requirements: {
      ...demo.requirements,
      wavelength: quantityOf(1550, 'nm'),
      channels: 1,
      losses: [
        { id: 'loss', limit: quantityOf(limitDb, 'dB'), basis: 'RSS', percentile: 95, channels: 'one' },
      ],
    },
    fibres: [
      {
        id: 'fibre',
        name: 'Fibre',
        mode: { kind: 'mfd', mfdX: quantityOf(mfdUm, 'um') },
        claddingDiameter: quantityOf(125, 'um'),
        index: air,
        polarisationMaintaining: false,
      },
    ],
    facets: [
      {
        id: 'facet',
        name: 'Facet',
        mfdX: quantityOf(mfdUm, 'um'),
        mfdY: quantityOf(mfdUm, 'um'),
        index: air,
        taperLoss: quantityOf(0, 'dB'),
        guideWidth: quantityOf(0.4, 'um'),
        guideHeight: quantityOf(0.2, 'um'),
        depth: quantityOf(3, 'um'),
      },
    ],
    candidates: [
      {
        id: 'matched',
        name: 'Matched',
        chain: [
          { kind: 'fibre', id: 'fibre', fibreId: 'fibre' },
          gap,
          { kind: 'facet', id: 'facet', facetId: 'facet' },
        ],
        userLines: [],
      },
    ],
  }
}

/** Both offsets normal with the same standard deviation. */
export function isotropic(mfdUm: number, sigmaUm: number, limitDb: number): Project {
  return matchedProject(mfdUm, limitDb, {
    offsetX: quantityOf(0, 'um', 'estimate', normal(sigmaUm)),
    offsetY: quantityOf(0, 'um', 'estimate', normal(sigmaUm)),
  })
}
