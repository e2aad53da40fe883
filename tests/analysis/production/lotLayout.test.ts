// What is compared of a lot by hand, and the posterior of a tolerance against the closed form of a linear model with normal errors.

import { describe, expect, test } from 'vitest'
import { type LotLayout, lotDraw, lotFeatures } from '../../../src/analysis/production/lotLayout'
import type { LotSimulator } from '../../../src/analysis/production/lotSimulator'
import {
  PRIOR_LOG_STANDARD,
  posteriorFactors,
  referenceSteps,
} from '../../../src/analysis/production/tolerancePosterior'
import { normalQuantile } from '../../../src/numerics/normal'
import { unitPoints } from '../../../src/numerics/random/unitPoints'
import { finish } from '../../../src/numerics/steps'

const layout: LotLayout = {
  assemblyOf: [0, 0, 0, 1, 1, 1],
  channelOf: [0, 1, 2, 0, 1, 2],
  assemblies: 2,
  channels: 3,
  standardDb: 0,
}

describe('what is compared of a lot', () => {
  test('is its mean, its spreads between and within assemblies, both halves, and the loss of outer channels, by hand', () => {
    // Means 5/6 and 11/6 about 4/3: 2 (1/2)² over one degree of freedom. Within: 2 (2 (1/6)² + (1/3)²) = 1/3 over four.
    // Quantiles of 0.5, 1, 1, 1.5, 2, 2 by definition 7 of Hyndman and Fan: 0.625, 1.25 and 2. Outer channels lose 0.5 dB more.
    const found = lotFeatures([1, 0.5, 1, 2, 1.5, 2], layout)
    const expected = [
      4 / 3,
      Math.log(Math.sqrt(0.5)),
      Math.log(0.75),
      Math.log(0.625),
      Math.log(Math.sqrt(1 / 12)),
      0.5,
    ]
    expect(found.length).toBe(expected.length)
    for (const [i, value] of expected.entries()) expect(found[i]).toBeCloseTo(value, 12)
  })

  test('of one channel an assembly has no spread within and no outer channels; equal losses are taken as a thousandth of a dB', () => {
    const single = { ...layout, assemblyOf: [0, 1, 2], channelOf: [0, 0, 0], assemblies: 3, channels: 1 }
    const least = Math.log(1e-3)
    expect([...lotFeatures([2, 2, 2], single)]).toEqual([2, least, least, least])
  })

  test('of two channels an assembly has a spread within, but no outer channels: both are', () => {
    const pairs = { ...layout, assemblyOf: [0, 0, 1, 1], channelOf: [0, 1, 0, 1], channels: 2 }
    expect(lotFeatures([1, 2, 3, 5], pairs)).toHaveLength(5)
  })
})

describe('a simulated lot', () => {
  // Assembly k loses 10 k, channel c adds c.
  const simulator: LotSimulator = {
    channels: 3,
    tolerances: [],
    isDirect: false,
    simulate: (index, _, out) => {
      for (let c = 0; c < out.length; c++) out[c] = 10 * index + c
    },
  }

  test('takes new assemblies for each lot, each loss from its own assembly and channel', () => {
    const draw = lotDraw(simulator, layout, 1)
    expect([...draw(0, new Float64Array(0))]).toEqual([0, 1, 2, 10, 11, 12])
    expect([...draw(3, new Float64Array(0))]).toEqual([60, 61, 62, 70, 71, 72])
  })

  test('scatters as the measurement does', () => {
    const draw = lotDraw(simulator, { ...layout, standardDb: 0.2 }, 1)
    let [sum, squares] = [0, 0]
    for (let lot = 0; lot < 500; lot++) {
      draw(lot, new Float64Array(0)).forEach((loss, i) => {
        const error = loss - (10 * (2 * lot + Math.floor(i / 3)) + (i % 3))
        sum += error / 3000
        squares += error ** 2 / 3000
      })
    }
    // 3000 normal errors: the mean has a standard error of 0.0037, the deviation one of 0.0026.
    expect(Math.abs(sum)).toBeLessThan(0.015)
    expect(Math.abs(Math.sqrt(squares) - 0.2)).toBeLessThan(0.0105)
  })
})

test('the posterior of a factor that one reading with a normal error tells is that of the textbook', () => {
  // Normal prior of ln 2 and a reading with a standard error of e: the weight of the reading is ln²2 / (ln²2 + e²), and the deviation of
  // the posterior ln 2 e / sqrt(ln²2 + e²) (A. Gelman et al., Bayesian Data Analysis, 2.5, from memory).
  const error = 0.3
  const noise = unitPoints('random', 1, 5)
  const point = new Float64Array(1)
  const table = finish(
    referenceSteps(1, 4000, 7, (lot, factors) => {
      noise.point(lot, point)
      return Float64Array.of(3 + 2 * (Math.log(factors[0]!) + error * normalQuantile(point[0]!)))
    }),
  )
  const prior = PRIOR_LOG_STANDARD
  const weight = prior ** 2 / (prior ** 2 + error ** 2)
  const deviation = (prior * error) / Math.hypot(prior, error)
  for (const reading of [0.8, 0, -0.6]) {
    const [found] = posteriorFactors(table, Float64Array.of(3 + 2 * reading))
    expect(Math.abs(Math.log(found!.factor) - weight * reading)).toBeLessThan(0.025)
    expect(Math.abs(found!.priorShare * prior - deviation)).toBeLessThan(0.015)
    expect(Math.abs(Math.log(found!.low) - (weight * reading - 1.96 * deviation))).toBeLessThan(0.06)
    expect(Math.abs(Math.log(found!.high) - (weight * reading + 1.96 * deviation))).toBeLessThan(0.06)
  }
})
