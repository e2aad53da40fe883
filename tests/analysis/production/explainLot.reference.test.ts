// Lots of known truth: intervals of the tolerances hold it, and the test of agreement rejects as often as it says.

import { describe, expect, test } from 'vitest'
import { explainLotSteps } from '../../../src/analysis/production/explainLot'
import { type LotLayout, lotDraw, lotFeatures } from '../../../src/analysis/production/lotLayout'
import { lotSimulator } from '../../../src/analysis/production/lotSimulator'
import {
  PRIOR_LOG_STANDARD,
  posteriorFactors,
  referenceSteps,
} from '../../../src/analysis/production/tolerancePosterior'
import { demoProject } from '../../../src/model'
import { normalQuantile } from '../../../src/numerics/normal'
import { unitPoints } from '../../../src/numerics/random/unitPoints'
import { finish } from '../../../src/numerics/steps'

const layoutOf = (assemblies: number, channels: number, standardDb: number): LotLayout => ({
  assemblyOf: Array.from({ length: assemblies * channels }, (_, i) => Math.floor(i / channels)),
  channelOf: Array.from({ length: assemblies * channels }, (_, i) => i % channels),
  assemblies,
  channels,
  standardDb,
})

/** Two tolerances in closed form: an offset of the whole assembly and one of each channel, 4.34 dB (x/w)^2 each. */
function closedForm(seed: number, channels: number) {
  const points = unitPoints('random', 1 + channels, seed)
  const point = new Float64Array(points.dimensions)
  return {
    channels,
    tolerances: [],
    isDirect: false,
    simulate: (index: number, factors: Float64Array, out: Float64Array) => {
      points.point(index, point)
      const common = factors[0]! * 0.3 * normalQuantile(point[0]!)
      for (let c = 0; c < channels; c++) {
        const own = factors[1]! * 0.3 * normalQuantile(point[1 + c]!)
        out[c] = 0.5 + 4.342945 * (common * common + own * own)
      }
    },
  }
}

describe('the posterior of the tolerances', () => {
  const ofLots = (assemblies: number, channels: number) => {
    const layout = layoutOf(assemblies, channels, 0.05)
    const draw = lotDraw(closedForm(3, channels), layout, 4)
    const featuresOf = (lot: number, factors: Float64Array) => lotFeatures(draw(lot, factors), layout)
    return { featuresOf, table: finish(referenceSteps(2, 1000, 7, featuresOf)) }
  }
  const { featuresOf, table } = ofLots(24, 4)

  test.each([
    [24, 4],
    [8, 4],
    [200, 1],
  ])('of 200 simulated lots of %i assemblies of %i channels holds the truth in 92 to 98 %', (...size) => {
    const lots = ofLots(...size)
    const truths = unitPoints('random', 2, 91)
    const point = new Float64Array(2)
    const held = [0, 0]
    for (let n = 0; n < 200; n++) {
      truths.point(n, point)
      const truth = point.map((u) => Math.exp(PRIOR_LOG_STANDARD * normalQuantile(u)))
      posteriorFactors(lots.table, lots.featuresOf(50_000 + n, truth)).forEach(({ low, high }, j) => {
        if (low <= truth[j]! && truth[j]! <= high) held[j]!++
      })
    }
    for (const count of held) {
      expect(count).toBeGreaterThanOrEqual(184)
      expect(count).toBeLessThanOrEqual(196)
    }
  })

  test('names the tolerance that is wider and the one that is tighter', () => {
    const [common, own] = posteriorFactors(table, featuresOf(60_000, Float64Array.of(2.5, 0.4)))
    expect([common!.verdict, own!.verdict]).toEqual(['wider', 'tighter'])
  })

  test('says where a lot gives no information on a tolerance', () => {
    const deaf = finish(
      referenceSteps(2, 600, 7, (lot, factors) => featuresOf(lot, Float64Array.of(factors[0]!, 1))),
    )
    const [, own] = posteriorFactors(deaf, featuresOf(60_001, Float64Array.of(1, 1)))
    expect(own!.verdict).toBe('not distinguishable')
    expect(own!.priorShare).toBeGreaterThan(0.85)
  })
})

test('a lot of the demo as predicted agrees; one with twice the tolerances does not, and is seen as wider', () => {
  const project = demoProject()
  const { channels } = project.requirements
  const candidateId = project.candidates[0]!.id
  const layout = layoutOf(12, channels, 0.05)
  const simulator = lotSimulator(project, candidateId, 99)
  if (!simulator.ok) throw new Error('no simulator')
  const draw = lotDraw(simulator.value, layout, 98)
  const lossDb = (factor: number) => draw(1, new Float64Array(simulator.value.tolerances.length).fill(factor))
  const explained = (factor: number) => {
    const result = finish(explainLotSteps(project, candidateId, { ...layout, lossDb: lossDb(factor) }))
    if (!result.ok) throw new Error('not explained')
    return result.value
  }
  const same = explained(1)
  expect(same.agrees).toBe(true)
  const wide = explained(2)
  expect(wide.agrees).toBe(false)
  expect(wide.meanDifferenceDb).toBeGreaterThan(0)
  expect(wide.tolerances.some(({ verdict }) => verdict === 'wider')).toBe(true)
  expect(wide.tolerances.every(({ verdict }) => verdict !== 'tighter')).toBe(true)
})
