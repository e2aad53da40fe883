// V-grooves: closed form for (100) silicon, side walls at 54.7356 degrees: r sqrt 3 - W / sqrt 2 (plane geometry).

import { expect, test } from 'vitest'
import {
  grooveHeightUm,
  groovePlacement,
  grooveWidthForUm,
  rssUm,
  SILICON_WALL_RAD,
  worstUm,
} from '../../../src/analysis/clearance/vGroove'
import { demoProject } from '../../../src/model/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { VGroove } from '../../../src/model/schema/build/chipEdge'

const DEG = Math.PI / 180

test('core height in (100) silicon is r sqrt 3 - W / sqrt 2', () => {
  expect(SILICON_WALL_RAD / DEG).toBeCloseTo(54.7356, 4)
  for (const widthUm of [110, 130, 150, 170]) {
    const closed = 62.5 * Math.sqrt(3) - widthUm / Math.SQRT2
    expect(grooveHeightUm(62.5, widthUm, SILICON_WALL_RAD)).toBeCloseTo(closed, 9)
  }
})

test('a circle with its middle at that height touches both walls, at whatever angle', () => {
  for (const [radiusUm, widthUm, wall] of [
    [62.5, 140, 54.7356],
    [40, 90, 45],
    [62.5, 120, 60],
  ] as const) {
    const a = wall * DEG
    const height = grooveHeightUm(radiusUm, widthUm, a)
    // Distance from the middle to the wall through (W/2, 0) with direction (cos a, sin a).
    const distance = Math.abs((widthUm / 2) * Math.sin(a) + height * Math.cos(a))
    expect(distance).toBeCloseTo(radiusUm, 9)
  }
})

test('a groove narrower than the touching points carries the fibre on its edges', () => {
  expect(grooveHeightUm(62.5, 100, SILICON_WALL_RAD)).toBeCloseTo(Math.sqrt(62.5 ** 2 - 50 ** 2), 9)
  // Both laws meet where the wall is touched at its edge.
  const edge = 2 * 62.5 * Math.sin(SILICON_WALL_RAD)
  expect(grooveHeightUm(62.5, edge + 1e-9, SILICON_WALL_RAD)).toBeCloseTo(
    grooveHeightUm(62.5, edge - 1e-9, SILICON_WALL_RAD),
    6,
  )
})

test('the width for a height gives that height', () => {
  const widthUm = grooveWidthForUm(62.5, 2.5, SILICON_WALL_RAD)
  expect(grooveHeightUm(62.5, widthUm, SILICON_WALL_RAD)).toBeCloseTo(2.5, 9)
})

test('errors of placement: 0.87 of the diameter, 0.71 of the width, the position and the core in full', () => {
  const [first] = demoProject().fibres
  if (first === undefined) throw new Error('the demo has a fibre')
  const fibre = {
    ...first,
    claddingDiameter: quantityOf(125, 'um', 'data sheet', 0.7),
    concentricity: quantityOf(0.5, 'um'),
  }
  const groove: VGroove = {
    grooveWidth: quantityOf(150, 'um', 'estimate', 0.5),
    wallAngle: quantityOf(SILICON_WALL_RAD / DEG, 'deg'),
    grooveSurface: quantityOf(2, 'um', 'estimate', 0.1),
    groovePosition: quantityOf(0, 'um', 'estimate', 0.3),
  }
  const placed = groovePlacement(groove, fibre)
  expect(placed.offsetYUm).toBeCloseTo(62.5 * Math.sqrt(3) - 150 / Math.SQRT2 - 2, 9)
  const y = [(0.7 * Math.sqrt(3)) / 2, 0.5 / Math.SQRT2, 0.1, 0.5]
  expect(placed.errorsY.map(({ plusMinusUm }) => plusMinusUm)).toEqual(
    y.map((each) => expect.closeTo(each, 6)),
  )
  expect(rssUm(placed.errorsY)).toBeCloseTo(Math.hypot(...y), 6)
  expect(worstUm(placed.errorsX)).toBeCloseTo(0.8, 9)
})
