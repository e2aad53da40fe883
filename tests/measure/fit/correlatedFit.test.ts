// The average over explanations, written out for a straight model: weights of K. P. Burnham and D. R. Anderson, Model Selection and
// Multimodel Inference (2002), eq. (4.1), from fits that restrictedLikelihood.test.ts checks one by one.

import { describe, expect, test } from 'vitest'
import { correlatedFit, type Fault } from '../../../src/measure/fit/correlatedFit'
import { mixtureHalfWidth } from '../../../src/measure/fit/mixtureInterval'
import { findNoise } from '../../../src/measure/fit/noiseComponents'
import { oneSided } from '../../../src/measure/fit/oneSided'
import {
  type LinearModel,
  type RestrictedFit,
  restrictedFit,
} from '../../../src/measure/fit/restrictedLikelihood'
import { normalProbability } from '../../../src/numerics/normal'
import { randomSource } from '../support/synthetic'

const N = 30
const X = Array.from({ length: N }, (_, i) => ((7 * i) % N) / 5 - 3)
const SIGNAL = Float64Array.from(X, (x) => 3 * Math.exp(-2 * (x / 2.2) ** 2))
const COLUMNS = [SIGNAL.map(() => 1), SIGNAL.map((s) => s / 3), SIGNAL.map((s, i) => -s * X[i]!)]
const TRUE = [0.2, 3, 0.05]
const START = { absolute: 0.01, relative: 0.001 }
/** Student's t of 95.45 % for 30 − 3 − 2 degrees of freedom, from the tables, over 2. */
const INFLATION = 2.1051 / 2

const linearise =
  (data: Float64Array) =>
  (p: Float64Array): LinearModel => ({
    residuals: data.map((y, i) => y - COLUMNS.reduce((sum, column, j) => sum + p[j]! * column[i]!, 0)),
    columns: COLUMNS,
    signal: SIGNAL,
    slope: COLUMNS[2]!,
  })

const shapes = {
  slope: Float64Array.from(X, (x) => 3 * x),
  near: Float64Array.from(X, (x) => 3 * Math.exp(-2 * ((x - 1.5) / 0.8) ** 2)),
  far: Float64Array.from(X, (x) => 3 * Math.exp(-2 * ((x + 2) / 0.8) ** 2)),
}
const FAULTS: readonly Fault[] = [
  { cause: 'sloped', alternatives: [shapes.slope], standard: 0.01, odds: 0.5, noted: 7, isLight: false },
  {
    cause: 'lit',
    alternatives: [shapes.near, shapes.far],
    standard: 0.02,
    odds: 0.4,
    noted: 7.7,
    isLight: true,
  },
]

interface Explanation {
  readonly fit: Pick<RestrictedFit, 'shift' | 'covariance'>
  readonly merit: number
  readonly cause: string
  readonly isNoted: boolean
  readonly isOneShape: boolean
}

function byHand(data: Float64Array, faults: readonly Fault[]) {
  // The noise is sought once more at the solution, from the residuals there.
  const moved = (p: readonly number[], shift: Float64Array) => p.map((value, j) => value + shift[j]!)
  const at = (p: readonly number[]) => linearise(data)(Float64Array.from(p))
  const begun = at([0, 2, 0])
  const near = moved([0, 2, 0], restrictedFit(begun, findNoise(begun, START)!.independent.components)!.shift)
  const noise = findNoise(at(near), START)!
  const own = noise.independent.components
  const p = moved(near, restrictedFit(at(near), own)!.shift)
  const model = at(p)
  const alone = restrictedFit(model, own)!
  const plain = { isNoted: false, isOneShape: false }
  // The source's drift changes what is in proportion to the signal, whose greatest value is 3.
  const isSource = 3 * noise.components.gainStep > noise.components.baseStep
  const drift = 'the source power drifted or the stage moved unevenly'
  const explanations: Explanation[] = [
    { ...plain, fit: alone, merit: 0, cause: '' },
    {
      ...plain,
      fit: restrictedFit(model, noise.components)!,
      merit: noise.correlation - 4, // two more variances, H. Akaike
      cause: isSource ? drift : 'the background is uneven or the mode is not of the fitted shape',
      isNoted: noise.correlation > 2.5,
    },
  ]
  const hidden = restrictedFit(model, {
    ...own,
    relative: 0,
    jitter: 0,
    gainStep: (3.2 * own.absolute) / Math.max(...SIGNAL),
    baseStep: 0,
  })!
  explanations.push({
    ...plain,
    fit: hidden,
    merit: alone.deviance - hidden.deviance + 2 * Math.log(10),
    cause: drift,
  })
  for (const { cause, alternatives, standard, odds, noted, isLight } of faults) {
    for (const column of alternatives) {
      const whole = restrictedFit({ ...model, columns: [...COLUMNS, column] }, own, 0, standard)!
      const cut = isLight ? oneSided(whole) : { fit: whole, evidence: 1 }
      if (cut === null) continue
      // Sums of squares of residuals: scale times degrees of freedom.
      const ratio = N * Math.log((alone.scale * (N - 3)) / (whole.scale * (N - 4)))
      const occam = 2 * Math.log(standard / Math.sqrt(whole.covariance.at(-1)!))
      explanations.push({
        fit: cut.fit,
        merit:
          ratio - occam - 2 * Math.log(alternatives.length) + 2 * Math.log(odds) + 2 * Math.log(cut.evidence),
        cause,
        isNoted: ratio > noted && (!isLight || whole.shift.at(-1)! > 0),
        isOneShape: alternatives.length === 1,
      })
    }
  }
  const best = Math.max(...explanations.map(({ merit }) => merit))
  const raw = explanations.map(({ merit }) => Math.exp((merit - best) / 2))
  const weights = raw.map((each) => each / raw.reduce((sum, one) => sum + one, 0))
  const isKnown = explanations.some(({ isOneShape, merit }) => isOneShape && merit === best)
  const results = [0, 1, 2].map((j) => {
    const mean = explanations.reduce((sum, { fit }, m) => sum + weights[m]! * fit.shift[j]!, 0)
    const parts = explanations.map(({ fit }, m) => ({
      weight: weights[m]!,
      offset: fit.shift[j]! - mean,
      standard: INFLATION * Math.sqrt(fit.covariance[j * (fit.shift.length + 1)]!),
    }))
    const spread = parts.reduce((sum, { weight, offset }) => sum + weight * offset ** 2, 0)
    const widest = Math.max(
      0,
      ...parts.filter((_, m) => explanations[m]!.isNoted && !isKnown).map(({ standard }) => standard ** 2),
    )
    const noted = widest > 0 ? 2 * Math.sqrt(widest + INFLATION ** 2 * spread) : 0
    return {
      value: p[j]! + mean,
      standard: Math.max(noted, mixtureHalfWidth(parts, 0.9545, normalProbability)) / 2,
    }
  })
  const causes = explanations
    .filter(({ isNoted }) => isNoted)
    .sort((a, b) => b.merit - a.merit)
    .map(({ cause }) => cause)
  return { results, causes: [...new Set(causes)], own, alone, noise, weights }
}

