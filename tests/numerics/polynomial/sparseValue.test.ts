// The value of a sparse series against the sum of its products of cosines: T_k(cos a) = cos(k a).

import { describe, expect, test } from 'vitest'
import { fitSparse, type Orders, simplexOrders } from '../../../src/numerics/polynomial/sparseChebyshev'
import { type SparseSeries, sparseValue } from '../../../src/numerics/polynomial/sparseValue'

const BOX = { from: [-1, 2, 0, 5], to: [3, 4, 0.5, 5] }
const MOST = [4, 7, 3, 0]

/** Numbers of no pattern between -1 and 1. */
const scattered = (i: number) => 2 * ((Math.sin(12.9898 * (i + 1)) * 43758.5453) % 1) ** 2 - 1

/** A series that is defined by its coefficients: fitted exactly to the sum of them. */
function known(orders: readonly Orders[], coefficientOf: (i: number) => number) {
  const sum = (point: ArrayLike<number>) =>
    orders.reduce((total, each, i) => {
      const product = each.reduce((value, order, k) => {
        const [from = 0, to = 0] = [BOX.from[k], BOX.to[k]]
        const t = to > from ? Math.max(-1, Math.min(1, (2 * (point[k] ?? 0) - from - to) / (to - from))) : 0
        return value * Math.cos(order * Math.acos(t))
      }, 1)
      return total + coefficientOf(i) * product
    }, 0)
  const points = Array.from({ length: 6 * orders.length }, (_, p) =>
    BOX.from.map((from, k) => from + ((BOX.to[k] ?? 0) - from) * Math.abs(scattered(7 * p + k))),
  )
  const weights = points.map(() => 1)
  const series = fitSparse(BOX, orders, points, points.map(sum), weights)
  return { sum, series }
}

const PLACES = Array.from({ length: 60 }, (_, p) =>
  BOX.from.map((_, k) => -2 + 8 * Math.abs(scattered(5 * p + 3 * k))),
)

/** How far the function is from the sum, at points inside and beyond the box. */
function farthest(series: SparseSeries, sum: (point: ArrayLike<number>) => number): number {
  const value = sparseValue(series)
  return PLACES.reduce((most, point) => Math.max(most, Math.abs(value(point) - sum(point))), 0)
}

describe('the value of a series', () => {
  test('is the sum of its products, and beyond the box that of the nearest point', () => {
    const { sum, series } = known(simplexOrders(MOST), scattered)
    expect(series.coefficients.length).toBeGreaterThan(30)
    expect(farthest(series, sum)).toBeLessThan(1e-7)
  })

  test('leaves out what has no coefficient, also the constant and all of a variable', () => {
    const odd = simplexOrders(MOST, ([a = 0, , c = 0]) => a % 2 === 1 && c === 0)
    const { sum, series } = known(odd, scattered)
    expect(farthest(series, sum)).toBeLessThan(1e-7)
  })

  test('is the same to 1e-13 however its terms are summed', () => {
    const { series } = known(simplexOrders(MOST), scattered)
    const value = sparseValue(series)
    const { before, factor, coefficients, orders, box } = series
    for (const point of PLACES) {
      const table = orders.flatMap((order, k) => {
        const [from = 0, to = 0] = [box.from[k], box.to[k]]
        const t = to > from ? Math.max(-1, Math.min(1, (2 * (point[k] ?? 0) - from - to) / (to - from))) : 0
        return Array.from({ length: order + 1 }, (_, n) => Math.cos(n * Math.acos(t)))
      })
      const products: number[] = []
      let sum = 0
      for (const [i, coefficient] of coefficients.entries()) {
        products.push(i === 0 ? 1 : (products[before[i] ?? 0] ?? 0) * (table[factor[i] ?? 0] ?? 0))
        sum += coefficient * (products[i] ?? 0)
      }
      expect(Math.abs(value(point) - sum)).toBeLessThan(1e-13)
    }
  })

  test('of a constant, and of nothing', () => {
    const { series } = known([[0, 0, 0, 0]], () => 2.5)
    expect(sparseValue(series)([1, 3, 0.2, 5])).toBeCloseTo(2.5, 9)
    expect(sparseValue({ ...series, coefficients: new Float64Array(1) })([1, 3, 0.2, 5])).toBe(0)
  })
})
