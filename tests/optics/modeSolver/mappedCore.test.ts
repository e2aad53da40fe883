// A core of an index map at its own place and stretched, against the samples and straight lines between them.

import { describe, expect, test } from 'vitest'
import { mapExtents, mappedCore } from '../../../src/optics/modeSolver/cores/tabledCore'

/** A Gaussian of 1/e half widths 2 and 1 µm about (1, -0.5), sampled every 0.5 by 0.25 µm. */
const [nx, ny, dxUm, dyUm, x0Um, y0Um] = [25, 33, 0.5, 0.25, -5, -4.5]
const stepOf = (x: number, y: number) => 0.02 * Math.exp(-(((x - 1) / 2) ** 2) - (y + 0.5) ** 2)
const map = {
  ...{ nx, ny, dxUm, dyUm, x0Um, y0Um },
  steps: Float64Array.from({ length: nx * ny }, (_, i) =>
    stepOf(x0Um + (i % nx) * dxUm, y0Um + Math.floor(i / nx) * dyUm),
  ),
}
const ALL = [-1e3, 1e3] as const

test('the extents of a map are those of its 1/e lines', () => {
  const { xUm, bottomUm, widthUm, heightUm, peakStep } = mapExtents(map)
  expect(xUm).toBeCloseTo(1, 9)
  expect(peakStep).toBeCloseTo(0.02, 12)
  // The lines lie on samples here: 2 µm are four of 0.5 µm, 1 µm four of 0.25 µm.
  expect(widthUm).toBeCloseTo(4, 6)
  expect(heightUm).toBeCloseTo(2, 6)
  expect(bottomUm).toBeCloseTo(-1.5, 6)
})

describe('a mapped core', () => {
  const { xUm, bottomUm, widthUm, heightUm } = mapExtents(map)
  const own = { index: 1.46, xUm, bottomUm, widthUm, heightUm }

  test('where it was measured has the samples, and straight lines between them', () => {
    const { share, reach, isSkew } = mappedCore({ map, layer: ALL, ...own })
    for (const [x, y] of [
      [1, -0.5],
      [3, -0.5],
      [1, 0.5],
      [-2, 0.25],
      [4.5, -1.75],
    ] as const)
      expect(share(x, y)).toBeCloseTo(stepOf(x, y) / 0.02, 9)
    expect(share(1.2, -0.5)).toBeCloseTo((0.6 * stepOf(1, -0.5) + 0.4 * stepOf(1.5, -0.5)) / 0.02, 9)
    expect(share(1, -0.4)).toBeCloseTo((0.6 * stepOf(1, -0.5) + 0.4 * stepOf(1, -0.25)) / 0.02, 9)
    expect([reach.leftUm, reach.rightUm]).toEqual([expect.closeTo(-5, 9), expect.closeTo(7, 9)])
    expect([reach.bottomUm, reach.topUm]).toEqual([expect.closeTo(-4.5, 9), expect.closeTo(3.5, 9)])
    expect([share(7.1, -0.5), share(-5.1, -0.5), share(1, 3.6)]).toEqual([0, 0, 0])
    expect(isSkew).toBeUndefined()
  })

  test('that is moved and stretched keeps its shape about its own 1/e box', () => {
    const size = { index: 1.46, xUm: -3, bottomUm: 10, widthUm: 2, heightUm: 6 }
    const { share, reach } = mappedCore({ map, layer: ALL, ...size })
    // Half as wide about -3; three times as high from 10 up.
    for (const [x, y] of [
      [1, -0.5],
      [3, -0.5],
      [-2, 0.25],
      [4.5, -1.75],
    ] as const)
      expect(share(-3 + (x - 1) / 2, 10 + 3 * (y + 1.5))).toBeCloseTo(stepOf(x, y) / 0.02, 9)
    expect([reach.leftUm, reach.rightUm]).toEqual([expect.closeTo(-6, 9), expect.closeTo(0, 9)])
    expect([reach.bottomUm, reach.topUm]).toEqual([expect.closeTo(1, 9), expect.closeTo(25, 9)])
  })

  test('says nothing beyond its layer, and that it is skew where it is', () => {
    const { share, reach } = mappedCore({ map, layer: [-1, 0], ...own })
    expect([share(1, -1.1), share(1, 0.1)]).toEqual([0, 0])
    expect(share(1, -0.5)).toBeCloseTo(1, 9)
    expect([reach.bottomUm, reach.topUm]).toEqual([-1, 0])
    const steps = map.steps.map((step, i) => step * (1 + 0.01 * (i % nx)))
    expect(mappedCore({ map: { ...map, steps }, layer: ALL, ...own }).isSkew).toBe(true)
  })
})
