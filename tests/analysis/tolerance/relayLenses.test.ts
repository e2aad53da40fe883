import { describe, expect, test } from 'vitest'
import { tryEvaluate } from '../../../src/analysis/index'
import { settledCandidate } from '../../../src/analysis/tolerance/bestSettings'
import { withFittingLenses } from '../../../src/analysis/tolerance/relayLenses'
import type { Candidate } from '../../../src/model/schema/candidate'
import type { Project } from '../../../src/model/schema/project'
import { familiesProject, relayElement } from '../support/families'

const all = familiesProject()
/** A few of its lenses, of which the best pair is neither the first nor the last. */
const project = { ...all, lenses: all.lenses.filter((_, i) => i % 2 === 0 || i === 1) }

function lossDb(own: Project, candidate: Candidate): number {
  const result = tryEvaluate({ ...own, candidates: [candidate] }, candidate.id)
  return result.ok ? result.value.nominalDb : Number.MAX_VALUE
}

const relayWith = (lens1Id: string, lens2Id: string): Candidate => ({
  id: 'new',
  name: 'new',
  userLines: [],
  chain: [
    { kind: 'fibre', id: 'fibre', fibreId: 'fibre-standard' },
    relayElement({ lens1Id, lens2Id, device: undefined }),
    { kind: 'facet', id: 'facet', facetId: 'facet-nitride' },
  ],
})

describe('the lenses of a new relay', () => {
  test('lose as little as the best of all pairs, whichever two it started with', () => {
    const ids = project.lenses.map(({ id }) => id)
    const losses = ids.flatMap((first) =>
      ids.map((second) => lossDb(project, settledCandidate(project, relayWith(first, second)))),
    )
    const chosen = withFittingLenses(project, relayWith('plano-2', 'lens-1'))
    expect(lossDb(project, chosen)).toBeLessThan(Math.min(...losses) + 0.01)
  })

  test('stay as they were where no pair can be computed', () => {
    const none = { ...project, lenses: [] }
    expect(withFittingLenses(none, relayWith('lens-1', 'lens-2')).chain[1]).toMatchObject({
      lens1Id: 'lens-1',
      lens2Id: 'lens-2',
    })
  })

  test('are nothing to a chain without a relay', () => {
    const [butt] = project.candidates
    if (butt === undefined) throw new Error('no candidate')
    const own = { ...butt, id: 'new' }
    expect(withFittingLenses(project, own)).toEqual(settledCandidate(project, own))
  })
})
