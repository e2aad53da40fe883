import { describe, expect, test } from 'vitest'
import { runYield } from '../../../src/analysis/index'
import { assemblyOf } from '../../../src/analysis/yield/assembly'
import { runBlocks, sampleValues } from '../../../src/analysis/yield/runBlocks'
import { milestones, yieldPlan } from '../../../src/analysis/yield/runYield'
import { addTallies, emptyTally, tallyQuantile } from '../../../src/analysis/yield/tally'
import { demoProject } from '../../../src/model/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import { NO_LIGHT_DB } from '../../../src/optics/index'
import { isotropic, matchedProject, normal } from './cases'

// Isotropic normal offsets on matched round modes: the loss is exponentially distributed (Rayleigh radius squared).
// Closed forms: yield 1 - exp(-x^2 / 2 sigma^2), mean 8.686 sigma^2 / w^2, quantile 4.343 (-2 ln(1 - p)) sigma^2 / w^2.
describe.each(['sobol', 'random'] as const)('the exponential law with %s points', (method) => {
  const samples = 200_000
  const result = runYield(isotropic(10.4, 1, 0.5), 'matched', {
    samples,
    seed: 4,
    method,
    rankingPoints: null,
  })
  const standardError = (share: number) => Math.sqrt((share * (1 - share)) / samples)

  test('yield at 0.5 dB, sigma 1.0 um, MFD 10.4 um is 0.789137 within four standard errors', () => {
    expect(Math.abs(result.yield - 0.7891371850066711)).toBeLessThan(4 * standardError(0.789))
    expect(result.yieldInterval.low).toBeLessThan(result.yield)
    expect(result.yieldInterval.high).toBeGreaterThan(result.yield)
  })
  test('the 95th percentile is 0.962300 dB and lies in its interval', () => {
    const density = 0.05 / 0.3212237292159763
    expect(Math.abs(result.p95Db - 0.9623002926436683)).toBeLessThan((4 * standardError(0.05)) / density)
    const p95 = result.percentiles.find((each) => each.share === 0.95)
    expect(p95?.lowDb).toBeLessThan(result.p95Db)
    expect(p95?.highDb).toBeGreaterThan(result.p95Db)
  })
  test('mean and standard deviation are both 0.321224 dB, as an exponential has them', () => {
    expect(Math.abs(result.meanDb - 0.3212237292159763)).toBeLessThan((4 * 0.3212) / Math.sqrt(samples))
    expect(Math.abs(result.standardDeviationDb - 0.3212237292159763)).toBeLessThan(
      (8 * 0.3212) / Math.sqrt(samples),
    )
  })
})

test('sigma 0.5 um at MFD 3.2 um and 1 dB yields 0.692390', () => {
  const { yield: share } = runYield(isotropic(3.2, 0.5, 1), 'matched', {
    samples: 65_536,
    seed: 1,
    rankingPoints: null,
  })
  expect(Math.abs(share - 0.6923903185259292)).toBeLessThan(0.002)
})

test('Sobol points come ten times closer to the exact yield than their binomial standard error', () => {
  const options = { samples: 2 ** 17, rankingPoints: null }
  const errors = Array.from(
    { length: 12 },
    (_, seed) =>
      runYield(isotropic(10.4, 1, 0.5), 'matched', { ...options, seed }).yield - 0.7891371850066711,
  )
  const rms = Math.sqrt(errors.reduce((sum, error) => sum + error ** 2, 0) / errors.length)
  expect(rms).toBeLessThan(0.1 * Math.sqrt((0.789 * 0.211) / 2 ** 17))
})

// JCGM 100:2008, 5.1.2: first-order propagation. At perfect alignment every slope is zero, so it says nothing spreads.
test('first-order propagation gives zero at perfect alignment, and the run does not', () => {
  const result = runYield(isotropic(10.4, 1, 0.5), 'matched', { samples: 20_000, rankingPoints: null })
  expect(result.firstOrderDb).toBeLessThan(1e-9)
  expect(result.standardDeviationDb).toBeGreaterThan(0.3)
})

test('first-order propagation and the run agree where the loss is straight', () => {
  const loss = (half: number) => quantityOf(1, 'dB', 'estimate', { plusMinus: half, distribution: 'uniform' })
  const project = matchedProject(10.4, 3)
  const [candidate] = project.candidates
  if (candidate === undefined) throw new Error('no candidate')
  candidate.userLines.push(
    { id: 'a', label: 'a', kind: 'user line', loss: loss(0.5) },
    { id: 'b', label: 'b', kind: 'user line', loss: loss(0.2) },
  )
  const result = runYield(project, 'matched', { samples: 100_000, rankingPoints: null })
  const expected = Math.sqrt((0.5 ** 2 + 0.2 ** 2) / 3)
  expect(result.firstOrderDb).toBeCloseTo(expected, 9)
  expect(result.standardDeviationDb).toBeCloseTo(expected, 3)
})

describe('the same seed', () => {
  const options = { samples: 10_000, seed: 99 }
  test('gives the same result to the last bit, and another seed another one', () => {
    const first = runYield(demoProject(), 'high-na-bonded', options)
    expect(runYield(demoProject(), 'high-na-bonded', options)).toEqual(first)
    expect(runYield(demoProject(), 'high-na-bonded', { ...options, seed: 98 }).p95Db).not.toBe(first.p95Db)
  })

  test('gives the same tally whichever worker computes which block, in any order', () => {
    const result = assemblyOf(demoProject(), 'high-na-bonded')
    if (!result.ok) throw new Error('not computed')
    const plan = yieldPlan(demoProject(), 'high-na-bonded', options)
    const whole = runBlocks(result.value, plan, 0, 4)
    const pieces = (
      [
        [2, 4],
        [0, 1],
        [1, 2],
      ] as const
    ).map(([from, to]) => {
      const own = assemblyOf(demoProject(), 'high-na-bonded')
      if (!own.ok) throw new Error('not computed')
      return runBlocks(own.value, plan, from, to)
    })
    expect(pieces.reduce(addTallies, emptyTally())).toEqual(addTallies(emptyTally(), whole))
  })
})

