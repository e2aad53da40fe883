import { describe, expect, test } from 'vitest'
import { eliminateFront } from '../../../src/numerics/linear/frontElimination'
import { solveSmall } from '../../../src/numerics/linear/smallSystem'
import { mix32, UNIT_PER_WORD } from '../../../src/numerics/random/randomWords'

/** Diagonally dominant, without any symmetry. */
function randomFront(size: number, seed: number) {
  let word = seed
  const rows = Array.from({ length: size }, (_, i) =>
    Array.from({ length: size }, (_, j) => {
      word = mix32(word + 1)
      return (i === j ? size : 0) + word * UNIT_PER_WORD - 0.5
    }),
  )
  const matrix = new Float64Array((size + 1) * size)
  rows.forEach((row, i) => {
    matrix.set(row, i * size)
  })
  return { rows, matrix }
}

describe('the elimination of a front', () => {
  test.each([
    [1, 1],
    [2, 1],
    [5, 5],
    [6, 3],
    [7, 4],
    [9, 6],
    [14, 9],
    [15, 12],
    [16, 1],
  ])(
    'of %i cells, %i of them eliminated, leaves the Schur complement and factors of the rest',
    (size, count) => {
      const { rows, matrix } = randomFront(size, 100 * size + count)
      expect(eliminateFront(matrix, size, count)).toBe(true)
      for (let j = count; j < size; j++) {
        // A22 - A21 A11^-1 A12, column by column with a solver that exchanges rows.
        const column = solveSmall(rows.slice(0, count).map((row) => [...row.slice(0, count), row[j]!]))!
        for (let i = count; i < size; i++) {
          const taken = column.reduce((sum, value, k) => sum + rows[i]![k]! * value, 0)
          expect(matrix[i * size + j]).toBeCloseTo(rows[i]![j]! - taken, 10)
        }
      }
      for (let i = 0; i < size; i++) {
        for (let j = 0; j < size; j++) {
          if (i >= count && j >= count) continue
          let sum = 0
          for (let k = 0; k <= Math.min(i, j, count - 1); k++) {
            const lower = k === i ? 1 : matrix[i * size + k]!
            const upper = k === j ? 1 / matrix[k * size + j]! : matrix[k * size + j]!
            sum += lower * upper
          }
          expect(sum).toBeCloseTo(rows[i]![j]!, 10)
        }
      }
    },
  )

  test.each([0, 1, 2, 3].flatMap((row) => [-1, 0].map((pivot) => [pivot, row] as const)))(
    'sees a pivot of %i in row %i',
    (pivot, row) => {
      const matrix = new Float64Array(20)
      for (let i = 0; i < 4; i++) matrix[i * 4 + i] = i === row ? pivot : 1
      expect(eliminateFront(matrix.slice(), 4, 4)).toBe(false)
      expect(eliminateFront(matrix.slice(), 4, row)).toBe(true)
    },
  )
})
