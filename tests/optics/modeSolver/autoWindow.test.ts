import { describe, expect, test } from 'vitest'
import { edgeLevel } from '../../../src/optics/modeSolver/autoWindow'

/** A field of 4 by 3 cells with one value in it. */
function fieldWith(ix: number, iy: number, value: number): Float64Array {
  const field = new Float64Array(12).fill(0.01)
  field[iy * 4 + ix] = value
  return field
}

describe('the greatest amplitude at the border', () => {
  test.each([
    [0, 0],
    [2, 0],
    [3, 0],
    [0, 1],
    [3, 1],
    [0, 2],
    [1, 2],
    [3, 2],
  ])('is found in cell %i of row %i, whatever its sign', (ix, iy) => {
    expect(edgeLevel(fieldWith(ix, iy, 0.5), 4, false)).toBe(0.5)
    expect(edgeLevel(fieldWith(ix, iy, -0.5), 4, false)).toBe(0.5)
  })

  test('is not that of the cells inside, nor of those above a wall', () => {
    expect(edgeLevel(fieldWith(1, 1, 0.5), 4, false)).toBe(0.01)
    expect(edgeLevel(fieldWith(2, 1, 0.5), 4, false)).toBe(0.01)
    expect(edgeLevel(fieldWith(1, 0, 0.5), 4, true)).toBe(0.01)
    expect(edgeLevel(fieldWith(1, 2, 0.5), 4, true)).toBe(0.5)
  })
})
