import { produce } from 'immer'
import { expect, test } from 'vitest'
import { type ArrayResult, runArray } from '../../src/analysis/array/runArray'
import { type FieldRequest, fitElsewhere, learnAnswer } from '../../src/analysis/field/fit/knownFits'
import { evaluateCandidate, runYield } from '../../src/analysis/index'
import type { YieldResult } from '../../src/analysis/yield/yieldResult'
import { demoProject } from '../../src/model/index'
import { quantityOf } from '../../src/model/quantity/quantity'
import { evaluationOf, rememberedVerdicts } from '../../src/store/evaluations'
import { fitsLearned } from '../../src/store/solvedFields'
import { agedProject, stressMeasurement } from '../support/agedProject'
import { largestProject } from '../support/largestProject'

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

test('a keystroke in the largest project evaluates one design, the one that it changes', () => {
  const before = largestProject(12)
  const ids = before.candidates.map(({ id }) => id)
  const known = ids.map((id) => evaluationOf(before, id))
  const after = produce(before, (draft) => {
    const gap = draft.candidates[3]?.chain.at(-2)
    if (gap?.kind === 'gap') gap.gap.value += 1
  })
  const again = ids.map((id) => evaluationOf(after, id))
  expect(again.flatMap((result, at) => (result === known[at] ? [] : [at]))).toEqual([3])
})

test('comparing a change with the current project takes one evaluation, however often both are requested', () => {
  const now = demoProject()
  const weighed = produce(now, (draft) => {
    const facet = draft.facets[0]
    if (facet !== undefined) facet.mfdX.value = 2.5
  })
  const [own, changed] = [evaluationOf(now, OTHER), evaluationOf(weighed, OTHER)]
  expect(changed).not.toBe(own)
  expect([evaluationOf(now, OTHER), evaluationOf(weighed, OTHER)]).toEqual([own, changed])
  expect(evaluationOf(now, OTHER)).toBe(own)
  expect(evaluationOf(weighed, OTHER)).toBe(changed)
})

test('a fit that becomes known recomputes the design that waited for it, and no other', () => {
  // A relay of its own, whose fit no other test has asked for.
  const project = produce(demoProject(), (draft) => {
    for (const { chain } of draft.candidates)
      for (const element of chain) if (element.kind === 'relay') element.stretch.value *= 1.0173
  })
  const wanted: FieldRequest[] = []
  const end = fitElsewhere((request) => wanted.push(request))
  try {
    const evaluated = () => project.candidates.map(({ id }) => evaluationOf(project, id))
    const before = evaluated()
    const [request] = wanted
    if (request === undefined) throw new Error('the relay wants a fit')
    const waiting = before.map((result) => result.ok && result.value.awaitsFit)
    expect(waiting.filter(Boolean)).toHaveLength(1)
    learnAnswer(request.key, null)
    fitsLearned()
    const after = evaluated()
    expect(after.map((result, at) => result !== before[at])).toEqual(waiting)
    expect(after.every((result) => result.ok && !result.value.awaitsFit)).toBe(true)
    fitsLearned()
    expect(evaluated()).toEqual(after)
  } finally {
    end()
  }
})

test('a stress test that is measured anew recomputes the design that takes its drift from it, and no other', () => {
  const before = agedProject(OTHER, 0.1)
  const [own, other] = [lossDb(before, OTHER), evaluationOf(before, ID)]
  const after = produce(before, (draft) => {
    draft.measurements = [stressMeasurement(0.3)]
  })
  expect(lossDb(after, OTHER) - own).toBeCloseTo(0.2, 6)
  expect(evaluationOf(after, ID)).toBe(other)
})

test('verdicts follow the run and the array that they quote', () => {
  const project = demoProject()
  project.requirements.losses = ['one', 'all'].map((channels) => ({
    id: channels,
    limit: quantityOf(2, 'dB'),
    basis: 'percentile' as const,
    percentile: 95,
    channels: channels as 'one' | 'all',
  }))
  const evaluation = evaluateCandidate(project, OTHER)
  const run = runYield(project, OTHER, { samples: 1024 })
  const array = runArray(project, OTHER, { samples: 64 })
  const known = (...runs: readonly [YieldResult | null, ArrayResult | null]) => {
    const verdicts = rememberedVerdicts(project, evaluation, ...runs)
    return ['one', 'all'].map((id) => verdicts.find((each) => each.id === id)?.status !== 'not known')
  }
  expect(known(null, null)).toEqual([false, false])
  expect(known(run, null)).toEqual([true, false])
  expect(known(run, array)).toEqual([true, true])
  expect(known(null, array)).toEqual([false, true])
  expect(known(null, null)).toEqual([false, false])
  expect(rememberedVerdicts(project, evaluation, run, array)).toBe(
    rememberedVerdicts(project, evaluation, run, array),
  )
})
