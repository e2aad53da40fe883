import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  blockMeans,
  imagePartToPlot,
  imageToPlot,
  pickedValues,
  plottedIndices,
  rasterToPlot,
} from '../../../src/measure/intake/plotData'

describe('points to draw', () => {
  test('are the lowest and the highest of each run, and of no run beside it', () => {
    // Runs of four; the last point of each is lower, and the first higher, than all of the run that follows.
    const values = [9, 5, 6, 1, 8, 4, 5, 2, 7, 3, 5, 3.5]
    expect([...plottedIndices(values, 6)]).toEqual([0, 3, 4, 7, 8, 9])
  })

  test('are all points where there are few', () => {
    expect([...plottedIndices([5, 6, 7], 10)]).toEqual([0, 1, 2])
  })

  test('are never more than asked for, ascend, and hold the lowest and the highest value', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ noNaN: true }), { minLength: 1, maxLength: 500 }), (values) => {
        const indices = plottedIndices(values, 40)
        const drawn = [...pickedValues(values, indices)]
        return (
          indices.length <= 40 &&
          indices.every((index, i) => i === 0 || index > (indices[i - 1] ?? 0)) &&
          Math.max(...drawn) === Math.max(...values) &&
          Math.min(...drawn) === Math.min(...values)
        )
      }),
      { seed: 4 },
    )
  })
})

test('a raster of too many points is drawn by the means of cells, each at its middle', () => {
  // 300 x 200 points of a plane: three by two in each of 100 x 100 cells.
  const x = Array.from({ length: 60_000 }, (_, k) => (k % 300) + 0.5)
  const y = Array.from({ length: 60_000 }, (_, k) => 7 * (Math.floor(k / 300) + 0.5))
  const drawn = rasterToPlot(
    x,
    y,
    x.map((each, k) => each - (y[k] ?? 0)),
  )
  expect(drawn.values).toHaveLength(10_000)
  expect([...drawn.x.subarray(0, 2)].map((each) => each - (drawn.x[0] ?? 0))).toEqual([
    0,
    expect.closeTo(2.99, 9),
  ])
  // The first and last points lie in the middle of their cells' outer edges, so a mean may be one point's step off.
  const off = drawn.values.map((value, cell) => Math.abs((drawn.x[cell] ?? 0) - (drawn.y[cell] ?? 0) - value))
  expect(Math.max(...off)).toBeLessThan(1 + 7)
  const few = rasterToPlot([1, 2], [3, 4], [5, 6])
  expect([...few.x, ...few.y, ...few.values]).toEqual([1, 2, 3, 4, 5, 6])
})

describe('blocks of pixels', () => {
  test('are means, and what fills no block is left out', () => {
    const blocks = blockMeans([1, 2, 9, 3, 4, 9, 9, 9, 9], 3, 3, 2)
    expect(blocks).toEqual({ width: 1, height: 1, values: Float64Array.of(2.5) })
  })

  test('are taken side by side and below each other', () => {
    const { values } = blockMeans([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16], 4, 4, 2)
    expect([...values]).toEqual([3.5, 5.5, 11.5, 13.5])
  })

  test('of an image to draw are at the centres of their pixels', () => {
    const drawn = imageToPlot(new Float64Array(400 * 400), 400, 400, 0.1)
    expect(drawn).toMatchObject({ width: 200, height: 200, stepUm: 0.2 })
    expect(drawn.xUm).toBeCloseTo(0.05, 12)
  })

  test('of the square about a centre lie where they lie in the image, and end at its edges', () => {
    // Counts that say where they are: 10 x row + column of an image 8 wide and 6 high, pixels of 0.5 um.
    const pixels = Array.from({ length: 48 }, (_, i) => 10 * Math.floor(i / 8) + (i % 8))
    const inside = imagePartToPlot(pixels, 8, 6, 0.5, { xUm: 2, yUm: 1.5, halfUm: 0.5 })
    expect(inside).toEqual({
      width: 3,
      height: 3,
      values: Float64Array.of(23, 24, 25, 33, 34, 35, 43, 44, 45),
      xUm: 1.5,
      yUm: 1,
      stepUm: 0.5,
    })
    const corner = imagePartToPlot(pixels, 8, 6, 0.5, { xUm: 3.5, yUm: 2.5, halfUm: 0.5 })
    expect(corner).toMatchObject({ width: 2, height: 2, xUm: 3, yUm: 2 })
    expect([...corner.values]).toEqual([46, 47, 56, 57])
  })

  test('of a part that is drawn coarser are at the centres of their blocks', () => {
    const wide = imagePartToPlot(new Float64Array(500 * 3), 500, 3, 0.1, { xUm: 30, yUm: 0.1, halfUm: 25 })
    // Pixels 50 to 499 in blocks of 3: the first is centred on pixel 51.
    expect(wide).toMatchObject({ width: 150, height: 1 })
    expect(wide.stepUm).toBeCloseTo(0.3, 12)
    expect(wide.xUm).toBeCloseTo(5.1, 12)
    expect(wide.yUm).toBeCloseTo(0.1, 12)
  })
})
