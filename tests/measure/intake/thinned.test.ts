import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { blockMeans, drawnImage, drawnPlaces, pickedValues } from '../../../src/measure/intake/thinned'

describe('points to draw', () => {
  test('are all points where there are few', () => {
    expect([...drawnPlaces([5, 6, 7], 10)]).toEqual([0, 1, 2])
  })

  test('are never more than asked for, ascend, and hold the lowest and the highest value', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ noNaN: true }), { minLength: 1, maxLength: 500 }), (values) => {
        const places = drawnPlaces(values, 40)
        const drawn = [...pickedValues(values, places)]
        return (
          places.length <= 40 &&
          places.every((place, i) => i === 0 || place > (places[i - 1] ?? 0)) &&
          Math.max(...drawn) === Math.max(...values) &&
          Math.min(...drawn) === Math.min(...values)
        )
      }),
      { seed: 4 },
    )
  })
})

describe('blocks of pixels', () => {
  test('are means, and what fills no block is left out', () => {
    const blocks = blockMeans([1, 2, 9, 3, 4, 9, 9, 9, 9], 3, 3, 2)
    expect(blocks).toEqual({ width: 1, height: 1, values: Float64Array.of(2.5) })
  })

  test('of an image to draw are at the centres of their pixels', () => {
    const drawn = drawnImage(new Float64Array(400 * 400), 400, 400, 0.1)
    expect(drawn).toMatchObject({ width: 200, height: 200, stepUm: 0.2 })
    expect(drawn.xUm).toBeCloseTo(0.05, 12)
  })
})
