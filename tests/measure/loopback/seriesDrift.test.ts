// The drift of a series against whole matrices, written out and inverted by a general library (mathjs): generalised least squares for each
// explanation, weighed by its restricted likelihood (H. D. Patterson and R. Thompson, Biometrika 58 (1971) 545), and Student's t from
// its density.

import { all, create, type Matrix } from 'mathjs'
import { describe, expect, test } from 'vitest'
import { loopbackLoss } from '../../../src/measure/loopback/loopback'
import { seriesDrift } from '../../../src/measure/loopback/seriesDrift'

const math = create(all ?? {})
const COVERAGE = 0.9545
/** As stated in the module: steps of the source relative to the scatter, and the odds of a source that drifts. */
const STEPS = [0, 1, 2, 4, 8]
const ODDS = 0.6

const logDeterminant = (matrix: Matrix) =>
  ((math.lup(matrix).U as Matrix).toArray() as number[][]).reduce(
    (sum, row, i) => sum + Math.log(Math.abs(row[i] ?? 0)),
    0,
  )

/** Probability within ± t of Student's distribution, by Simpson's rule over its density. */
function within(t: number, freedom: number): number {
  const density = (x: number) => (1 + (x * x) / freedom) ** (-(freedom + 1) / 2)
  const area = (to: number) => {
    const n = 4000
    let sum = density(0) + density(to)
    for (let i = 1; i < n; i++) sum += (i % 2 === 1 ? 4 : 2) * density((i * to) / n)
    return (sum * to) / (3 * n)
  }
  // x = tan a takes the whole line in.
  const whole = () => {
    const n = 4000
    const f = (a: number) => density(Math.tan(a)) / Math.cos(a) ** 2
    let sum = f(0)
    for (let i = 1; i < n; i++) sum += (i % 2 === 1 ? 4 : 2) * f((i * Math.PI) / 2 / n)
    return (sum * Math.PI) / 2 / (3 * n)
  }
  return area(t) / whole()
}

function byMatrices(
  residuals: readonly number[],
  columns: readonly (readonly number[])[],
  sizes: readonly number[],
  step: number,
) {
  const n = residuals.length
  const p = columns.length
  // The reference is the reading before the first, so that the level has one step more than the readings among each other.
  const v = math.matrix(
    residuals.map((_, i) =>
      residuals.map((_value, j) => (i === j ? (sizes[i] ?? 0) ** 2 : 0) + step ** 2 * Math.min(i, j)),
    ),
  )
  const weight = math.inv(v)
  const x = math.transpose(math.matrix(columns.map((column) => [...column])))
  const gram = math.multiply(math.multiply(math.transpose(x), weight), x) as Matrix
  const moment = math.multiply(math.transpose(x), math.multiply(weight, [...residuals])) as Matrix
  const inverse = math.inv(gram)
  const shift = (math.multiply(inverse, moment) as Matrix).toArray() as number[]
  const square =
    Number(math.dot([...residuals], math.multiply(weight, [...residuals]) as Matrix)) -
    Number(math.dot(shift, moment))
  const scale = square / (n - p)
  const deviance = logDeterminant(v) + logDeterminant(gram) + (n - p) * Math.log(scale)
  const variance = (inverse.toArray() as number[][]).map(
    (row, j) => scale * ((row[j] ?? 0) + (j === 0 ? step ** 2 : 0)),
  )
  return { shift, deviance, standards: variance.map(Math.sqrt) }
}

const LENGTHS = [0.5, 3, 1, 4, 2, 5, 1.5]
const RESIDUALS = [-0.05, -0.02, -0.03, 0.02, 0.01, 0.03, 0.04]
const LEVEL = LENGTHS.map(() => 1)
const SCATTERS = [
  { sizes: LEVEL, odds: 1 },
  { sizes: [0.6, 1.1, 0.7, 1.3, 0.9, 1.5, 0.8], odds: 2 },
]

