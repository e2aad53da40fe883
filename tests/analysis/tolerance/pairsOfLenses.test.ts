// The pair of thin lenses for one relay of several joints: the ratio of focal lengths is that of the modes it joins.

import { describe, expect, test } from 'vitest'
import { fittingRelay } from '../../../src/analysis/tolerance/relayLenses'
import { newGapElement } from '../../../src/model/designs/newElements'
import type { Candidate } from '../../../src/model/schema/candidate'
import { familiesProject, relayElement, thinLensEntry } from '../support/families'
import { um } from '../support/realRelays'

const project = familiesProject()
project.lenses = [1000, 700, 600, 250].map((focalUm) => thinLensEntry(`f-${focalUm}`, focalUm))
for (const fibre of project.fibres) fibre.mode = { kind: 'mfd', mfdX: um(10) }
for (const facet of project.facets) Object.assign(facet, { mfdX: um(4), mfdY: um(4) })
const chip = project.converters.find(({ kind }) => kind === 'taper chip')
if (chip?.kind !== 'taper chip') throw new Error('a chip')
Object.assign(chip, { inputMfdX: um(10), inputMfdY: um(10), outputMfdX: um(1.667), outputMfdY: um(1.667) })

const relay = (id: string) => ({
  ...relayElement({ lens1Id: 'f-1000', lens2Id: 'f-1000', device: undefined }),
  id,
})
const fibre = { kind: 'fibre', id: 'fibre', fibreId: 'fibre-standard' } as const
const facet = { kind: 'facet', id: 'facet', facetId: 'facet-nitride' } as const
const design = (chain: Candidate['chain']): Candidate => ({ id: 'new', name: 'new', userLines: [], chain })
const lensesOf = (each: { readonly lens1Id: string; readonly lens2Id: string } | null) => [
  each?.lens1Id,
  each?.lens2Id,
]

describe('a relay behind a gap', () => {
  // From 1.667 um of the chip to 4 um: 2.4, which only 600 behind 250 has.
  const chain = [
    fibre,
    newGapElement('gap', 'air'),
    { kind: 'taper chip', id: 'taper', converterId: 'taper' } as const,
    relay('relay'),
    facet,
  ]

  test('gets the pair whose ratio is that of its own modes, and a section over which its beam is parallel', () => {
    const found = fittingRelay(project, design(chain), 'relay')
    expect(lensesOf(found)).toEqual(['f-250', 'f-600'])
    // f1 = 250 um behind 1.667 um: f^2 lambda / (pi w^2) = 47 mm; the longest that is tried is 5 mm.
    expect(found?.stretch).toMatchObject({ value: 5, unit: 'mm' })
  })
})
