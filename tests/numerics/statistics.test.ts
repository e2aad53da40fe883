import { describe, expect, test } from 'vitest'
import {
  mean,
  median,
  quantile,
  robustDeviation,
  standardDeviation,
  studentT,
} from '../../src/numerics/statistics'

describe('samples', () => {
  test('mean, median and standard deviation of 2, 4, 4, 4, 5, 5, 7, 9 are the textbook ones', () => {
    const sample = [2, 4, 4, 4, 5, 5, 7, 9]
    expect(mean(sample)).toBe(5)
    expect(median(sample)).toBe(4.5)
    expect(standardDeviation(sample)).toBeCloseTo(Math.sqrt(32 / 7), 14)
  })

  test('quantiles run linearly between the order statistics (Hyndman & Fan definition 7)', () => {
    expect(quantile([40, 10, 30, 20], 0)).toBe(10)
    expect(quantile([40, 10, 30, 20], 1)).toBe(40)
    expect(quantile([40, 10, 30, 20], 0.25)).toBe(17.5)
  })

  test('the robust deviation ignores one wild value that doubles the ordinary one', () => {
    const sample = [-2, -1, -0.5, 0, 0.5, 1, 2]
    expect(robustDeviation(sample)).toBeCloseTo(1.4826, 4)
    expect(robustDeviation([...sample, 1000])).toBeLessThan(2)
  })

  test('samples too small for the question are refused by name', () => {
    expect(() => mean([])).toThrow(/values is .*at least one/)
    expect(() => standardDeviation([1])).toThrow(/at least two/)
    expect(() => quantile([1], 1.5)).toThrow(/p is 1.5; must be 0 to 1/)
  })
})

describe('Student t', () => {
  // JCGM 100:2008, table G.2, column 95.45 % (from memory).
  const table: [number, number][] = [
    [1, 13.97],
    [2, 4.53],
    [3, 3.31],
    [4, 2.87],
    [5, 2.65],
    [10, 2.28],
    [20, 2.13],
    [50, 2.05],
    [100, 2.025],
  ]
  for (const [dof, t] of table) {
    test(`covers 95.45 % with ${t} at ${dof} degrees of freedom`, () => {
      expect(Math.abs(studentT(0.9545, dof) - t)).toBeLessThan(0.0051) // the table's last digit
    })
  }

  test('one degree of freedom is the Cauchy distribution: t = tan(π p / 2)', () => {
    for (const p of [0.1, 0.5, 0.9, 0.99]) expect(studentT(p, 1)).toBeCloseTo(Math.tan((Math.PI * p) / 2), 9)
  })

  test('many degrees of freedom approach the normal 1.959964 at 95 %', () => {
    expect(studentT(0.95, 1e6)).toBeCloseTo(1.959964, 5)
  })

  test('no degrees of freedom is refused', () => {
    expect(() => studentT(0.95, 0)).toThrow(/degreesOfFreedom is 0/)
  })
})