test('shift and widening are those of all explanations by their weights', () => {
  const columns = [LEVEL, LENGTHS]
  const explanations = SCATTERS.flatMap(({ sizes, odds }) =>
    STEPS.map((step) => ({
      ...byMatrices(RESIDUALS, columns, sizes, step),
      odds: odds * (step === 0 ? 1 : ODDS / 4),
    })),
  )
  const lowest = Math.min(...explanations.map(({ deviance }) => deviance))
  const weights = explanations.map(({ odds, deviance }) => odds * Math.exp((lowest - deviance) / 2))
  const total = weights.reduce((sum, each) => sum + each, 0)
  const found = seriesDrift(
    RESIDUALS,
    columns.map((each) => Float64Array.from(each)),
    SCATTERS.map(({ sizes, odds }) => ({ sizes: Float64Array.from(sizes), odds })),
    COVERAGE,
  )
  if (found === null) throw new Error('no drift')
  const freedom = LENGTHS.length - 2
  for (const j of [0, 1]) {
    const mean = explanations.reduce(
      (sum, { shift }, m) => sum + ((weights[m] ?? 0) / total) * (shift[j] ?? 0),
      0,
    )
    expect(found.shift[j]).toBeCloseTo(mean, 9)
    // The half width holds the stated probability of the mixture about its mean.
    const first = explanations[0]?.standards[j] ?? Number.NaN
    let [low, high] = [0, 20]
    for (let i = 0; i < 50; i++) {
      const middle = (low + high) / 2
      if (within(middle, freedom) < COVERAGE) low = middle
      else high = middle
    }
    const half = (found.factor[j] ?? Number.NaN) * low * first
    const held = explanations.reduce((sum, { shift, standards }, m) => {
      const [offset, standard] = [(shift[j] ?? 0) - mean, standards[j] ?? 1]
      const [above, below] = [(half - offset) / standard, (half + offset) / standard]
      const side = (t: number) => Math.sign(t) * (within(Math.abs(t), freedom) / 2)
      return sum + ((weights[m] ?? 0) / total) * (side(above) + side(below))
    }, 0)
    expect(held).toBeCloseTo(COVERAGE, 4)
  }
})

test('a drift is noted where it is twice as likely in its logarithm, and none is sought in fewer than five readings or exact ones', () => {
  const of = (residuals: readonly number[]) =>
    seriesDrift(
      residuals,
      [new Float64Array(residuals.length).fill(1)],
      [{ sizes: new Float64Array(residuals.length).fill(1), odds: 1 }],
      COVERAGE,
    )
  expect(of([-0.3, -0.2, -0.1, 0.1, 0.2, 0.3])?.isNoted).toBe(true)
  expect(of([-0.3, 0.2, -0.1, 0.3, -0.2, 0.1])?.isNoted).toBe(false)
  expect(of([-0.3, -0.1, 0.1, 0.3])).toBeNull()
  expect(of([0, 0, 0, 0, 0])).toBeNull()
})

describe('scatter in proportion to the loss', () => {
  const lengthsCm = [0.2, 8, 0.5, 6, 0.3, 7, 0.4, 5]
  const line = lengthsCm.map((lengthCm) => 1 + 3 * lengthCm)
  const signs = [1, -1, -1, 1, -1, 1, 1, -1]
  const of = (errors: readonly number[]) =>
    loopbackLoss({
      points: lengthsCm.map((lengthCm, i) => ({ lengthCm, lossDb: (line[i] ?? 0) + (errors[i] ?? 0) })),
    })

  test('makes the short lengths count for more, so that the facet is known better than by equal scatter', () => {
    const proportional = of(line.map((loss, i) => 0.02 * loss * (signs[i] ?? 0)))
    const equal = of(line.map((_, i) => 0.2 * (signs[i] ?? 0)))
    const relative = ({ facetLossDb, residualRmsDb }: typeof equal) =>
      (facetLossDb.plusMinus ?? 0) / residualRmsDb
    expect(relative(proportional)).toBeLessThan(0.6 * relative(equal))
    expect(Math.abs(proportional.facetLossDb.value - 0.5)).toBeLessThan(0.02)
  })

  test('leaves residuals that are the losses less the stated line', () => {
    const losses = line.map((loss, i) => loss + 0.03 * (signs[i] ?? 0))
    const found = of(losses.map((loss, i) => loss - (line[i] ?? 0)))
    const { facetLossDb, propagationDbPerCm, residualsDb, residualRmsDb } = found
    const expected = losses.map(
      (loss, i) => loss - 2 * facetLossDb.value - propagationDbPerCm.value * (lengthsCm[i] ?? 0),
    )
    for (const [i, each] of expected.entries()) expect(residualsDb[i]).toBeCloseTo(each, 12)
    expect(residualRmsDb).toBeCloseTo(Math.hypot(...expected) / Math.sqrt(expected.length), 12)
  })

  test('cannot be told where there is no loss', () => {
    const none = loopbackLoss({ points: lengthsCm.map((lengthCm) => ({ lengthCm, lossDb: 0 })) })
    expect(none.facetLossDb.value).toBe(0)
    expect(none.propagationDbPerCm.plusMinus).toBe(0)
  })
})
