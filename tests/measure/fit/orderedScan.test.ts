import { describe, expect, test } from 'vitest'
import { LONGEST_FITTED_SCAN, orderScan } from '../../../src/measure/fit/orderedScan'

const at = [0, 1, 2, 3, 4, 5, 6, 7, 8]
const power = at.map((x) => Math.exp(-((x - 4) ** 2) / 4))

describe('a scan made fit for evaluation', () => {
  test('has one point where a position was measured three times: the mean of the three, in whatever order they came', () => {
    const repeated = orderScan('positionUm', [4, ...at, 4], [0.7, ...power, 0.4])
    expect([...repeated.at]).toEqual(at)
    expect(repeated.power[4]).toBeCloseTo((0.7 + 1 + 0.4) / 3, 12)
    expect(repeated.power[3]).toBe(power[3])
    expect(repeated.warnings).toContain('Readings at repeated positions were averaged (2).')
  })

  test('that is too long is a mean of neighbours, position and power alike, the last group included', () => {
    const count = 2 * LONGEST_FITTED_SCAN + 2 // groups of three: the last has one point or two
    const long = Array.from({ length: count }, (_, i) => i)
    const thin = orderScan(
      'positionUm',
      long,
      long.map((i) => 1 + 2 * i),
    )
    expect(thin.at.length).toBe(Math.ceil(count / 3))
    expect(thin.at[1]).toBeCloseTo(4, 9)
    const last = long.slice(3 * (thin.at.length - 1))
    expect(thin.at.at(-1)).toBeCloseTo(last.reduce((sum, x) => sum + x, 0) / last.length, 9)
    thin.power.forEach((p, i) => {
      expect(p).toBeCloseTo(1 + 2 * (thin.at[i] ?? 0), 6)
    })
  })
})
