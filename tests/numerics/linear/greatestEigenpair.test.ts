import { expect, test } from 'vitest'
import { InputError } from '../../../src/numerics/inputError'
import { greatestEigenpair, nearestEigenpair } from '../../../src/numerics/linear/greatestEigenpair'

// Eigenvalues 1, 3 and 7 by construction: P diag P^-1 with P of determinant 1.
const matrix = {
  size: 3,
  left: Float64Array.of(7, -4, 0, 0, 3, -2, 0, 0, 1),
  right: Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1),
}

test('the greatest eigenvalue of an upper triangle is the greatest of its diagonal, with its vector', () => {
  const { value, vector } = greatestEigenpair(matrix, 0, 20)!
  expect(value).toBeCloseTo(7, 9)
  expect(Math.abs(vector[0]!)).toBeCloseTo(1, 9)
})

test('one that is not accepted is passed over for the next', () => {
  const pair = greatestEigenpair(matrix, 0, 20, ({ value }) => value < 6)!
  expect(pair.value).toBeCloseTo(3, 9)
  // (7 - 3) a = 4 b
  expect(pair.vector[0]! / pair.vector[1]!).toBeCloseTo(1, 9)
})

test('none within the bounds is null, and complex pairs are ignored', () => {
  expect(greatestEigenpair(matrix, 8, 20)).toBeNull()
  expect(
    greatestEigenpair(
      { size: 2, left: Float64Array.of(0, 1, -1, 0), right: Float64Array.of(1, 0, 0, 1) },
      -5,
      5,
    ),
  ).toBeNull()
})

test('the nearest one is found from a rough place', () => {
  expect(nearestEigenpair(matrix, 2.6).value).toBeCloseTo(3, 6)
  expect(nearestEigenpair(matrix, 0.2).value).toBeCloseTo(1, 6)
})

test('a pencil has the eigenvalues and vectors of the matrix that both of its sides were made from', () => {
  // Both sides times (2 1 0; 0 1 3; 1 0 1), whose determinant is 5.
  const pencil = {
    size: 3,
    left: Float64Array.of(14, -5, -2, 0, 3, 1, 7, -4, 1),
    right: Float64Array.of(2, 1, 0, 0, 1, 3, 1, 0, 1),
  }
  const greatest = greatestEigenpair(pencil, 0, 20)!
  expect(greatest.value).toBeCloseTo(7, 9)
  expect(Math.abs(greatest.vector[0]!)).toBeCloseTo(1, 9)
  const nearest = nearestEigenpair(pencil, 2.6)
  expect(nearest.value).toBeCloseTo(3, 6)
  expect(nearest.vector[0]! / nearest.vector[1]!).toBeCloseTo(1, 6)
})

test('sides that are not square are refused by name', () => {
  const [four, three] = [new Float64Array(4), new Float64Array(3)]
  expect(() => nearestEigenpair({ size: 2, left: three, right: four }, 1)).toThrow(InputError)
  expect(() => nearestEigenpair({ size: 2, left: four, right: three }, 1)).toThrow(/right\.length/)
})
