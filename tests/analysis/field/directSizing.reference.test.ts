// Sizing by a percentile, the ranking of tolerances and the reach in temperature of a joint that no fit holds to 0.02 dB, against brute force:
// every assembly summed here, on a grid and by sums that the program does not use for it.

import { describe, expect, test } from 'vitest'
import { compileCandidate } from '../../../src/analysis/path/compileCandidate'
import { lossAtShare } from '../../../src/analysis/results/lossAtShare'
import { allowances } from '../../../src/analysis/sizing/allowances'
import { sampledSteps } from '../../../src/analysis/sizing/sampledLosses'
import { type SizedCandidate, sizedCandidate } from '../../../src/analysis/sizing/wholeRow'
import { temperatureReach } from '../../../src/analysis/temperature/temperatureReach'
import { assemblyTemperatureC } from '../../../src/analysis/temperature/worstTemperature'
import { rankTolerances } from '../../../src/analysis/yield/ranking'
import { runYield } from '../../../src/analysis/yield/runYield'
import type { Path } from '../../../src/model/issue'
import { demoProject } from '../../../src/model/project/demoProject'
import { setCoreHalfWidth } from '../../../src/model/quantity/coreQuantity'
import { quantityAt } from '../../../src/model/quantity/quantityAt'
import type { Project } from '../../../src/model/schema/project'
import { finish } from '../../../src/numerics/steps'
import { directLoss } from '../support/fieldDraws'
import { twoLobesProject } from '../support/twoLobes'

const PATIENT_MS = 120_000

function sizedOf(project: Project, id: string): SizedCandidate {
  const sized = sizedCandidate(project, id)
  if (!sized.ok) throw new Error('no sizing')
  return sized.value
}

/** The design with every loss of its samples replaced, and nothing left for the program to sum. */
const withLosses = (sized: SizedCandidate, worstDb: (v: Float64Array) => number): SizedCandidate => ({
  ...sized,
  joins: [],
  sampled: () => ({ worstDb: (v) => worstDb(v as Float64Array), channelDb: () => Number.NaN }),
})

describe('a joint whose fit misses its target', () => {
  const { project, id } = twoLobesProject(1.5)
  project.requirements.channels = 1

  test(
    'is sized by the percentile of its own sums',
    () => {
      const [SHARE, LIMIT_DB] = [0.9, 10.4]
      const offsets = (path: Path) => (String(path.at(-1)).startsWith('offset') ? 1 : 0)
      const basis = { criterion: 'percentile', share: SHARE } as const
      const found = allowances(sizedOf(project, id), LIMIT_DB, basis, offsets)
      expect(found.possible).toBe(true)
      const narrowed = structuredClone(project)
      for (const { path, rule, shared } of found.rows) {
        const quantity = quantityAt(narrowed, path)
        if (quantity !== undefined && shared !== null) setCoreHalfWidth(quantity, rule, shared, 9)
      }
      const sized = sizedOf(narrowed, id)
      const exact = directLoss(narrowed, id)
      const percentile = (design: SizedCandidate) =>
        lossAtShare(finish(sampledSteps(design, false, [])).lossesDb, SHARE)
      const truthDb = percentile(withLosses(sized, (v) => exact.lossDb(v)))
      const { worstDb } = sized.sampled('beyond')
      const fittedDb = percentile(withLosses(sized, worstDb))
      expect(Math.abs(found.sharedDb - truthDb)).toBeLessThan(0.002)
      expect(Math.abs(fittedDb - truthDb)).toBeGreaterThan(0.008)
      expect(truthDb).toBeLessThan(LIMIT_DB)
      expect(found.direct?.summed).toBeGreaterThan(64)
      expect(found.direct?.summed).toBeLessThan(2500)
    },
    PATIENT_MS,
  )

  test(
    'has its tolerances ranked by its own sums',
    () => {
      const exact = directLoss(project, id)
      const { ranking, assumptions } = runYield(project, id, { samples: 64 })
      const points = { effectPoints: 64, yieldPoints: 64, fewPoints: 64 }
      const truth = rankTolerances(
        { ...exact.assembly, lossDb: (v) => exact.lossDb(v as Float64Array) },
        project.seed,
        points,
      )
      const byFit = rankTolerances(exact.assembly, project.seed, points)
      const furthest = (one: typeof ranking) =>
        Math.max(
          ...truth.ranking.map((each) => {
            const same = one.find(({ label }) => label === each.label)
            return Math.abs((same?.percentileGainHalvedDb ?? Number.NaN) - each.percentileGainHalvedDb)
          }),
        )
      expect(ranking.map(({ label }) => label)).toEqual(truth.ranking.map(({ label }) => label))
      for (const [i, { total }] of ranking.entries())
        expect(total).toBeCloseTo(truth.ranking[i]?.total ?? 9, 2)
      expect(furthest(ranking)).toBeLessThan(0.005)
      expect(furthest(byFit.ranking)).toBeGreaterThan(0.02)
      expect(assumptions.at(-1)).toMatch(
        /ranking is computed directly from the fields of 64 assemblies; standard error of a total effect at most \d+\.\d %/,
      )
    },
    PATIENT_MS,
  )

  test('reaches the temperatures at which the real joint meets the limit', () => {
    const LIMIT_DB = 8
    const warm = structuredClone(project)
    const candidate = warm.candidates.find((each) => each.id === id)
    const mounted = demoProject().candidates.find(({ mount }) => mount !== undefined)?.mount
    if (candidate === undefined || mounted === undefined) throw new Error('no mount')
    candidate.mount = mounted
    const result = compileCandidate(warm, id)
    if (!result.ok) throw new Error('no design')
    const compiled = result.value
    const assemblyC = assemblyTemperatureC(compiled)
    const exact = directLoss(warm, id)
    const beyondDb = (reach: ReturnType<typeof temperatureReach>) =>
      (reach ?? [Number.NaN]).map((end) => {
        const v = compiled.nominal.with(compiled.slots.temperatureRise, end - assemblyC)
        return Math.abs(exact.wholeGridDb(v) - LIMIT_DB)
      })
    expect(Math.max(...beyondDb(temperatureReach(compiled, assemblyC, LIMIT_DB)))).toBeLessThan(0.002)
    expect(
      Math.max(...beyondDb(temperatureReach({ ...compiled, joins: [] }, assemblyC, LIMIT_DB))),
    ).toBeGreaterThan(0.005)
  })
})