function dataOf(seed: number, added: (i: number) => number, walk = 0, base = 0): Float64Array {
  const { normal } = randomSource(seed)
  let [gain, level] = [0, 0]
  return Float64Array.from(X, (_, i) => {
    gain += walk * normal()
    level += base * normal()
    const model = TRUE.reduce((sum, p, j) => sum + p * COLUMNS[j]![i]!, 0)
    return model + gain * SIGNAL[i]! + level + added(i) + 0.01 * normal()
  })
}

describe('a fit over all explanations', () => {
  test.each([
    ['noise alone', dataOf(1, () => 0), FAULTS],
    ['a slope, no fault in question', dataOf(5, (i) => 0.006 * shapes.slope[i]!), []],
    ['a source that drifts', dataOf(13, () => 0, 0.03), FAULTS],
    ['a level that drifts', dataOf(4, () => 0, 0, 0.03), FAULTS],
    ['a slope', dataOf(5, (i) => 0.006 * shapes.slope[i]!), FAULTS],
    ['a weak slope', dataOf(6, (i) => 0.0015 * shapes.slope[i]!), FAULTS],
    ['light beside the peak', dataOf(7, (i) => 0.02 * shapes.far[i]!), FAULTS],
    ['a dark place beside the peak', dataOf(8, (i) => -0.02 * shapes.far[i]!), FAULTS],
    ['a slope and light', dataOf(9, (i) => 0.005 * shapes.slope[i]! + 0.02 * shapes.near[i]!), FAULTS],
  ])('is that of its weights: %s', (_, data, faults) => {
    const fit = correlatedFit([0, 2, 0], linearise(data), START, () => faults)!
    const expected = byHand(data, faults)
    expected.results.forEach(({ value, standard }, j) => {
      expect(fit.parameters[j]! / value).toBeCloseTo(1, 3)
      expect(fit.standards[j]! / standard).toBeCloseTo(1, 3)
      expect(
        fit.independentStandards[j]! / (INFLATION * Math.sqrt(expected.alone.covariance[4 * j]!)),
      ).toBeCloseTo(1, 3)
    })
    expect(fit.causes).toEqual(expected.causes)
    expect(fit.degreesOfFreedom).toBe(25)
    for (const [name, size] of Object.entries(expected.noise.components))
      expect(fit.noise[name as keyof typeof fit.noise], name).toBeCloseTo(size, 5)
  })

  test('names what is there', () => {
    const causes = (data: Float64Array) =>
      correlatedFit([0, 2, 0], linearise(data), START, () => FAULTS)?.causes ?? []
    expect(causes(dataOf(3, () => 0, 0.03))[0]).toMatch(/^the source power drifted/)
    expect(causes(dataOf(4, () => 0, 0, 0.03))[0]).toMatch(/^the background is uneven/)
    expect(causes(dataOf(5, (i) => 0.006 * shapes.slope[i]!))[0]).toBe('sloped')
    expect(causes(dataOf(7, (i) => 0.02 * shapes.far[i]!))[0]).toBe('lit')
    expect(causes(dataOf(8, (i) => -0.02 * shapes.far[i]!))).not.toContain('lit')
    expect(causes(dataOf(2, () => 0))).toEqual([])
  })

  test('is none of parameters that the readings cannot tell apart, or that run away', () => {
    const data = dataOf(1, () => 0)
    const twice = (p: Float64Array): LinearModel => ({
      ...linearise(data)(p),
      columns: [COLUMNS[1]!, COLUMNS[1]!, COLUMNS[2]!],
    })
    expect(correlatedFit([0, 2, 0], twice, START)).toBeNull()
    const lost = (p: Float64Array): LinearModel => ({
      ...linearise(data)(p),
      residuals: data.map(() => (p[0] === 0 ? 1 : Number.NaN)),
    })
    expect(correlatedFit([0, 2, 0], lost, START)).toBeNull()
  })
})
