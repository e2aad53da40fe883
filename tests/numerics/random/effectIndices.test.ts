import { describe, expect, test } from 'vitest'
import { effectIndices } from '../../../src/numerics/random/effectIndices'

// T. Ishigami and T. Homma, Proc. ISUMA '90 (1990) 398: f = sin x + a sin^2 y + b z^4 sin x on (-pi, pi)^3, with the
// closed forms of its variances, here a = 7, b = 0.1.
const [A, B] = [7, 0.1]
const ishigami = (u: Float64Array) => {
  const [x = 0, y = 0, z = 0] = u.map((each) => Math.PI * (2 * each - 1))
  return Math.sin(x) + A * Math.sin(y) ** 2 + B * z ** 4 * Math.sin(x)
}
const variance = 0.5 + A ** 2 / 8 + (B * Math.PI ** 4) / 5 + (B ** 2 * Math.PI ** 8) / 18
const alone = [0.5 * (1 + (B * Math.PI ** 4) / 5) ** 2, A ** 2 / 8, 0]
const together = B ** 2 * Math.PI ** 8 * (1 / 18 - 1 / 50)

describe('the Ishigami function', () => {
  const indices = effectIndices(ishigami, 3, 2 ** 14, 1)
  test('has its published variance, 13.8446', () => {
    expect(variance).toBeCloseTo(13.8446, 4)
    expect(indices.variance).toBeCloseTo(variance, 2)
    expect(indices.mean).toBeCloseTo(A / 2, 2)
  })
  test.each([0, 1, 2])('has the published first-order index of input %i: 0.3139, 0.4424, 0', (i) => {
    expect([0.3139, 0.4424, 0][i]).toBeCloseTo((alone[i] ?? 0) / variance, 4)
    expect(Math.abs((indices.firstOrder[i] ?? 9) - (alone[i] ?? 0) / variance)).toBeLessThan(0.005)
  })
  test.each([0, 1, 2])('has the published total index of input %i: 0.5576, 0.4424, 0.2437', (i) => {
    const expected = ((alone[i] ?? 0) + (i === 1 ? 0 : together)) / variance
    expect([0.5576, 0.4424, 0.2437][i]).toBeCloseTo(expected, 4)
    expect(Math.abs((indices.total[i] ?? 9) - expected)).toBeLessThan(0.005)
  })
})

test('a sum of independent inputs has equal indices of both kinds, whatever its offset', () => {
  const { firstOrder, total } = effectIndices((u) => 1e6 + (u[0] ?? 0) + 2 * (u[1] ?? 0), 2, 4096, 3)
  expect(firstOrder[0]).toBeCloseTo(0.2, 3)
  expect(firstOrder[1]).toBeCloseTo(0.8, 3)
  expect(total[0]).toBeCloseTo(0.2, 3)
  expect(total[1]).toBeCloseTo(0.8, 3)
})

test('a constant has no effects, and pseudo-random points serve too', () => {
  expect([...effectIndices(() => 5, 2, 16, 1).total]).toEqual([0, 0])
  const { total } = effectIndices(ishigami, 3, 20_000, 1, 'random')
  expect(total[1]).toBeGreaterThan(0.4)
  expect(total[1]).toBeLessThan(0.5)
  expect(() => effectIndices(() => 0, 2, 1, 1)).toThrow('points is 1')
})
