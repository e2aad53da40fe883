import { produce } from 'immer'
import { expect, test } from 'vitest'
import { evaluateCandidate } from '../../src/analysis/index'
import { demoProject } from '../../src/model/index'
import { evaluationOf } from '../../src/store/evaluations'

const ID = 'cleaved-dry'
const OTHER = 'high-na-bonded'

const lossDb = (project: ReturnType<typeof demoProject>, id = ID) => {
  const result = evaluationOf(project, id)
  return result.ok ? result.value.nominalDb : Number.NaN
}

test('an edit of one candidate recomputes it and leaves the other as it was', () => {
  const before = demoProject()
  const other = evaluationOf(before, OTHER)
  lossDb(before)
  const after = produce(before, (draft) => {
    const gap = draft.candidates[0]?.chain[1]
    if (gap?.kind === 'gap') gap.gap.value = 40
  })
  expect(lossDb(after)).toBe(evaluateCandidate(after, ID).nominalDb)
  expect(lossDb(after)).not.toBe(lossDb(before))
  expect(evaluationOf(after, OTHER)).toBe(other)
})

test('a change of a part or of the wavelength recomputes every candidate', () => {
  const before = demoProject()
  const first = lossDb(before, OTHER)
  const smaller = produce(before, (draft) => {
    const facet = draft.facets[0]
    if (facet !== undefined) facet.mfdX.value = 2
  })
  const redder = produce(before, (draft) => {
    draft.requirements.wavelength.value = 1600
  })
  expect(lossDb(smaller, OTHER)).toBe(evaluateCandidate(smaller, OTHER).nominalDb)
  expect(lossDb(smaller, OTHER)).not.toBe(first)
  expect(lossDb(redder, OTHER)).toBe(evaluateCandidate(redder, OTHER).nominalDb)
})
