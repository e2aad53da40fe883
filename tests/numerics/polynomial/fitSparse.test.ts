// The fit against the line of weighted least squares in closed form: P. R. Bevington, Data Reduction and Error Analysis (1969),
// ch. 6 (from memory), with weights w² where residuals are multiplied by w.

import { expect, test } from 'vitest'
import {
  exchanged,
  fitSparse,
  isFirstOfBoth,
  simplexOrders,
} from '../../../src/numerics/polynomial/sparseChebyshev'
import { sparseValue } from '../../../src/numerics/polynomial/sparseValue'

test.each([4, 5, 6, 7, 8])(
  'a line through %i scattered points is that of weighted least squares',
  (count) => {
    const x = Array.from({ length: count }, (_, i) => Math.sin(3 * i + 1))
    const y = x.map((_, i) => Math.cos(5 * i))
    const w = x.map((_, i) => 1 + (i % 3))
    const { coefficients } = fitSparse(
      { from: [-1], to: [1] },
      [[0], [1]],
      x.map((each) => [each]),
      y,
      w,
    )
    const sum = (of: (i: number) => number) => x.reduce((total, _, i) => total + w[i]! ** 2 * of(i), 0)
    const [s, sx, sy] = [sum(() => 1), sum((i) => x[i]!), sum((i) => y[i]!)]
    const [sxx, sxy] = [sum((i) => x[i]! ** 2), sum((i) => x[i]! * y[i]!)]
    const slope = (s * sxy - sx * sy) / (s * sxx - sx * sx)
    expect(coefficients[1]).toBeCloseTo(slope, 8)
    expect(coefficients[0]).toBeCloseTo((sy - slope * sx) / s, 8)
  },
)

test('of variables that change places one coefficient each serves a term and the exchanged one', () => {
  // T1 = x, T2 = 2 x^2 - 1, so that x^2 + y^2 - 1 = (T2(x) + T2(y)) / 2; M. Abramowitz and I. Stegun, table 22.3 (from memory).
  const f = ([x = 0, y = 0, z = 0]: readonly number[]) => x * x + y * y - 1 + 3 * x * y + 0.5 * z * (x + y)
  const wanted = [
    [0, 0, 0],
    [2, 0, 0],
    [1, 1, 0],
    [1, 0, 1],
  ]
  const points = Array.from({ length: 6 }, (_, i) => [
    Math.sin(3 * i + 1),
    Math.cos(5 * i),
    Math.sin(7 * i + 2),
  ])
  const box = { from: [-1, -1, -1], to: [1, 1, 1] }
  const weights = points.map(() => 1)
  const series = fitSparse(box, wanted, points, points.map(f), weights, [1, 0, 2])
  const value = sparseValue(series)
  for (const point of [
    [0.3, -0.8, 0.5],
    [-0.6, 0.1, -0.9],
  ]) {
    expect(value(point)).toBeCloseTo(f(point), 6)
  }
  expect([...series.coefficients].filter((each) => Math.abs(each - 0.5) < 1e-6)).toHaveLength(4)
})

test('of a term and its exchanged one exactly one comes first, and a term that is its own does', () => {
  const exchange = [1, 0, 2]
  const all = simplexOrders([3, 3, 2])
  const first = all.filter((orders) => isFirstOfBoth(orders, exchange))
  const names = new Set(first.map(String))
  for (const orders of all) {
    const other = exchanged(orders, exchange)
    expect(other).toEqual([orders[1], orders[0], orders[2]])
    const count = Number(names.has(String(orders))) + Number(names.has(String(other)))
    expect(count).toBe(String(orders) === String(other) ? 2 : 1)
  }
})
