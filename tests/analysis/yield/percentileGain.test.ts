import { expect, test } from 'vitest'
import { runYield } from '../../../src/analysis/index'
import { demoProject } from '../../../src/model/index'
import { askLoss } from '../../support/askLoss'

test('a ranking where every assembly fails, or every one passes, still says in dB what to tighten', () => {
  const ranked = (limitDb: number) =>
    runYield(askLoss(demoProject(), { limitDb, basis: 'percentile', percentile: 95 }), 'cleaved-dry', {
      samples: 4096,
    })
  const [none, all] = [ranked(0.5), ranked(60)]
  expect(none.yield).toBe(0)
  expect(all.yield).toBe(1)
  for (const run of [none, all]) {
    expect(run.ranking.every(({ yieldGainHalved }) => yieldGainHalved === 0)).toBe(true)
    expect(run.ranking[0]?.percentileGainHalvedDb).toBeGreaterThan(0.01)
  }
  // The limit plays no part in it.
  expect(none.ranking.map((each) => each.percentileGainHalvedDb)).toEqual(
    all.ranking.map((each) => each.percentileGainHalvedDb),
  )
})
