import { describe, expect, test } from 'vitest'
import { InputError } from '../../../src/numerics/inputError'
import { factorBanded, solveBanded } from '../../../src/numerics/linear/bandedLu'
import { mix32, UNIT_PER_WORD } from '../../../src/numerics/random/randomWords'

const diagonalAt = (size: number, band: number, shift: number) => {
  let word = size * 7 + band
  const next = () => {
    word = mix32(word + 1)
    return word * UNIT_PER_WORD
  }
  const dense = Array.from({ length: size }, (_, r) =>
    Float64Array.from({ length: size }, (_, c) => (r === c || Math.abs(r - c) > band ? 0 : -next())),
  )
  dense.forEach((row, r) => {
    row[r] = shift + row.reduce((sum, value) => sum + Math.abs(value), 0)
  })
  return dense
}

const fillFrom =
  (dense: readonly Float64Array[], band: number) => (row: number, target: Float64Array, at: number) => {
    for (let d = -band; d <= band; d++) {
      const value = dense[row]?.[row + d]
      if (value !== undefined) target[at + d] = value
    }
  }

describe('factors of a banded matrix', () => {
  test.each([
    [1, 1],
    [2, 1],
    [7, 3],
    [20, 5],
    [61, 9],
    [64, 13],
  ])('of size %i with %i diagonals on either side give back the right side', (size, band) => {
    const dense = diagonalAt(size, band, 0.1)
    const lu = factorBanded(size, band, fillFrom(dense, band))
    expect(lu.positive).toBe(true)
    const wanted = Float64Array.from({ length: size }, (_, i) => Math.sin(i + 1))
    const x = Float64Array.from(dense, (row) => row.reduce((sum, value, c) => sum + value * wanted[c]!, 0))
    solveBanded(lu, x)
    x.forEach((value, i) => {
      expect(value).toBeCloseTo(wanted[i]!, 10)
    })
  })

  test('are positive above the greatest eigenvalue of a matrix of positive neighbours, and not below it', () => {
    // Second differences on 40 points: eigenvalues 2 - 2 cos(j pi / 41), the greatest of -second difference's negative is
    // -(2 - 2 cos(pi / 41)); D. M. Young, Iterative Solution of Large Linear Systems (1971), from memory.
    const size = 40
    const greatest = -(2 - 2 * Math.cos(Math.PI / 41))
    const at = (sigma: number) =>
      factorBanded(size, 1, (row, target, place) => {
        target[place] = sigma + 2
        if (row > 0) target[place - 1] = -1
        if (row < size - 1) target[place + 1] = -1
      }).positive
    expect(at(greatest + 1e-9)).toBe(true)
    expect(at(greatest - 1e-9)).toBe(false)
  })

  test('refuse sizes that are none, and right sides of another length', () => {
    const fill = (_: number, target: Float64Array, at: number) => {
      target[at] = 1
    }
    expect(() => factorBanded(0, 1, fill)).toThrow(InputError)
    expect(() => factorBanded(3, 0, fill)).toThrow(InputError)
    expect(() => solveBanded(factorBanded(3, 1, fill), new Float64Array(2))).toThrow(/must be 3/)
  })
})
