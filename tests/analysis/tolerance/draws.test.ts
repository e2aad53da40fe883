// Values of assemblies from points, against the distributions written out here.

import { describe, expect, test } from 'vitest'
import type { Variable } from '../../../src/analysis/results/evaluation'
import { drawsOf } from '../../../src/analysis/tolerance/draws'
import { NO_SPREAD, type Spread } from '../../../src/model/quantity/spread'

const variable = (nominal: number, rule: Variable['rule'], spread: Partial<Spread>): Variable => ({
  path: [],
  label: '',
  rule,
  nominal,
  unit: 'um',
  spread: { ...NO_SPREAD, ...spread },
})
const variables = [
  variable(7, 'offset', {}),
  variable(1, 'offset', { distribution: 'uniform', halfWidth: 2 }),
  variable(-3, 'offset', { distribution: 'normal', halfWidth: 4, coverage: 2 }),
  variable(5, 'gap', { distribution: 'triangular', halfWidth: 1 }),
  variable(0.1, 'gap', { distribution: 'uniform', halfWidth: 1 }),
  variable(2, 'offset', { distribution: 'one-sided', side: 'below', halfWidth: 0.5 }),
]
const POINTS = [
  [0.25, 0.975, 0.125, 0.1, 0.4],
  [0.75, 0.5, 0.5, 0.9, 1 - 2 ** -40],
  [0.5, 0.025, 0.98, 0.5, 0.2],
]
/** z of 97.5 %, from tables of the normal distribution. */
const Z = 1.959963984540054
const VALUES = [
  [7, 0, -3 + 2 * Z, 5 + (Math.sqrt(0.25) - 1), 0, 2 + 0.5 * (0.4 - 1)],
  [7, 2, -3, 5, 0.9, 2],
  [7, 1, -3 - 2 * Z, 5 + (1 - Math.sqrt(0.04)), 0.1, 2 - 0.4],
]

describe('draws', () => {
  const draws = drawsOf(variables)
  test('take the quantities with a tolerance, in order, or those of them that are wanted', () => {
    expect(draws.slots).toEqual([1, 2, 3, 4, 5])
    expect(drawsOf(variables, ({ rule }) => rule === 'gap').slots).toEqual([3, 4])
  })

  test.each([0, 1, 2])('put assembly %i where its distributions say; a gap stops at 0', (i) => {
    const values = Float64Array.from(variables, ({ nominal }) => nominal)
    const point = Float64Array.from(POINTS[i] ?? [])
    draws.apply(point, values)
    for (const [k, value] of values.entries()) expect(value).toBeCloseTo(VALUES[i]?.[k] ?? Number.NaN, 12)
    expect([...point]).toEqual(POINTS[i])
  })

  test('give the same values many at once, and leave what lies behind the points', () => {
    const points = Float64Array.from([...POINTS.flat(), 0.5, 0.5])
    draws.deviate(points, POINTS.length)
    expect([...points.subarray(15)]).toEqual([0.5, 0.5])
    for (const [i, point] of POINTS.entries()) {
      const single = Float64Array.from(variables, ({ nominal }) => nominal)
      const many = Float64Array.from(single)
      draws.apply(Float64Array.from(point), single)
      draws.set(points, 5 * i, many)
      expect([...many]).toEqual([...single])
    }
  })

  test('narrow or widen each tolerance by its factor', () => {
    const values = new Float64Array(variables.length)
    const factors = Float64Array.of(0.5, 3, 1, 1, 0)
    draws.apply(Float64Array.from(POINTS[0] ?? []), values, factors)
    expect(values[0]).toBe(0)
    expect(values[1]).toBeCloseTo(1 - 0.5, 12)
    expect(values[2]).toBeCloseTo(-3 + 6 * Z, 12)
    expect(values[5]).toBe(2)
  })
})
