import { describe, expect, test } from 'vitest'
import { SOBOL_MOST_DIMENSIONS, sobolSequence } from '../../../src/numerics/random/sobol'
import reference from '../../reference/data/yield.json'
import { chiSquareSigmas } from './pairs'

function points(dimensions: number, count: number, seed?: number): Float64Array[] {
  const sequence = sobolSequence(dimensions, seed)
  return Array.from({ length: count }, (_, i) => {
    const out = new Float64Array(dimensions)
    sequence.fill(i, 1, out)
    return out
  })
}

describe('the plain sequence', () => {
  test.each(reference.sobol)(
    'has point $index as scipy.stats.qmc has it, bit for bit, in 96 dimensions',
    ({ index, point }) => {
      const out = new Float64Array(96)
      sobolSequence(96).fill(index, 1, out)
      expect([...out]).toEqual(point)
    },
  )

  test('gives the same point by stepping and by jumping', () => {
    const stepped = points(7, 300)
    const jumping = sobolSequence(7)
    const out = new Float64Array(7)
    for (const index of [299, 17, 18, 0, 128]) {
      jumping.fill(index, 1, out)
      expect([...out]).toEqual([...(stepped[index] ?? [])])
    }
  })

  test('refuses more dimensions than it has numbers for', () => {
    expect(() => sobolSequence(SOBOL_MOST_DIMENSIONS + 1)).toThrow(
      'dimensions is 97; must be a whole number, 1 to 96',
    )
    expect(() => sobolSequence(0)).toThrow('dimensions is 0')
  })
})

// The property that scrambling must keep: A. B. Owen, J. Complexity 14 (1998) 466.
describe.each([1, 16537, 4_294_967_295])('scrambled by seed %i', (seed) => {
  test('each coordinate puts one of 256 points into each of 256 equal intervals', () => {
    const set = points(12, 256, seed)
    for (let d = 0; d < 12; d++) {
      const positions = set.map((point) => Math.floor((point[d] ?? 0) * 256))
      expect(new Set(positions).size).toBe(256)
    }
  })

  test('the first two coordinates fill every elementary rectangle of area 1/256 once', () => {
    const set = points(2, 256, seed)
    for (let split = 0; split <= 8; split++) {
      const cells = set.map(
        ([x = 0, y = 0]) => `${Math.floor(x * 2 ** split)} ${Math.floor(y * 2 ** (8 - split))}`,
      )
      expect(new Set(cells).size).toBe(256)
    }
  })

  test('no coordinate is 0 or 1, and another seed gives other points', () => {
    const set = points(3, 4096, seed)
    expect(set.every((point) => point.every((u) => u > 0 && u < 1))).toBe(true)
    expect([...(points(3, 1, seed - 1)[0] ?? [])]).not.toEqual([...(set[0] ?? [])])
  })
})

test.each([
  [0, 1],
  [2, 9],
  [5, 40],
  [60, 95],
] as const)('coordinates %i and %i fill elementary rectangles as evenly as in the plain sequence', (a, b) => {
  const countsOf = (seed?: number) => {
    const set = points(96, 256, seed)
    return Array.from({ length: 9 }, (_, split) => {
      const counts = new Array<number>(256).fill(0)
      for (const point of set) {
        const column = Math.floor((point[a] ?? 0) * 2 ** split)
        const cell = column * 2 ** (8 - split) + Math.floor((point[b] ?? 0) * 2 ** (8 - split))
        counts[cell] = (counts[cell] ?? 0) + 1
      }
      return counts.sort((x, y) => x - y)
    })
  }
  expect(countsOf(16537)).toEqual(countsOf())
})

// One point in each n-th of the interval, anywhere in it: the mean of x has the variance 1 / (12 n^3). A shift alone moves all
// points by the same and would leave 1 / (12 n^2). A. B. Owen, Ann. Stat. 25 (1997) 1541.
test.each([0, 1, 7])(
  'the mean of coordinate %i has the variance of independent points in equal strata',
  (d) => {
    const [n, seeds] = [16, 4000]
    const squares = Array.from({ length: seeds }, (_, seed) => {
      const out = new Float64Array(n * (d + 1))
      sobolSequence(d + 1, seed).fill(0, n, out)
      let sum = 0
      for (let i = 0; i < n; i++) sum += out[i * (d + 1) + d] ?? 0
      return (sum / n - 0.5) ** 2
    })
    const mean = squares.reduce((sum, each) => sum + each, 0) / seeds
    const scatter = Math.sqrt(squares.reduce((sum, each) => sum + (each - mean) ** 2, 0) / seeds)
    expect(Math.abs(mean - 1 / (12 * n ** 3))).toBeLessThan((4 * scatter) / Math.sqrt(seeds))
    expect(mean).toBeLessThan(1.3 / (12 * n ** 3))
  },
)

test.each([
  [0, 1],
  [3, 7],
] as const)('over the seeds, coordinates %i and %i of a point are uniform and independent', (a, b) => {
  const out = new Float64Array(8)
  const pairs = Array.from({ length: 6000 }, (_, seed): [number, number] => {
    sobolSequence(8, seed).fill(777, 1, out)
    return [out[a] ?? 0, out[b] ?? 0]
  })
  expect(Math.abs(chiSquareSigmas(pairs))).toBeLessThan(4)
})

test('a smooth integral is estimated without bias over seeds, and far closer than by chance', () => {
  // The integral of (x + y)^2 over the unit square is 7/6; chance alone at 1024 points would scatter by 0.030.
  const estimates = Array.from({ length: 200 }, (_, seed) => {
    const set = points(2, 1024, seed)
    return set.reduce((sum, [x = 0, y = 0]) => sum + (x + y) ** 2, 0) / set.length
  })
  const mean = estimates.reduce((sum, each) => sum + each, 0) / estimates.length
  const scatter = Math.sqrt(estimates.reduce((sum, each) => sum + (each - mean) ** 2, 0) / estimates.length)
  expect(scatter).toBeLessThan(3e-4)
  expect(Math.abs(mean - 7 / 6)).toBeLessThan((4 * scatter) / Math.sqrt(200))
})

test('many points at once are the same as one by one, wherever they begin and however far apart they are written', () => {
  for (const [first, count] of [
    [0, 9],
    [1, 8],
    [255, 3],
    [4095, 300],
  ] as const) {
    const out = new Float64Array(count * 7)
    const filled = sobolSequence(5, 3)
    filled.fill(first, count, out, 7)
    const single = sobolSequence(5, 3)
    const own = new Float64Array(5)
    for (let i = count - 1; i >= 0; i--) {
      single.fill(first + i, 1, own)
      expect([...out.subarray(7 * i, 7 * i + 5)]).toEqual([...own])
      expect([...out.subarray(7 * i + 5, 7 * i + 7)]).toEqual([0, 0])
    }
    // The sequence continues where it ended.
    filled.fill(first + count, 1, own)
    single.fill(first + count, 1, out)
    expect([...own]).toEqual([...out.subarray(0, 5)])
  }
})
