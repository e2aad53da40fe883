import { describe, expect, test } from 'vitest'
import { runArray } from '../../../src/analysis/array/runArray'
import { compareCandidates } from '../../../src/analysis/compare/compareCandidates'
import { checkRequirements, evaluateCandidate, runYield, tryEvaluate } from '../../../src/analysis/index'
import { demoProject } from '../../../src/model/index'
import { askPercentile } from '../../support/askLoss'

const ID = 'high-na-bonded'

function percentileProject() {
  const project = demoProject()
  askPercentile(project)
  return project
}

describe('a percentile asked of several channels', () => {
  const project = percentileProject()
  const evaluation = evaluateCandidate(project, ID)
  const run = runYield(project, ID, { samples: 10_000 })
  const array = runArray(project, ID, { samples: 256 })
  const verdicts = checkRequirements(project, evaluation, run, array)
  const of = (id: string, from = verdicts) => from.find((each) => each.id === id)

  test('is answered for one channel and, apart from it, for all of a block', () => {
    expect(of('loss')?.label).toBe('Loss ≤ 2 dB, P95, one channel')
    expect(of('all-channels')?.label).toBe('Loss ≤ 2 dB, P95, all 12 channels')
    expect(of('all-channels')?.status).toBe('not met')
    expect(of('all-channels')?.reason).toContain('256 assemblies')
  })

  test('is not known for the block without an array run, however good one channel is', () => {
    expect(of('all-channels', checkRequirements(project, evaluation, run))?.status).toBe('not known')
  })

  test('is met for the block once so many blocks pass', () => {
    const lax = percentileProject()
    for (const { limit } of lax.requirements.losses) limit.value = 30
    const blocks = runArray(lax, ID, { samples: 64 })
    const verdict = of('all-channels', checkRequirements(lax, evaluateCandidate(lax, ID), null, blocks))
    expect(verdict?.status).toBe('met')
    expect(verdict?.reason).toContain('64 assemblies); limit 30 dB')
  })

  test('is asked of one channel only where there is only one', () => {
    const single = percentileProject()
    single.requirements.channels = 1
    const labels = checkRequirements(single, evaluateCandidate(single, ID)).map((each) => each.label)
    expect(labels[0]).toBe('Loss ≤ 2 dB, P95')
    expect(labels.join()).not.toContain('all 12')
  })

  test('is in the comparison with yields, intervals, samples and seed', () => {
    const { rows } = compareCandidates(project, tryEvaluate, new Map([[ID, run]]), new Map([[ID, array]]))
    const cell = (id: string, at = 1) => rows.find((each) => each.id === id)?.cells[at]
    expect(cell('yield')?.value).toBeCloseTo(100 * run.yield, 12)
    expect(cell('yield')?.reason).toMatch(/10\u202f000 Sobol samples, seed 16537$/)
    expect(cell('p95')?.value).toBe(run.p95Db)
    expect(cell('all-channels')?.value).toBeCloseTo(100 * (array.aims[1]?.allChannelsYield ?? 0), 12)
    expect(cell('all-channels')?.reason).toContain('256 arrays, seed 16537')
    expect(cell('tighten')?.text).toBe(run.ranking[0]?.label)
    expect(cell('yield', 0)).toMatchObject({ value: null, reason: 'needs a yield run' })
  })
})
