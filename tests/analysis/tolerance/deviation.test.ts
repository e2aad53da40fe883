import { describe, expect, test } from 'vitest'
import { deviationOf, standardDeviationOf } from '../../../src/analysis/tolerance/deviation'
import { DISTRIBUTIONS } from '../../../src/model/quantity/quantity'
import { NO_SPREAD, type Spread, spreadEnds } from '../../../src/model/quantity/spread'
import { sobolSequence } from '../../../src/numerics/random/sobol'
import reference from '../../reference/data/yield.json'

const spread = (change: Partial<Spread>): Spread => ({ ...NO_SPREAD, halfWidth: 0.5, ...change })

describe.each(DISTRIBUTIONS.map((distribution) => ({ distribution })))(
  '$distribution',
  ({ distribution }) => {
    test.each([1, 2, 3])('samples at coverage %i have the stated standard deviation', (coverage) => {
      const own = spread({ distribution, coverage })
      const deviation = deviationOf(own)
      const points = sobolSequence(1, 7)
      const u = new Float64Array(1)
      let [sum, squares] = [0, 0]
      const count = 2 ** 16
      for (let i = 0; i < count; i++) {
        points.fill(i, 1, u)
        const draw = deviation(u[0] ?? 0)
        sum += draw
        squares += draw * draw
      }
      const found = Math.sqrt(squares / count - (sum / count) ** 2)
      expect(Math.abs(found - standardDeviationOf(own))).toBeLessThan(2e-4)
    })

    test('samples rise with u and, except for the normal, stay within the limits', () => {
      const own = spread({ distribution })
      const deviation = deviationOf(own)
      const [low, high] = spreadEnds(own)
      let before = Number.NEGATIVE_INFINITY
      for (let u = 0.001; u < 1; u += 0.01) {
        const draw = deviation(u)
        expect(draw).toBeGreaterThanOrEqual(before)
        before = draw
        if (distribution !== 'normal') expect(draw >= low && draw <= high).toBe(true)
      }
    })
  },
)

// JCGM 100:2008, 4.3.7 and 4.3.9: a / sqrt(3) and a / sqrt(6).
test('a rectangular limit of 0.5 has standard uncertainty 0.288675, a triangular one 0.204124', () => {
  expect(standardDeviationOf(spread({ distribution: 'uniform' }))).toBeCloseTo(0.2886751345948129, 12)
  expect(standardDeviationOf(spread({ distribution: 'triangular' }))).toBeCloseTo(0.5 / Math.sqrt(6), 12)
})

test.each(reference.truncated)(
  'a normal cut off at $coverage sigma agrees with scipy.stats.truncnorm at $u',
  (entry) => {
    const own = spread({
      distribution: 'truncated normal',
      coverage: entry.coverage,
      halfWidth: entry.coverage,
    })
    expect(deviationOf(own)(entry.u)).toBeCloseTo(entry.value, 10)
    expect(standardDeviationOf(own)).toBeCloseTo(entry.sd, 10)
  },
)

test('a one-sided tolerance lies above or below the value only', () => {
  expect(deviationOf(spread({ distribution: 'one-sided' }))(0.25)).toBe(0.125)
  expect(deviationOf(spread({ distribution: 'one-sided', side: 'below' }))(0.25)).toBe(-0.375)
})
