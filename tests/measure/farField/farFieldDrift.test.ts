// The uncertainty of correlated residuals is that of all explanations by their odds: none, the drift of greatest likelihood with two more
// variances, and drifts too weak to be seen. The likelihoods are those that restrictedLikelihood.test.ts checks by whole matrices.

import { describe, expect, test } from 'vitest'
import { farFieldBacklashRad, farFieldDrift } from '../../../src/measure/farField/farFieldDrift'
import type { FarFieldFit } from '../../../src/measure/farField/farFieldFit'
import { findNoise } from '../../../src/measure/fit/noiseComponents'
import type { OrderedScan } from '../../../src/measure/fit/orderedScan'
import {
  independentVariance,
  restrictedFit,
  varianceThrough,
} from '../../../src/measure/fit/restrictedLikelihood'
import { randomSource } from '../support/synthetic'

const ANGLES = Array.from({ length: 121 }, (_, i) => (i - 60) / 200)
const SIGNAL = ANGLES.map((angle) => Math.exp(-2 * (angle / 0.15) ** 2))
const SLOPE = ANGLES.map((angle, i) => ((4 * angle) / 0.15 ** 2) * (SIGNAL[i] ?? 0))
const linearised = () => ({
  signal: Float64Array.from(SIGNAL),
  columns: [SIGNAL, SLOPE, ANGLES.map(() => 1)].map((each) => Float64Array.from(each)),
})
const fit = { floorPower: 0, peakPower: 1, linearised } as unknown as FarFieldFit
const scanOf = (power: readonly number[], at: readonly number[] = ANGLES): OrderedScan => {
  const both = { at: Float64Array.from(at), power: Float64Array.from(power) }
  return { ...both, taken: both } as unknown as OrderedScan
}
const WEIGHTS = Float64Array.from(ANGLES, (angle, i) => (1 + 5 * angle) * (SIGNAL[i] ?? 0))
const START = { absolute: 0.01, relative: 0.01 }

function noisy(seed: number, step: number) {
  const { normal } = randomSource(seed)
  let gain = 0
  return SIGNAL.map((signal) => {
    gain += step * normal()
    return signal * (1 + gain) + 0.01 * normal()
  })
}

describe('correlated residuals', () => {
  test.each([
    ['independent noise', 3, 0],
    ['a source that drifts', 4, 0.01],
  ])('of %s have the variance of all explanations', (_, seed, step) => {
    const power = noisy(seed, step)
    const model = {
      ...linearised(),
      residuals: Float64Array.from(power, (each, i) => each - (SIGNAL[i] ?? 0)),
      slope: Float64Array.from(SLOPE),
    }
    const found = findNoise(model, START)
    if (found === null) throw new Error('no noise')
    const own = found.independent.components
    const peakNoise = Math.sqrt(independentVariance(own, 1, 0))
    const through = (components: typeof own) => varianceThrough(WEIGHTS, model, components).walks
    const alone = restrictedFit(model, own)?.deviance ?? Number.NaN
    const explanations = [
      [1, 0],
      [Math.exp((found.correlation - 2) / 2), through(found.components)],
      ...[0.15, 0.3, 0.6, 1.2].map((share) => {
        const walking = { ...own, gainStep: share * peakNoise }
        const deviance = restrictedFit(model, walking)?.deviance ?? Number.NaN
        return [(0.25 / 4) * Math.exp((alone - deviance) / 2), through(walking)]
      }),
    ]
    const total = explanations.reduce((sum, [odds = 0]) => sum + odds, 0)
    const variance = explanations.reduce((sum, [odds = 0, each = 0]) => sum + (odds / total) * each, 0)
    const { standardUm, causes } = farFieldDrift(scanOf(power), fit, START, WEIGHTS)
    expect(variance).toBeGreaterThan(0)
    expect(standardUm / Math.sqrt(variance)).toBeCloseTo(1, 9)
    expect(causes.join()).toMatch(step > 0 ? /^the source power drifted/ : /^$/)
  })

  test('of exact numbers are none', () => {
    expect(farFieldDrift(scanOf(SIGNAL), fit, START, WEIGHTS)).toEqual({ standardUm: 0, causes: [] })
  })
})

test('backlash is the axis of the rising less that of the falling readings, where a quarter was taken either way', () => {
  const there = ANGLES.map((angle, i) => ({ angle, i }))
  const moved = (backRad: number, share: number) => {
    const back = there.slice(0, Math.round(share * there.length)).toReversed()
    const all = [...there, ...back]
    // An axis that lies further by δ adds δ times the slope over it.
    const power = all.map(
      ({ i }, k) => (SIGNAL[i] ?? 0) + (k < there.length ? 1 : -1) * (backRad / 2) * (SLOPE[i] ?? 0),
    )
    const own = {
      ...fit,
      linearised: () => ({
        signal: Float64Array.from(all, ({ i }) => SIGNAL[i] ?? 0),
        columns: [SIGNAL, SLOPE].map((column) => Float64Array.from(all, ({ i }) => column[i] ?? 0)),
      }),
    } as unknown as FarFieldFit
    return farFieldBacklashRad(
      scanOf(
        power,
        all.map(({ angle }) => angle),
      ),
      own,
    )
  }
  expect(moved(0.004, 1)).toBeCloseTo(0.004, 12)
  expect(moved(-0.002, 0.5)).toBeCloseTo(-0.002, 12)
  expect(moved(0.004, 0.3)).toBeNull()
  expect(moved(0.004, 0)).toBeNull()
})
