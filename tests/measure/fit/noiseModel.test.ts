import { all, create } from 'mathjs'
import { describe, expect, test } from 'vitest'
import { noiseSigma, residualNoise, scanNoise } from '../../../src/measure/fit/noiseModel'

// Where every squared residual is the variance itself, the normal likelihood is highest at the truth in every term (Gibbs'
// inequality), so that the sizes come back exactly.
const LEVEL = Float64Array.from([0, 0.1, -0.3, 1, -2, 4, 3, -1.5, 0.7, 0.02])
const exact = (absolute: number, relative: number, factor = 1) =>
  LEVEL.map(
    (level, i) => factor * (i % 2 === 0 ? 1 : -1) * Math.sqrt(absolute ** 2 + (relative * level) ** 2),
  )

describe('noise of residuals', () => {
  test.each([
    [0.01, 0.02],
    [0.5, 0.001],
    [1e-4, 0.3],
  ])('of %s and %s of the level is found with these sizes', (absolute, relative) => {
    const found = residualNoise(exact(absolute, relative), LEVEL, 0)
    expect(found.absolute / absolute).toBeCloseTo(1, 3)
    expect(found.relative / relative).toBeCloseTo(1, relative < 0.01 ? 0 : 3)
    for (const level of [0, 1, -4])
      expect(noiseSigma(found, level) / Math.hypot(absolute, relative * level)).toBeCloseTo(1, 3)
  })

  test('is larger by what a fit of p parameters took from n residuals: sqrt(n / (n - p))', () => {
    const found = residualNoise(exact(0.01, 0.02), LEVEL, 4)
    expect(found.absolute).toBeCloseTo(0.01 * Math.sqrt(10 / 6), 5)
    expect(found.relative).toBeCloseTo(0.02 * Math.sqrt(10 / 6), 5)
    // Of as many parameters as residuals nothing is known: one residual is left.
    expect(residualNoise(exact(0.01, 0.02), LEVEL, 10).absolute).toBeCloseTo(0.01 * Math.sqrt(10), 5)
  })

  test('is none without a level or without residuals', () => {
    const none = { absolute: 0, relative: 0 }
    expect(residualNoise(exact(0.01, 0.02), new Float64Array(10), 0)).toEqual(none)
    expect(residualNoise(new Float64Array(10), LEVEL, 0)).toEqual(none)
  })
})

test('noise of a scan is that of what each point differs by from the cubic through its four neighbours', () => {
  const math = create(all ?? {})
  const at = [0, 0.7, 1.1, 2, 3.2, 3.5, 4.4, 5.1, 6, 7.3, 7.9]
  const power = [0.1, 0.4, 0.9, 2.1, 3.9, 4.2, 3.1, 2.4, 0.8, 0.5, 0.2]
  const [residuals, level] = [[], []] as [number[], number[]]
  for (let i = 2; i < at.length - 2; i++) {
    const four = [i - 2, i - 1, i + 1, i + 2]
    // Weights of the neighbours: of the powers 1, x, x², x³ each is interpolated exactly.
    const weights = (
      math.lusolve(
        [0, 1, 2, 3].map((order) => four.map((j) => (at[j]! - at[i]!) ** order)),
        [1, 0, 0, 0],
      ) as number[][]
    ).flat()
    const between = weights.reduce((sum, weight, k) => sum + weight * power[four[k]!]!, 0)
    level.push(between)
    residuals.push(
      (power[i]! - between) / Math.sqrt(1 + weights.reduce((sum, weight) => sum + weight ** 2, 0)),
    )
  }
  const expected = residualNoise(Float64Array.from(residuals), level, 0)
  const found = scanNoise(Float64Array.from(at), Float64Array.from(power))
  expect(found.absolute / expected.absolute).toBeCloseTo(1, 9)
  expect(found.relative / expected.relative).toBeCloseTo(1, 9)
  expect(scanNoise(Float64Array.of(1, 2, 3, 4), Float64Array.of(1, 2, 1, 0))).toEqual({
    absolute: 0,
    relative: 0,
  })
})
