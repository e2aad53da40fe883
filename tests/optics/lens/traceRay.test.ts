// Rays through a rod of graded index and an aspheric face, against laws that need no tracing.

import { describe, expect, test } from 'vitest'
import { FLAT_FACE, type LensShape } from '../../../src/optics/lens/lensShape'
import { type TracedRay, traceRay } from '../../../src/optics/lens/traceRay'

const AXIS_INDEX = 1.6

const rod = (perUm: number, fourth: number, thicknessUm: number): LensShape => ({
  index: AXIS_INDEX,
  mediumIndex: 1,
  thicknessUm,
  first: FLAT_FACE,
  last: FLAT_FACE,
  gradient: { perUm, fourth },
})

/** Flat, then a hyperboloid of conic -n^2: every parallel ray goes through one point (Born and Wolf, sect. 4.2, from memory). */
const GLASS = 1.5
const RADIUS_UM = 400
const FOCUS_UM = RADIUS_UM / (GLASS - 1)
const hyperbolic: LensShape = {
  index: GLASS,
  mediumIndex: 1,
  thicknessUm: 500,
  first: FLAT_FACE,
  last: { radiusUm: -RADIUS_UM, conic: -(GLASS ** 2), asphericPerUm: [] },
}

const parallelAt = (x: number, y: number): TracedRay => ({ x, y, z: 0, dx: 0, dy: 0, dz: 1, path: 0 })

describe('a ray through a rod of graded index', () => {
  // n dz/ds is constant where n does not depend on z (Born and Wolf, sect. 3.2, from memory), so that what crosses the flat
  // face has sin^2 = n(leaving)^2 - n(entering)^2.
  test.each([
    { perUm: 0.001, fourth: 0, x: 300, y: 0 },
    { perUm: 0.002, fourth: 0.4, x: 300, y: 0 },
    { perUm: 0.002, fourth: -0.3, x: 150, y: 200 },
  ])('leaves with the slope that its heights demand: g = $perUm, h4 = $fourth', ({ perUm, fourth, x, y }) => {
    const indexAt = (r: number) => AXIS_INDEX * (1 - (perUm * r) ** 2 / 2 + fourth * (perUm * r) ** 4)
    const ray = parallelAt(x, y)
    expect(traceRay(ray, rod(perUm, fourth, 400))).toBe(true)
    const entering = indexAt(Math.hypot(x, y))
    const leaving = indexAt(Math.hypot(ray.x, ray.y))
    expect(leaving).toBeGreaterThan(entering + 0.01)
    expect(ray.dx ** 2 + ray.dy ** 2).toBeCloseTo(leaving ** 2 - entering ** 2, 7)
    expect(Math.hypot(ray.dx, ray.dy, ray.dz)).toBeCloseTo(1, 12)
  })

  // n = n0 sech(g r) = n0 (1 - u/2 + 5 u^2/24 - ...) brings all meridional rays together, with equal paths, after half a pitch
  // (A. Fletcher, T. Murphy and A. Young, Proc. R. Soc. Lond. A 223 (1954) 216, from memory).
  test('of the profile without aberration takes the path of the axis, and comes to the other side', () => {
    const perUm = 0.001
    const ideal = rod(perUm, 5 / 24, Math.PI / perUm)
    const ray = parallelAt(100, 0)
    traceRay(ray, ideal)
    expect(ray.x).toBeCloseTo(-100, 1)
    expect(ray.path).toBeCloseTo((AXIS_INDEX * Math.PI) / perUm, 2)
    const parabolic = parallelAt(100, 0)
    traceRay(parabolic, rod(perUm, 0, Math.PI / perUm))
    expect(Math.abs(parabolic.path - ray.path)).toBeGreaterThan(0.03)
  })
})

test.each([
  [150, 0],
  [0, -220],
  [120, 90],
  [-180, 140],
])('a parallel ray at (%d, %d) goes through the focus of a hyperboloid, all by the same path', (x, y) => {
  const ray = parallelAt(x, y)
  expect(traceRay(ray, hyperbolic)).toBe(true)
  const distance = FOCUS_UM / ray.dz
  expect(ray.x + ray.dx * distance).toBeCloseTo(0, 7)
  expect(ray.y + ray.dy * distance).toBeCloseTo(0, 7)
  expect(ray.path + distance).toBeCloseTo(GLASS * hyperbolic.thicknessUm + FOCUS_UM, 7)
})
