// Factors of tolerances from lots whose features follow them exactly, half, or not at all.

import { describe, expect, test } from 'vitest'
import { posteriorFactors, referenceSteps } from '../../../src/analysis/production/tolerancePosterior'
import { finish } from '../../../src/numerics/steps'

const LOTS = 1024
const COUNT = 3
type Features = (logs: Float64Array, lot: number) => readonly number[]
const tableOf = (features: Features) =>
  finish(
    referenceSteps(COUNT, LOTS, 7, (lot, factors) => Float64Array.from(features(factors.map(Math.log), lot))),
  )

describe('simulated lots', () => {
  const table = tableOf((logs) => [...logs])

  test('have factors whose logarithms are normal about 0, each independent of the others', () => {
    const mean = (of: (logs: Float64Array) => number) =>
      table.logFactors.reduce((sum, logs) => sum + of(logs), 0) / LOTS
    for (let j = 0; j < COUNT; j++) {
      expect(mean((logs) => logs[j] as number)).toBeCloseTo(0, 2)
      const sigma = Math.sqrt(mean((logs) => (logs[j] as number) ** 2))
      // Fourth moment of a normal distribution: three times the square of the second.
      expect(mean((logs) => (logs[j] as number) ** 4) / sigma ** 4).toBeCloseTo(3, 0)
    }
    const sigma2 = mean((logs) => (logs[0] as number) ** 2)
    expect(Math.abs(mean((logs) => (logs[0] as number) * (logs[1] as number))) / sigma2).toBeLessThan(0.05)
  })
})

describe('the posterior of a factor', () => {
  test('is the factor itself where the features follow it exactly, whatever their scale and level', () => {
    const features: Features = ([a = 0, b = 0, c = 0]) => [3 * a + 5, -200 * b + 0.7 * a, 0.01 * c - 2 * a]
    const table = tableOf(features)
    const logs = Float64Array.of(0.2, -0.15, 0.05)
    const found = posteriorFactors(table, Float64Array.from(features(logs, 0)))
    for (const [j, factor] of found.entries()) {
      expect(factor.factor).toBeCloseTo(Math.exp(logs[j] as number), 6)
      expect(factor.low).toBeCloseTo(Math.exp(logs[j] as number), 6)
      expect(factor.high).toBeCloseTo(Math.exp(logs[j] as number), 6)
      expect(factor.priorShare).toBeLessThan(1e-4)
    }
    expect(found.map(({ verdict }) => verdict)).toEqual(['wider', 'tighter', 'wider'])
  })

  test('is the prior where the features say nothing of it', () => {
    // One feature follows the first factor, the other is a noise of its own.
    const table = tableOf(([a = 0], lot) => [a, Math.sin(1000 * lot)])
    const [first, second] = posteriorFactors(table, Float64Array.of(0, 0))
    expect(first?.priorShare).toBeLessThan(1e-3)
    expect(first?.verdict).toBe('as stated')
    expect(second?.verdict).toBe('not distinguishable')
    expect(second?.priorShare).toBeGreaterThan(0.8)
    expect(second?.priorShare).toBeLessThan(1.2)
    expect(second?.low).toBeLessThan(1)
    expect(second?.high).toBeGreaterThan(1)
    expect(second?.factor).toBeGreaterThan(second?.low ?? 9)
  })

  test('is as narrow as theory says where a feature carries a noise as wide as the prior', () => {
    // Two equal normals: what is left of the first once their sum is known has 1 / sqrt 2 of its standard deviation.
    const table = tableOf(([a = 0, b = 0]) => [a + b])
    const [first] = posteriorFactors(table, Float64Array.of(0.1))
    expect(first?.priorShare).toBeGreaterThan(Math.SQRT1_2 - 0.1)
    expect(first?.priorShare).toBeLessThan(Math.SQRT1_2 + 0.1)
    expect(Math.log(first?.factor ?? 0)).toBeCloseTo(0.05, 1)
    // 95 % of a normal lie within 1.96 standard deviations: 2 * 1.96 * ln 2 / sqrt 2.
    const width = Math.log(first?.high ?? 0) - Math.log(first?.low ?? 0)
    expect(width / (2 * 1.96 * Math.LN2 * Math.SQRT1_2)).toBeCloseTo(1, 0.8)
    expect(Math.log(first?.high ?? 0)).toBeGreaterThan(0.6)
    expect(Math.log(first?.low ?? 9)).toBeLessThan(-0.6)
  })
})