describe('a run', () => {
  test('stops at a milestone once the percentile is known well enough, and says so', () => {
    const project = isotropic(10.4, 1, 0.5)
    const result = runYield(project, 'matched', {
      samples: 1_000_000,
      seed: 1,
      stopAtDb: 0.02,
      rankingPoints: null,
    })
    expect(result.stoppedEarly).toBe(true)
    expect(milestones(1_000_000).map((blocks) => blocks * 4096)).toContain(result.samples)
    const p95 = result.percentiles.find((each) => each.share === 0.95)
    expect((p95?.highDb ?? 9) - (p95?.lossDb ?? 0)).toBeLessThanOrEqual(0.02)
  })

  test('names its worst samples, which can be repeated one by one', () => {
    const project = demoProject()
    const { worst, greatestDb } = runYield(project, 'high-na-bonded', {
      samples: 8192,
      seed: 5,
      rankingPoints: null,
    })
    expect(worst).toHaveLength(20)
    expect(worst[0]?.lossDb).toBe(greatestDb)
    const assembly = assemblyOf(project, 'high-na-bonded')
    if (!assembly.ok) throw new Error('not computed')
    const plan = yieldPlan(project, 'high-na-bonded', { samples: 8192, seed: 5 })
    for (const { index, lossDb } of worst) {
      expect(assembly.value.lossDb(sampleValues(assembly.value, plan, index))).toBe(lossDb)
    }
  })

  test('has a histogram that holds every sample', () => {
    const { histogram, samples } = runYield(demoProject(), 'cleaved-dry', {
      samples: 10_000,
      rankingPoints: null,
    })
    const counted = histogram.counts.reduce((sum, each) => sum + each, histogram.beyond)
    expect(counted).toBe(samples)
    expect(histogram.counts.length).toBeLessThanOrEqual(62)
  })

  test('without any tolerance has every percentile at the nominal loss', () => {
    const result = runYield(matchedProject(10.4, 0.5, { offsetX: quantityOf(1, 'um') }), 'matched', {
      samples: 100,
    })
    // One micrometre at MFD 10.4 um: 0.160612 dB (D. Marcuse, Bell Syst. Tech. J. 56 (1977) 703).
    for (const { lossDb } of result.percentiles) expect(lossDb).toBeCloseTo(0.160612, 6)
    expect(result.yield).toBe(1)
    expect(result.ranking).toEqual([])
  })

  test('counts assemblies without light as failed, at the loss that means no light', () => {
    const project = matchedProject(10.4, 0.5, { offsetX: quantityOf(500, 'um') })
    const result = runYield(project, 'matched', { samples: 100 })
    expect(result.yield).toBe(0)
    expect(result.p50Db).toBe(NO_LIGHT_DB)
    expect(result.histogram.beyond).toBe(100)
  })

  test('of a handful of samples does not pretend to know the 99th percentile from above', () => {
    const { percentiles } = runYield(isotropic(10.4, 1, 0.5), 'matched', { samples: 50 })
    expect(percentiles.find((each) => each.share === 0.99)?.highDb).toBe(NO_LIGHT_DB)
  })

  test('refuses counts and seeds out of range, and candidates that cannot be computed', () => {
    expect(() => runYield(demoProject(), 'cleaved-dry', { samples: 0 })).toThrow(
      'samples is 0; must be a whole number',
    )
    expect(() => runYield(demoProject(), 'cleaved-dry', { samples: 1e8 })).toThrow('1 to 10000000')
    expect(() => runYield(demoProject(), 'cleaved-dry', { seed: -1 })).toThrow('seed is -1')
    const method = 'halton' as unknown as 'sobol'
    expect(() => runYield(demoProject(), 'cleaved-dry', { method })).toThrow(
      'method is "halton"; must be sobol or random',
    )
    const negative = isotropic(10.4, -1, 0.5)
    expect(() => runYield(negative, 'matched')).toThrow('plusMinus is -1; must be 0 to')
    expect(() => runYield(demoProject(), 'nobody')).toThrow('design is "nobody"')
  })
})

test('a quantile of the classes is right to their width of 0.0005 dB', () => {
  const assembly = assemblyOf(isotropic(10.4, 1, 0.5), 'matched')
  if (!assembly.ok) throw new Error('not computed')
  const plan = yieldPlan(demoProject(), 'matched', { samples: 4096, seed: 3 })
  const tally = runBlocks(assembly.value, plan, 0, 1)
  const losses = Array.from({ length: 4096 }, (_, i) =>
    assembly.value.lossDb(sampleValues(assembly.value, plan, i)),
  ).sort((a, b) => a - b)
  for (const p of [0.1, 0.5, 0.9, 0.99]) {
    expect(Math.abs(tallyQuantile(tally, p) - (losses[Math.ceil(p * 4096) - 1] ?? 0))).toBeLessThan(0.0011)
  }
})

test('a normal tolerance that reaches past contact says so', () => {
  const project = matchedProject(10.4, 0.5, { gap: quantityOf(1, 'um', 'estimate', normal(1)) })
  const { assumptions } = runYield(project, 'matched', { samples: 100 })
  expect(assumptions.join(' ')).toContain('Samples of gap beyond 0 are set to that limit.')
})
