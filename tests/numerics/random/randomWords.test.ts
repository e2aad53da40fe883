import { describe, expect, test } from 'vitest'
import { philox } from '../../../src/numerics/random/randomWords'
import { unitPoints } from '../../../src/numerics/random/unitPoints'
import { chiSquareSigmas } from './pairs'

function words(counter: readonly number[], key: readonly number[]): string[] {
  const out = new Uint32Array(4)
  const [c0 = 0, c1 = 0, c2 = 0, c3 = 0] = counter
  philox(c0, c1, c2, c3, key[0] ?? 0, key[1] ?? 0, out)
  return Array.from(out, (word) => word.toString(16).padStart(8, '0'))
}

// Known answers of J. K. Salmon et al., Proc. SC11 (2011), file kat_vectors (from memory).
describe('philox gives its authors’ known answers', () => {
  test.each([
    [[0, 0, 0, 0], [0, 0], '6627e8d5 e169c58d bc57ac4c 9b00dbd8'],
    [[-1, -1, -1, -1], [-1, -1], '408f276d 41c83b0e a20bc7c6 6d5451fd'],
    [
      [0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344],
      [0xa4093822, 0x299f31d0],
      'd16cfe09 94fdcceb 5001e420 24126ea1',
    ],
  ])('counter %j, key %j', (counter, key, answer) => {
    expect(words(counter, key).join(' ')).toBe(answer)
  })
})

describe('pseudo-random points', () => {
  test('depend on seed, number and coordinate only', () => {
    const out = new Float64Array(9)
    const again = new Float64Array(9)
    unitPoints('random', 9, 7).point(12_345, out)
    const other = unitPoints('random', 9, 7)
    other.point(3, again)
    other.point(12_345, again)
    expect([...again]).toEqual([...out])
    expect(new Set(out).size).toBe(9)
  })

  test('have mean 1/2, variance 1/12 and no correlation between neighbours, within four standard errors', () => {
    const count = 100_000
    const source = unitPoints('random', 3, 2026)
    const out = new Float64Array(3)
    let [sum, squares, product, serial, before] = [0, 0, 0, 0, 0.5]
    for (let i = 0; i < count; i++) {
      source.point(i, out)
      const [x = 0, y = 0] = out
      sum += x
      squares += (x - 0.5) ** 2
      product += (x - 0.5) * (y - 0.5)
      serial += (x - 0.5) * (before - 0.5)
      before = x
    }
    const perRoot = 4 / Math.sqrt(count)
    expect(Math.abs(sum / count - 0.5)).toBeLessThan(perRoot * Math.sqrt(1 / 12))
    expect(Math.abs(squares / count - 1 / 12)).toBeLessThan(perRoot * Math.sqrt(1 / 80 - 1 / 144))
    expect(Math.abs(product / count)).toBeLessThan(perRoot / 12)
    expect(Math.abs(serial / count)).toBeLessThan(perRoot / 12)
  })
})

// A run holds 128 points: the next one, and the next coordinate, start from states of their own.
test.each([
  ['of a point', 0, 1],
  ['of a point, far apart', 0, 4],
  ['next to each other', 1, 0],
  ['a run apart', 128, 0],
  ['two runs and a coordinate apart', 256, 1],
] as const)(
  'coordinates %s are uniform and independent in 256 cells, within four standard deviations',
  (_, points, coordinates) => {
    const [count, dimensions] = [100_000, 6]
    const out = new Float64Array((count + points) * dimensions)
    unitPoints('random', dimensions, 16537).fill(0, count + points, out)
    const pairs = Array.from({ length: count }, (_, i): [number, number] => [
      out[i * dimensions] ?? 0,
      out[(i + points) * dimensions + coordinates] ?? 0,
    ])
    expect(Math.abs(chiSquareSigmas(pairs))).toBeLessThan(4)
  },
)

test('points of neighbouring seeds are independent', () => {
  const pairs = [7, 8].map((seed) => {
    const out = new Float64Array(100_000)
    unitPoints('random', 2, seed).fill(0, 50_000, out)
    return out
  })
  const [a = new Float64Array(0), b = new Float64Array(0)] = pairs
  expect(Math.abs(chiSquareSigmas(Array.from(a, (x, i): [number, number] => [x, b[i] ?? 0])))).toBeLessThan(4)
})

test.each(['random', 'sobol'] as const)(
  '%s points are the same a coordinate at a time, and in any order',
  (kind) => {
    const [first, count, dimensions] = [120, 300, 5]
    const columns = new Float64Array(count * dimensions)
    unitPoints(kind, dimensions, 3).fill(first, count, columns, 1, count)
    const single = unitPoints(kind, dimensions, 3)
    const own = new Float64Array(dimensions)
    for (const i of [299, 0, 1, 5, 7, 8, 130, 140, 139, 260, 2]) {
      single.point(first + i, own)
      expect([...own]).toEqual(Array.from({ length: dimensions }, (_, d) => columns[d * count + i]))
    }
  },
)

test('points beyond the dimensions of the Sobol numbers go on as pseudo-random ones', () => {
  const out = new Float64Array(120)
  unitPoints('sobol', 120, 5).point(3, out)
  expect(new Set(out).size).toBe(120)
  for (const u of out) expect(u > 0 && u < 1).toBe(true)
  expect(() => unitPoints('sobol', 0, 1)).toThrow('dimensions is 0')
})

test.each([
  ['random', 9],
  ['sobol', 12],
  ['sobol', 101],
] as const)('%s points in %i dimensions are the same many at once and one by one', (kind, dimensions) => {
  const [first, count] = [250, 40]
  const out = new Float64Array(count * dimensions)
  unitPoints(kind, dimensions, 11).fill(first, count, out)
  const single = unitPoints(kind, dimensions, 11)
  const own = new Float64Array(dimensions)
  for (let i = 0; i < count; i++) {
    single.point(first + i, own)
    expect([...out.subarray(i * dimensions, (i + 1) * dimensions)]).toEqual([...own])
  }
})
