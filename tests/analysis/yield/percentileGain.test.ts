import { expect, test } from 'vitest'
import { runYield } from '../../../src/analysis/index'
import { gainsDiffer, percentileChangeText, rankedGainDb } from '../../../src/analysis/results/percentileGain'
import { demoProject } from '../../../src/model/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import { askLoss } from '../../support/askLoss'
import { matchedProject, normal } from './cases'

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
  // The limit is ignored in it.
  expect(none.ranking.map((each) => each.percentileGainHalvedDb)).toEqual(
    all.ranking.map((each) => each.percentileGainHalvedDb),
  )
})

// Ten runs of a million assemblies, closed form: tests/reference/data/recipes/percentile_gain.py
const A_MILLION = {
  0.95: { 'offset x': 0.44566, 'offset y': 0.01188, 'tilt x': 0.02025, 'tilt y': 0.00257 },
  0.99: { 'offset x': 0.78124, 'offset y': 0.01151, 'tilt x': 0.0198, 'tilt y': 0.00255 },
} as const

test.each([0.95, 0.99] as const)(
  'a run of 4,096 gains at the %d quantile what a million assemblies do, within its own error, and ranks nothing that it cannot tell apart',
  (share) => {
    const angle = (sigma: number) => quantityOf(0, 'deg', 'estimate', normal(sigma))
    const offset = (sigma: number) => quantityOf(0, 'um', 'estimate', normal(sigma))
    const matched = matchedProject(10.4, 3, {
      offsetX: offset(1),
      offsetY: offset(0.3),
      tiltX: angle(0.4),
      tiltY: angle(0.15),
    })
    const asked = askLoss(matched, { limitDb: 3, basis: 'percentile', percentile: 100 * share })
    let within = 0
    let all = 0
    for (let seed = 1; seed <= 12; seed++) {
      const { ranking } = runYield(asked, 'matched', { samples: 4096, seed })
      for (const gain of ranking) {
        const exact = A_MILLION[share][gain.label as keyof (typeof A_MILLION)[typeof share]]
        all++
        if (Math.abs(gain.percentileGainHalvedDb - exact) <= 1.96 * gain.percentileGainErrorDb + 1e-4)
          within++
        if (gain.label === 'offset x')
          expect(Math.abs(gain.percentileGainHalvedDb / exact - 1)).toBeLessThan(0.25)
      }
    }
    expect(all).toBe(48)
    // 95 % of intervals hold; of 48, more than 41 do in 99 of 100 cases.
    expect(within).toBeGreaterThan(41)
  },
)

test('gains within their sampling error are not distinguished from zero, nor from each other', () => {
  const gain = (percentileGainHalvedDb: number, percentileGainErrorDb: number) => ({
    percentile: 0.99,
    percentileGainHalvedDb,
    percentileGainErrorDb,
  })
  expect(
    [gain(0.1, 0.05), gain(0.09, 0.05), gain(0, 0), gain(0.001, 0.002)].map(percentileChangeText),
  ).toEqual(['−0.10 ± 0.05', 'not distinguishable', '0.00', '0.00'])
  expect(gainsDiffer(gain(0.5, 0.05), gain(0.38, 0.05))).toBe(false)
  expect(gainsDiffer(gain(0.5, 0.05), gain(0.36, 0.05))).toBe(true)
  expect(rankedGainDb(gain(0.09, 0.05))).toBe(0)
})
