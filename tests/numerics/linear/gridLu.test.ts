import { describe, expect, test } from 'vitest'
import { dissectGrid } from '../../../src/numerics/linear/dissection'
import {
  factorGrid,
  type GridMatrix,
  hasPositivePivots,
  solveGrid,
} from '../../../src/numerics/linear/gridLu'
import { solveSmall } from '../../../src/numerics/linear/smallSystem'
import { mix32, UNIT_PER_WORD } from '../../../src/numerics/random/randomWords'

/** Random positive weights, another one for every neighbour; across the border they are not numbers, so that none is read. */
function randomGrid(nx: number, ny: number): GridMatrix {
  let word = nx * 1000 + ny
  const weights = (open: (ix: number, iy: number) => boolean) =>
    Float64Array.from({ length: nx * ny }, (_, cell) => {
      word = mix32(word + 1)
      return open(cell % nx, Math.floor(cell / nx)) ? 0.1 + word * UNIT_PER_WORD : Number.NaN
    })
  return {
    nx,
    ny,
    own: weights(() => true).map((value) => -3 - value),
    west: weights((ix) => ix > 0),
    east: weights((ix) => ix < nx - 1),
    south: weights((_, iy) => iy > 0),
    north: weights((_, iy) => iy < ny - 1),
  }
}

/** Rows of shift - matrix. */
function denseRows({ nx, ny, own, west, east, south, north }: GridMatrix, shift: number) {
  return Array.from(own, (value, cell) => {
    const row = new Array<number>(nx * ny).fill(0)
    row[cell] = shift - value
    if (cell % nx > 0) row[cell - 1] = -west[cell]!
    if (cell % nx < nx - 1) row[cell + 1] = -east[cell]!
    if (cell >= nx) row[cell - nx] = -south[cell]!
    if (cell < nx * (ny - 1)) row[cell + nx] = -north[cell]!
    return row
  })
}

const factored = (matrix: GridMatrix, shift: number) =>
  factorGrid(dissectGrid(matrix.nx, matrix.ny), matrix, shift)

describe('factors of a matrix on a grid', () => {
  test.each([
    [1, 1],
    [1, 2],
    [1, 9],
    [14, 1],
    [2, 8],
    [3, 3],
    [5, 2],
    [7, 5],
    [4, 13],
    [17, 11],
    [12, 15],
  ])('of %i by %i cells solve as a full matrix does', (nx, ny) => {
    const matrix = randomGrid(nx, ny)
    const right = Float64Array.from({ length: nx * ny }, (_, i) => Math.sin(3 * i + 1))
    const wanted = solveSmall(denseRows(matrix, 1.5).map((row, i) => [...row, right[i]!]))!
    const factors = factored(matrix, 1.5)
    const x = right.slice()
    solveGrid(factors, x)
    x.forEach((value, i) => {
      expect(value).toBeCloseTo(wanted[i]!, 11)
    })
    // Solving leaves the factors as they were.
    const again = right.slice()
    solveGrid(factors, again)
    expect(again).toEqual(x)
  })

  test('of a large grid give back the field from its right side', () => {
    const matrix = randomGrid(83, 61)
    const field = Float64Array.from({ length: 83 * 61 }, (_, i) => Math.cos(i))
    const x = Float64Array.from(field, (value, cell) => {
      let sum = (1.5 - matrix.own[cell]!) * value
      if (cell % 83 > 0) sum -= matrix.west[cell]! * field[cell - 1]!
      if (cell % 83 < 82) sum -= matrix.east[cell]! * field[cell + 1]!
      if (cell >= 83) sum -= matrix.south[cell]! * field[cell - 83]!
      if (cell < 83 * 60) sum -= matrix.north[cell]! * field[cell + 83]!
      return sum
    })
    solveGrid(factored(matrix, 1.5), x)
    x.forEach((value, i) => {
      expect(value).toBeCloseTo(field[i]!, 11)
    })
  })

  test.each([
    [40, 1],
    [13, 9],
    [9, 22],
  ])('of %i by %i cells are positive above the greatest eigenvalue, and not below it', (nx, ny) => {
    // Second differences on a grid with walls: eigenvalues -4 + 2 cos(j pi / (nx + 1)) + 2 cos(l pi / (ny + 1));
    // D. M. Young, Iterative Solution of Large Linear Systems (1971), from memory.
    const ones = new Float64Array(nx * ny).fill(1)
    const matrix = { nx, ny, own: ones.map(() => -4), west: ones, east: ones, south: ones, north: ones }
    const greatest = -4 + 2 * Math.cos(Math.PI / (nx + 1)) + 2 * Math.cos(Math.PI / (ny + 1))
    const dissection = dissectGrid(nx, ny)
    expect(hasPositivePivots(dissection, matrix, greatest + 1e-9)).toBe(true)
    expect(hasPositivePivots(dissection, matrix, greatest - 1e-9)).toBe(false)
    expect(hasPositivePivots(dissection, matrix, -4)).toBe(false)
  })

  test('are refused for another grid or another length', () => {
    for (const use of [factorGrid, hasPositivePivots])
      expect(() => use(dissectGrid(3, 2), randomGrid(2, 3), 1)).toThrow(/dissected grid/)
    expect(() => solveGrid(factored(randomGrid(2, 2), 1), new Float64Array(3))).toThrow(/must be 4/)
  })
})
