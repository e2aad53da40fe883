// Tolerances shared out for a yield, and the ranking of an array, of a joint that no fit holds to 0.02 dB.

import { describe, expect, test } from 'vitest'
import { arrayRankingSteps } from '../../../src/analysis/array/arrayRanking'
import { blockByDirectSums, blockOf } from '../../../src/analysis/array/block'
import { arraySteps } from '../../../src/analysis/array/runArray'
import { assemblyOf } from '../../../src/analysis/yield/assembly'
import { passShare } from '../../../src/analysis/yield/ranking'
import { yieldPlan } from '../../../src/analysis/yield/runYield'
import { SHARE_OUT_DEFAULTS, SHARE_OUT_WIDENING } from '../../../src/analysis/yield/shareOut'
import { yieldJobs } from '../../../src/jobs/yieldJobs'
import { finish } from '../../../src/numerics/steps'
import { directLoss } from '../support/fieldDraws'
import { twoLobesProject } from '../support/twoLobes'

const PATIENT_MS = 240_000

describe('a joint whose fit misses its target', () => {
  test(
    'has its tolerances shared out to the yield of its own sums',
    () => {
      const { project, id } = twoLobesProject(1.5)
      project.requirements.channels = 1
      const [loss] = project.requirements.losses
      if (loss === undefined) throw new Error('no limit')
      project.requirements.losses = [{ ...loss, limit: { ...loss.limit, value: 9.5, unit: 'dB' } }]
      const found = finish(yieldJobs(project, yieldPlan(project, id)).shareOut(0.9, {}))
      expect(found.reached).toBe(true)
      expect(found.samples).toBe(SHARE_OUT_DEFAULTS.directPoints)
      // The truth on the same assemblies, by sums and a grid that the program does not use.
      const wide = assemblyOf(project, id, SHARE_OUT_WIDENING)
      if (!wide.ok) throw new Error('no assembly')
      const exact = directLoss(project, id)
      const yieldOf = (factors: Float64Array, lossDb: (v: Float64Array) => number) =>
        finish(
          passShare(
            { ...wide.value, lossDb: (v) => lossDb(v as Float64Array) },
            project.seed,
            SHARE_OUT_DEFAULTS.directPoints,
          )(factors),
        )
      const factors = Float64Array.from(found.tolerances, ({ factor }) => factor)
      const [present, one] = [factors.map(() => 1), 1.5 / SHARE_OUT_DEFAULTS.directPoints]
      const truth = yieldOf(factors, (v) => exact.lossDb(v))
      expect(truth).toBeGreaterThanOrEqual(0.9 - one)
      expect(Math.abs(found.yieldAfter - truth)).toBeLessThan(one)
      expect(Math.abs(found.yieldBefore - yieldOf(present, (v) => exact.lossDb(v)))).toBeLessThan(one)
      expect(found.costInCommon).toBeGreaterThanOrEqual(found.cost)
    },
    PATIENT_MS,
  )

  test(
    'has the tolerances of its array ranked by its own sums, on an eighth of the arrays',
    () => {
      const { project, id } = twoLobesProject(3)
      project.requirements.channels = 2
      const SAMPLES = 1024
      const block = blockOf(project, id)
      if (!block.ok) throw new Error('no array')
      const rankedOf = (of: typeof block.value) =>
        finish(arrayRankingSteps(of, project.seed, SAMPLES / 8)).tolerances
      const { ranking } = finish(arraySteps(project, id, { samples: SAMPLES }))
      expect(ranking.rankingBlocks).toBeLessThanOrEqual(SAMPLES / 8)
      expect(ranking.tolerances).toEqual(rankedOf(blockByDirectSums(block.value, project)))
      const furthest = Math.max(
        ...rankedOf(block.value).map(({ label, percentileGainHalvedDb }) => {
          const direct = ranking.tolerances.find((each) => each.label === label)
          return Math.abs(percentileGainHalvedDb - (direct?.percentileGainHalvedDb ?? Number.NaN))
        }),
      )
      expect(furthest).toBeGreaterThan(0.05)
    },
    PATIENT_MS,
  )
})
