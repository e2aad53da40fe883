// What makes a path impossible is said of the element that does, with its number in the path.

import { expect, test } from 'vitest'
import { sequenceIssues } from '../../../../src/analysis/path/vector/sequence'
import {
  newGapElement,
  newSpliceElement,
  newStubElement,
  newTaperChipElement,
} from '../../../../src/model/designs/newElements'
import { demoProject } from '../../../../src/model/index'
import type { ChainElement } from '../../../../src/model/schema/candidate'

const { converters } = demoProject()
const fibre = { kind: 'fibre', id: 'fibre', fibreId: 'fibre-standard' } as const
const facet = { kind: 'facet', id: 'facet', facetId: 'facet-nitride' } as const
const gap = newGapElement('gap', 'air')
const splice = newSpliceElement('splice')
const stub = newStubElement('stub', 'fibre-standard')
const chip = newTaperChipElement('chip', converters.find(({ kind }) => kind === 'taper chip')?.id ?? '')
const tip = converters.find(({ kind }) => kind === 'lensed tip')?.id ?? ''

const said = (...chain: readonly ChainElement[]) =>
  sequenceIssues(chain, { converters }, ['candidates', 0, 'chain']).map(
    ({ path, message }) => `${path.at(-1)}: ${message}`,
  )

test.each([
  ['the shortest path', [fibre, gap, facet]],
  ['a spliced stub', [fibre, splice, stub, gap, facet]],
  ['a chip between gaps', [fibre, gap, chip, gap, facet]],
  ['a lensed tip before a gap', [{ ...fibre, tipId: tip }, gap, facet]],
] as const)('%s is possible', (_, chain) => {
  expect(said(...chain)).toEqual([])
})

test.each([
  [[fibre, facet], '0: the path has 2 elements; it needs at least a fibre, a joint and a facet'],
  [
    [stub, gap, facet],
    '0: element 1 of the path is a fibre stub; a path starts with a fibre and contains no other fibre',
  ],
  [
    [fibre, gap, fibre, gap, facet],
    '2: element 3 of the path is a fibre; a path starts with a fibre and contains no other fibre',
  ],
  [
    [fibre, gap, stub],
    '2: element 3 of 3 of the path is a fibre stub; a path ends at a chip facet and contains no other facet',
  ],
  [
    [fibre, gap, facet, gap, facet],
    '2: element 3 of 5 of the path is a chip facet; a path ends at a chip facet and contains no other facet',
  ],
  [
    [fibre, stub, gap, facet],
    '1: element 2 of the path is a fibre stub; waveguides and joints must alternate',
  ],
  [
    [fibre, gap, splice, gap, facet],
    '2: element 3 of the path is a splice; waveguides and joints must alternate',
  ],
  [[fibre, splice, facet], '1: a chip facet cannot be fusion spliced'],
  [[fibre, splice, chip, gap, facet], '1: an SSC chip cannot be fusion spliced'],
  [[fibre, gap, chip, splice, stub, gap, facet], '3: an SSC chip cannot be fusion spliced'],
  [
    [{ ...fibre, tipId: tip }, splice, stub, gap, facet],
    '1: the lensed end of a fibre cannot be fusion spliced: the arc melts the lens',
  ],
  [
    [fibre, splice, { ...stub, tipId: tip }, splice, stub, gap, facet],
    '3: the lensed end of a fibre cannot be fusion spliced: the arc melts the lens',
  ],
] as const)('%# is refused', (chain, first) => {
  expect(said(...chain)[0]).toBe(first)
})

test('a converter of the wrong kind, or none, is named with what is needed', () => {
  const name = (id: string) => converters.find((each) => each.id === id)?.name
  expect(said(fibre, gap, { ...chip, converterId: tip }, gap, facet)).toEqual([
    `2: "${name(tip)}" is a lensed fibre; this element needs an SSC chip`,
  ])
  expect(said({ ...fibre, tipId: chip.converterId }, gap, facet)).toEqual([
    `0: "${name(chip.converterId)}" is an SSC chip; this element needs a lensed fibre`,
  ])
  expect(said(fibre, gap, { ...chip, converterId: 'gone' }, gap, facet)).toEqual([
    '2: "gone" is missing from the parts; this element needs an SSC chip',
  ])
})
