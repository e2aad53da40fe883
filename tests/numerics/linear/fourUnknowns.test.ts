import fc from 'fast-check'
import { expect, test } from 'vitest'
import { eliminateFour, solutionOfFour } from '../../../src/numerics/linear/fourUnknowns'
import { uniform } from '../../support/arbitrary'

test('four unknowns: the solution put back gives the right-hand side, for any positive definite matrix', () => {
  const sixteen = fc.array(uniform(-1, 1), { minLength: 16, maxLength: 16 })
  const four = fc.array(uniform(-10, 10), { minLength: 4, maxLength: 4 })
  fc.assert(
    fc.property(sixteen, four, (root, right) => {
      const at = (i: number, j: number) => root[4 * i + j] as number
      const matrix = Array.from({ length: 4 }, (_, i) =>
        Array.from({ length: 4 }, (_, j) =>
          [0, 1, 2, 3].reduce((sum, k) => sum + at(i, k) * at(j, k), i === j ? 0.1 : 0),
        ),
      )
      const system = Float64Array.from(matrix.flatMap((row, i) => [...row, right[i] as number]))
      eliminateFour(system)
      const found = [0, 1, 2, 3].map((k) => solutionOfFour(system, k))
      matrix.forEach((row, i) => {
        const back = row.reduce((sum, value, j) => sum + value * (found[j] as number), 0)
        expect(back).toBeCloseTo(right[i] as number, 9)
      })
    }),
  )
})
