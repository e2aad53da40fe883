import { describe, expect, test } from 'vitest'
import { InputError } from '../../../src/numerics/inputError'
import { type Dissection, dissectGrid, factorLength } from '../../../src/numerics/linear/dissection'

interface Front {
  readonly eliminated: readonly number[]
  readonly around: readonly number[]
}

const frontsOf = ({ cells, starts, pivots }: Dissection): readonly Front[] =>
  Array.from(pivots, (count, at) => ({
    eliminated: [...cells.subarray(starts[at], starts[at]! + count)],
    around: [...cells.subarray(starts[at]! + count, starts[at + 1])],
  }))

const neighboursOf = (cell: number, nx: number, ny: number) => {
  const [ix, iy] = [cell % nx, Math.floor(cell / nx)]
  return [
    ...(ix > 0 ? [cell - 1] : []),
    ...(ix < nx - 1 ? [cell + 1] : []),
    ...(iy > 0 ? [cell - nx] : []),
    ...(iy < ny - 1 ? [cell + nx] : []),
  ]
}

describe('a dissected grid', () => {
  test.each([
    [1, 1],
    [1, 12],
    [31, 1],
    [3, 3],
    [4, 3],
    [2, 17],
    [13, 11],
    [24, 37],
  ])('of %i by %i cells fills in exactly where elimination cell by cell does', (nx, ny) => {
    // Elimination on a graph, from the definition: what is eliminated joins all its remaining neighbours
    // (S. Parter, SIAM Review 3 (1961) 119).
    const joined = Array.from({ length: nx * ny }, (_, cell) => new Set(neighboursOf(cell, nx, ny)))
    for (const { eliminated, around } of frontsOf(dissectGrid(nx, ny))) {
      const reached = new Set<number>()
      for (const cell of eliminated) {
        for (const other of joined[cell]!) {
          reached.add(other)
          joined[other]!.delete(cell)
          for (const third of joined[cell]!) if (third !== other) joined[other]!.add(third)
        }
        joined[cell]!.clear()
      }
      const outside = [...reached].filter((cell) => !eliminated.includes(cell))
      expect(outside.sort((a, b) => a - b)).toEqual([...around].sort((a, b) => a - b))
    }
    expect(joined.every((others) => others.size === 0)).toBe(true)
  })

  test('eliminates every cell once, and takes in two open fronts at every cut', () => {
    const dissection = dissectGrid(23, 14)
    const eliminated = frontsOf(dissection).flatMap((front) => front.eliminated)
    expect(eliminated.sort((a, b) => a - b)).toEqual(Array.from({ length: 23 * 14 }, (_, i) => i))
    let open = 0
    for (const cut of dissection.isCut) {
      if (cut === 1) expect(open).toBeGreaterThanOrEqual(2)
      open += cut === 1 ? -1 : 1
    }
    expect(open).toBe(1)
    expect(dissection.largestFront).toBe(
      Math.max(...frontsOf(dissection).map((front) => front.eliminated.length + front.around.length)),
    )
  })

  test('takes work as n^1.5 and memory as n log n, not as n^2 and n^1.5 like a band', () => {
    const costs = (side: number) => {
      let [work, memory] = [0, 0]
      for (const { eliminated, around } of frontsOf(dissectGrid(side, side))) {
        const [count, size] = [eliminated.length, eliminated.length + around.length]
        for (let k = 1; k <= count; k++) work += (size - k) ** 2
        memory += factorLength(size, count)
      }
      return { work, memory }
    }
    const [small, large] = [costs(100), costs(200)]
    // Twice the side: 8 and 4 in the limit (A. George 1973), 16 and 8 for a band.
    expect(large.work / small.work).toBeGreaterThan(6)
    expect(large.work / small.work).toBeLessThan(9.5)
    expect(large.memory / small.memory).toBeLessThan(5.5)
    // Against the band of the same grid: n b^2 operations and 2 n b numbers.
    expect(large.work).toBeLessThan(0.2 * 200 ** 4)
    expect(large.memory).toBeLessThan(0.25 * 2 * 200 ** 3)
  })

  test('is refused for sizes that are none', () => {
    expect(() => dissectGrid(0, 3)).toThrow(InputError)
    expect(() => dissectGrid(3, 2.5)).toThrow(/ny/)
  })
})
