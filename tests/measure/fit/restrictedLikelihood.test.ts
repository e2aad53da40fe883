// The filter of the restricted likelihood against whole matrices, written out and inverted by a general library (mathjs):
// H. D. Patterson and R. Thompson, Biometrika 58 (1971) 545. Steps between readings i and j are shared by all later ones, so that their
// covariance is min(i, j) steps, counted from 0.

import { all, create, type Matrix } from 'mathjs'
import { describe, expect, test } from 'vitest'
import {
  type LinearModel,
  type NoiseComponents,
  restrictedFit,
  varianceThrough,
} from '../../../src/measure/fit/restrictedLikelihood'

const math = create(all ?? {})

const SIGNAL = [0.1, 0.4, 0.9, 1, 0.7, 0.2, 0.05]
const SLOPE = [0.2, 0.5, 0.3, 0, -0.4, -0.5, -0.1]
const RESIDUALS = [0.01, -0.02, 0.03, 0.012, -0.015, 0.004, -0.009]
const PLACES = [-3, -2, -1, 0, 1, 2, 3]

const MODEL: LinearModel = {
  residuals: Float64Array.from(RESIDUALS),
  columns: [PLACES.map(() => 1), SIGNAL, PLACES.map((x) => 100 * x)].map((each) => Float64Array.from(each)),
  signal: Float64Array.from(SIGNAL),
  slope: Float64Array.from(SLOPE),
}

const COMPONENTS: Readonly<Record<string, NoiseComponents>> = {
  'noise of each reading alone': { absolute: 0.01, relative: 0.02, jitter: 0.03, gainStep: 0, baseStep: 0 },
  'a source that drifts': { absolute: 0.01, relative: 0, jitter: 0, gainStep: 0.02, baseStep: 0 },
  'a level that drifts': { absolute: 0.01, relative: 0, jitter: 0, gainStep: 0, baseStep: 0.015 },
  'all of them': { absolute: 0.01, relative: 0.02, jitter: 0.03, gainStep: 0.02, baseStep: 0.015 },
}

function covarianceOf(c: NoiseComponents, least = 0): { readonly own: Matrix; readonly walks: Matrix } {
  const entries = (of: (i: number, j: number) => number) =>
    math.matrix(SIGNAL.map((_, i) => SIGNAL.map((_value, j) => of(i, j))))
  const s = (i: number) => SIGNAL[i] ?? 0
  return {
    own: entries((i, j) =>
      i === j ? c.absolute ** 2 + (c.relative * s(i)) ** 2 + (c.jitter * (SLOPE[i] ?? 0)) ** 2 + least : 0,
    ),
    walks: entries((i, j) => (c.gainStep ** 2 * s(i) * s(j) + c.baseStep ** 2) * Math.min(i, j)),
  }
}

/** By the diagonal of the upper factor: a determinant this small is rounded to nothing. */
const logDeterminant = (matrix: Matrix) =>
  ((math.lup(matrix).U as Matrix).toArray() as number[][]).reduce(
    (sum, row, i) => sum + Math.log(Math.abs(row[i] ?? 0)),
    0,
  )

/** Generalised least squares by whole matrices. */
function byMatrices(c: NoiseComponents, least: number, lastStandard: number) {
  const { own, walks } = covarianceOf(c, least)
  const v = math.add(own, walks) as Matrix
  const weight = math.inv(v)
  const x = math.transpose(math.matrix(MODEL.columns.map((column) => Array.from(column))))
  const gram = math.multiply(math.multiply(math.transpose(x), weight), x) as Matrix
  const p = MODEL.columns.length
  gram.set([p - 1, p - 1], Number(gram.get([p - 1, p - 1])) + lastStandard ** -2)
  const weighted = math.multiply(weight, RESIDUALS) as Matrix
  const moment = math.multiply(math.transpose(x), weighted) as Matrix
  const covariance = math.inv(gram)
  const shift = math.multiply(covariance, moment) as Matrix
  const freedom = RESIDUALS.length - p
  const square = Number(math.dot(RESIDUALS, weighted)) - Number(math.dot(shift, moment))
  const scale = square / freedom
  return {
    deviance: logDeterminant(v) + logDeterminant(gram) + freedom * Math.log(scale),
    scale,
    shift: shift.toArray() as number[],
    covariance: (math.multiply(covariance, scale) as Matrix).toArray().flat() as number[],
  }
}

const close = (found: ArrayLike<number>, expected: readonly number[]) => {
  expect(found.length).toBe(expected.length)
  for (const [i, value] of expected.entries()) expect((found[i] ?? 0) / value, `entry ${i}`).toBeCloseTo(1, 8)
}

describe.each(Object.entries(COMPONENTS))('with %s', (_, components) => {
  test.each([
    ['', 0, Number.POSITIVE_INFINITY],
    [', a least variance', 4e-5, Number.POSITIVE_INFINITY],
    [', a last parameter known beforehand', 0, 2e-5],
  ])('likelihood, parameters and covariance are those of whole matrices%s', (_title, least, lastStandard) => {
    const fit = restrictedFit(MODEL, components, least, lastStandard)
    const expected = byMatrices(components, least, lastStandard)
    expect(fit?.deviance).toBeCloseTo(expected.deviance, 8)
    expect((fit?.scale ?? 0) / expected.scale).toBeCloseTo(1, 8)
    close(fit?.shift ?? [], expected.shift)
    close(fit?.covariance ?? [], expected.covariance)
  })

  test('the variance of a weighted sum is that of whole matrices', () => {
    const weights = [0.3, -0.2, 0.5, 0.1, -0.4, 0.25, 0.6]
    const { own, walks } = covarianceOf(components)
    const through = (matrix: Matrix) => Number(math.dot(weights, math.multiply(matrix, weights) as Matrix))
    const found = varianceThrough(Float64Array.from(weights), MODEL, components)
    expect(found.independent).toBeCloseTo(through(own), 14)
    expect(found.walks).toBeCloseTo(through(walks), 14)
  })
})

test('parameters that the readings cannot tell apart have no fit', () => {
  const [constant, signal] = MODEL.columns
  const twice = { ...MODEL, columns: [constant, signal, signal].flatMap((each) => each ?? []) }
  const components = { absolute: 0.01, relative: 0, jitter: 0, gainStep: 0, baseStep: 0 }
  expect(restrictedFit(twice, components)).toBeNull()
})
