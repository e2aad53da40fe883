// A polynomial over two numbers: exact for polynomials, and evaluated only where its values matter.

import { expect, test } from 'vitest'
import { planeTable } from '../../../src/numerics/polynomial/planeTable'

const AT = [800, 245] as const
const HALF = [120, 15] as const
/** Of degree 8 along the front distance, 3 along the back one. */
const of = (frontUm: number, backUm: number) =>
  ((frontUm - 780) / 100) ** 8 - ((frontUm - 810) / 90) ** 3 * ((backUm - 240) / 12) ** 3 + backUm / 50

function counted() {
  const asked: (readonly [number, number])[] = []
  const table = planeTable(AT, HALF, 9, (front, back) => {
    asked.push([front, back])
    return of(front, back)
  })
  return { asked, table }
}

test('nine points each are exact for polynomials of degree 8', () => {
  const { asked, table } = counted()
  for (const [front, back] of [
    [700, 240],
    [812.5, 231],
    [919, 259.9],
  ] as const)
    expect(table(front, back)).toBeCloseTo(of(front, back), 10)
  expect(asked).toHaveLength(81)
})

test('while one number stays in the middle, one row or column is evaluated, also where rounding moved it', () => {
  const along = counted()
  expect(along.table(801, 245)).toBeCloseTo(of(801, 245), 10)
  expect(along.table(900, 245 + 3e-14)).toBeCloseTo(of(900, 245), 10)
  expect(along.asked).toHaveLength(9)
  expect(along.asked.every(([, back]) => back === 245)).toBe(true)
  expect(along.table(800, 250)).toBeCloseTo(of(800, 250), 10)
  expect(along.asked).toHaveLength(17)
  expect(along.table(801, 250)).toBeCloseTo(of(801, 250), 10)
  expect(along.asked).toHaveLength(81)
})
