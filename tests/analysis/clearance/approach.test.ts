// Contact of boxes and cones in any pose, against points sampled densely over their surfaces and gaps tried one by one.

import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  type BodyPose,
  contactFromUm,
  contactOf,
  isReached,
  UPRIGHT_POSE,
} from '../../../src/analysis/clearance/contact'
import { turnRange } from '../../../src/analysis/clearance/freedom'
import type { Obstacle } from '../../../src/analysis/clearance/obstacles'
import { obstaclesOf } from '../../../src/analysis/clearance/obstacles'
import { barrelSolids, endSolids, tipRings } from '../../../src/analysis/clearance/outlines'
import { box, revolved, UPRIGHT } from '../../../src/analysis/clearance/solids'
import { quantityOf } from '../../../src/model/quantity/quantity'
import { uniform } from '../../support/arbitrary'

type Point = readonly [x: number, y: number, z: number]
const um = (value: number) => quantityOf(value, 'um')

/** Turned by roll about z, then so that the axis slopes to +x, then to +y; then shifted. */
function placed([x0, y0, z0]: Point, pose: BodyPose): Point {
  const [r, a, b] = [pose.rollRad, pose.axisXRad, pose.axisYRad]
  const [x1, y1] = [x0 * Math.cos(r) - y0 * Math.sin(r), x0 * Math.sin(r) + y0 * Math.cos(r)]
  const [x2, z2] = [x1 * Math.cos(a) + z0 * Math.sin(a), z0 * Math.cos(a) - x1 * Math.sin(a)]
  return [
    x2 + pose.offsetXUm,
    y1 * Math.cos(b) + z2 * Math.sin(b) + pose.offsetYUm,
    z2 * Math.cos(b) - y1 * Math.sin(b),
  ]
}

/** The same the other way. */
function taken([x3, y3, z3]: Point, pose: BodyPose): Point {
  const [r, a, b] = [pose.rollRad, pose.axisXRad, pose.axisYRad]
  const [x2, y] = [x3 - pose.offsetXUm, y3 - pose.offsetYUm]
  const [y1, z2] = [y * Math.cos(b) - z3 * Math.sin(b), z3 * Math.cos(b) + y * Math.sin(b)]
  const [x1, z0] = [x2 * Math.cos(a) - z2 * Math.sin(a), z2 * Math.cos(a) + x2 * Math.sin(a)]
  return [x1 * Math.cos(r) + y1 * Math.sin(r), y1 * Math.cos(r) - x1 * Math.sin(r), z0]
}

const SIDE = Array.from({ length: 13 }, (_, i) => i / 12)

const poses = fc
  .record({
    axisXRad: uniform(-0.3, 0.3),
    axisYRad: uniform(-0.3, 0.3),
    rollRad: uniform(-1, 1),
    offsetXUm: uniform(-20, 20),
    offsetYUm: uniform(-30, 30),
  })
  .map((pose): BodyPose => ({ ...UPRIGHT_POSE, ...pose }))
const slanted = fc
  .tuple(poses, uniform(-0.3, 0.3), uniform(-0.3, 0.3))
  .map(([pose, beamXRad, beamYRad]): BodyPose => ({ ...pose, beamXRad, beamYRad }))
const slab = (fromYUm: number, toYUm: number, frontZUm: number, x = 0, y = 0): Obstacle => ({
  ...{ name: 'slab', fromYUm, toYUm, frontZUm, face: { x, y } },
})
const slabs = fc
  .tuple(uniform(-90, 30), uniform(5, 60), uniform(-20, 10), uniform(-0.2, 0.2), uniform(-0.2, 0.2))
  .map(([from, high, front, x, y]) => slab(from, from + high, front, x, y))

describe('a box before a slab of the chip', () => {
  const [half, from, to, front, length] = [60, -80, 40, 3, 150]
  const face = { x: 0.1, y: -0.15 }
  const body = box('box', half, [from, to], front, length, face)
  const surface = SIDE.flatMap((s) =>
    SIDE.flatMap((t): readonly Point[] => {
      const x = half * (2 * s - 1)
      const y = from + (to - from) * t
      const [acrossX, acrossY] = [half * (2 * t - 1), from + (to - from) * t]
      const atFront = (px: number, py: number): number => front + face.x * px + face.y * py
      const back = front - length
      const between = (ahead: number) => back + (ahead - back) * s
      return [
        [x, y, atFront(x, y)],
        [x, y, back],
        ...([-half, half] as const).map((px): Point => [px, acrossY, between(atFront(px, acrossY))]),
        ...([from, to] as const).map((py): Point => [acrossX, py, between(atFront(acrossX, py))]),
      ]
    }),
  )

  test('comes to where the foremost of all its points meets the front of the slab', () => {
    fc.assert(
      fc.property(poses, slabs, (pose, { frontZUm, fromYUm, toYUm, face: ahead }) => {
        const leadOf = ([x, y, z]: Point) => z - frontZUm - ahead.x * x - ahead.y * y
        const obstacles = [slab(fromYUm, toYUm, frontZUm, ahead.x, ahead.y)]
        const leads = surface
          .map((point) => placed(point, pose))
          .filter(([, y]) => y >= fromYUm && y <= toYUm)
          .map(leadOf)
        const found = contactOf([body], obstacles, pose)
        expect(contactFromUm([body], obstacles, pose, 0)).toBe(found?.gapUm ?? null)
        if (leads.length === 0) return
        // None is further ahead, and the one that is said to touch is a point of the box within the slab.
        const { gapUm = Number.NaN, xUm = Number.NaN, yUm = Number.NaN } = found ?? {}
        expect(gapUm).toBeGreaterThanOrEqual(Math.max(...leads) - 1e-9)
        expect(yUm).toBeGreaterThanOrEqual(fromYUm)
        expect(yUm).toBeLessThanOrEqual(toYUm)
        const [x, y, z] = taken([xUm, yUm, gapUm + frontZUm + ahead.x * xUm + ahead.y * yUm], pose)
        expect(Math.abs(x)).toBeLessThan(half + 1e-6)
        expect(y).toBeGreaterThan(from - 1e-6)
        expect(y).toBeLessThan(to + 1e-6)
        expect(z).toBeLessThan(front + face.x * x + face.y * y + 1e-6)
      }),
      { numRuns: 60 },
    )
  })

  test('along a slanted beam comes to the last gap on the way at which it would not stand in the chip', () => {
    fc.assert(
      fc.property(slanted, slabs, slabs, (pose, one, other) => {
        const obstacles = [one, other]
        const clears = (gapUm: number) => (contactFromUm([body], obstacles, pose, gapUm) ?? -1) <= gapUm
        const found = contactOf([body], obstacles, pose)?.gapUm ?? 0
        const STEP = 0.5
        let last = 400
        while (last > 0 && clears(last - STEP)) last -= STEP
        if (last > 0) expect(Math.abs(found - last)).toBeLessThanOrEqual(15)
        // Just above contact nothing is in the way any more; just below it something is.
        expect(isReached([body], obstacles, pose, Math.max(0, found) + 0.01)).toBe(true)
        if (found > 1) expect(isReached([body], obstacles, pose, found - 0.01)).toBe(false)
      }),
      { numRuns: 12 },
    )
  })

  test('is not stopped by a slab that it passes', () => {
    expect(contactOf([body], [slab(200, 300, -50)], UPRIGHT_POSE)).toBeNull()
    expect(contactFromUm([body], [slab(200, 300, -50)], UPRIGHT_POSE, 7)).toBeNull()
    expect(isReached([body], [slab(200, 300, -50)], UPRIGHT_POSE, 0)).toBe(true)
  })
})

describe('bodies of revolution', () => {
  test('a cone reaches ahead by its apex, and by its side where the slab begins below', () => {
    // From a point at z = 0 to a radius of 50 um at z = -100 um.
    const cone = revolved('cone', [
      { zUm: 0, radiusUm: 0 },
      { zUm: -100, radiusUm: 50 },
    ])
    expect(contactFromUm([cone], [slab(-90, 90, -7)], UPRIGHT_POSE, 0)).toBeCloseTo(7, 9)
    expect(contactFromUm([cone], [slab(20, 90, -30)], UPRIGHT_POSE, 0)).toBeCloseTo(-10, 2)
    expect(contactFromUm([cone], [slab(-90, -20, -30)], UPRIGHT_POSE, 0)).toBeCloseTo(-10, 2)
    expect(contactFromUm([cone], [slab(51, 90, -30)], UPRIGHT_POSE, 0)).toBeNull()
  })

  test('a lensed tip is a sphere up to its cone or its cladding', () => {
    // Half angle 55 degrees where no cone is stated: sides fall by 1.4 for each um outwards.
    const rings = tipRings(10, 62.5)
    const cap = {
      zUm: -10 * (1 - Math.cos((55 * Math.PI) / 180)),
      radiusUm: 10 * Math.sin((55 * Math.PI) / 180),
    }
    expect(rings.at(-2)?.zUm).toBeCloseTo(cap.zUm, 9)
    expect(rings.at(-2)?.radiusUm).toBeCloseTo(cap.radiusUm, 9)
    expect(rings.at(-1)).toEqual({
      zUm: expect.closeTo(cap.zUm - 1.4 * (62.5 - cap.radiusUm), 9),
      radiusUm: 62.5,
    })
    // A stated end of 6 um radius and a cone of 20 degrees.
    const stated = tipRings(10, 62.5, { endRadiusUm: 6, coneAngleRad: (20 * Math.PI) / 180 })
    expect(stated.at(-2)).toEqual({ zUm: expect.closeTo(-2, 9), radiusUm: expect.closeTo(6, 9) })
    expect(stated.at(-1)?.zUm).toBeCloseTo(-2 - 56.5 / Math.tan((20 * Math.PI) / 180), 9)
    // A sphere wider than the cladding leaves no cone: 100 um, cut at 62.5 um.
    const wide = tipRings(100, 62.5)
    expect(wide).toHaveLength(13)
    expect(wide.at(-1)).toEqual({
      zUm: expect.closeTo(-(100 - Math.sqrt(100 ** 2 - 62.5 ** 2)), 9),
      radiusUm: expect.closeTo(62.5, 9),
    })
    for (const { zUm, radiusUm } of rings.slice(0, -1))
      expect(Math.hypot(radiusUm, zUm + 10)).toBeCloseTo(10, 9)
  })
})

describe('the bodies of an end', () => {
  const fibre = { acrossUm: 125, isFibre: true }
  const block = (change: object = {}, isFibre = true) =>
    endSolids(
      {
        ...{ acrossUm: 125, isFibre },
        outline: { kind: 'block', width: um(2000), below: um(500), above: um(400), ...change },
      },
      UPRIGHT,
    )
  const extentOf = (solids: ReturnType<typeof endSolids>, name: string) => {
    const solid = solids.find((each) => each.name === name)
    if (solid === undefined) return null
    const along = (axis: number) => solid.corners.filter((_, i) => i % 3 === axis)
    return [Math.max(...along(0)), Math.min(...along(1)), Math.max(...along(1)), Math.max(...along(2))].map(
      (each) => Math.round(1e6 * each) / 1e6,
    )
  }

  test('a block is as wide, as low and as high as stated, its lid from the top of the fibre', () => {
    expect(extentOf(block(), 'glass block')).toEqual([1000, -500, 62.5, 0])
    expect(extentOf(block(), 'lid of the glass block')).toEqual([1000, 62.5, 400, 0])
    expect(extentOf(block(), '125 µm cladding')).toEqual([62.5, -62.5, 62.5, 0])
    // A fibre that protrudes by 30 um leaves block and lid behind, unless the lid overhangs by itself.
    const behind = block({ protrusion: um(30) })
    expect(extentOf(behind, 'glass block')).toEqual([1000, -500, 62.5, -30])
    expect(extentOf(behind, 'lid of the glass block')).toEqual([1000, 62.5, 400, -30])
    expect(extentOf(block({ protrusion: um(30), lidOverhang: um(12) }), 'lid of the glass block')?.[3]).toBe(
      12,
    )
    // No higher than the fibre: no lid.
    const low = block({ above: um(40) })
    expect(extentOf(low, 'glass block')).toEqual([1000, -500, 40, 0])
    expect(extentOf(low, 'lid of the glass block')).toBeNull()
    // The lid of a chip begins at its surface.
    expect(extentOf(block({}, false), 'lid of the glass block')).toEqual([1000, 0, 400, 0])
    expect(block({}, false)).toHaveLength(2)
  })

  test('a chip without a block is a square about its axis, and a cone that does not widen is a cylinder', () => {
    const chip = endSolids({ acrossUm: 200, isFibre: false }, { x: 0.1, y: 0 })
    expect(extentOf(chip, 'SSC chip')).toEqual([100, -100, 100, 10])
    const blunt = endSolids(
      { ...fibre, outline: { kind: 'tapered', endDiameter: um(300), coneAngle: quantityOf(10, 'deg') } },
      UPRIGHT,
    )
    expect(extentOf(blunt, 'tapered tip')).toEqual([62.5, -62.5, 62.5, 0])
  })

  test('a lens has its clear aperture, its holder the diameter and the overhang stated', () => {
    const solids = barrelSolids(300, { diameter: um(1200), barrelOverhang: um(20) })
    expect(extentOf(solids, 'lens')).toEqual([150, -150, 150, 0])
    expect(extentOf(solids, 'lens barrel')).toEqual([600, -600, 600, 20])
  })
})

describe('the chip edge', () => {
  const edge = {
    ...{ recessUm: 15, ledgeDepthUm: 10, trench: null, topUm: 3, bottomUm: -700, grooved: false },
    lid: { heightUm: 200, distanceUm: 30 },
  }
  const names = (change: Partial<typeof edge>) =>
    obstaclesOf({ ...edge, ...change }, UPRIGHT).map(({ name }) => name)

  test('is the end face, a ledge and a lid, each where it is', () => {
    expect(obstaclesOf(edge, UPRIGHT)).toEqual([
      { name: 'end face of the chip', fromYUm: -700, toYUm: 3, frontZUm: 0, face: UPRIGHT },
      { name: 'ledge', fromYUm: -700, toYUm: -10, frontZUm: -15, face: UPRIGHT },
      { name: 'lid', fromYUm: 3, toYUm: 203, frontZUm: 30, face: UPRIGHT },
    ])
    expect(names({ grooved: true })).not.toContain('ledge')
    expect(names({ recessUm: 0 })).not.toContain('ledge')
    expect(names({ ledgeDepthUm: 700 })).not.toContain('ledge')
    expect(names({ ledgeDepthUm: 699 })).toContain('ledge')
    expect(names({ lid: { heightUm: 0, distanceUm: 30 } })).not.toContain('lid')
    // A ledge above the surface ends there.
    expect(obstaclesOf({ ...edge, ledgeDepthUm: -50 }, UPRIGHT)[1]?.toYUm).toBe(3)
  })

  test('lets a square chip roll until its corner comes down to the ledge', () => {
    // Half 100 um: the corner lies 141.42 um from the axis, 45 degrees from straight down; the ledge is 120 um down.
    const setup = {
      solids: endSolids({ acrossUm: 200, isFibre: false }, UPRIGHT),
      obstacles: obstaclesOf({ ...edge, ledgeDepthUm: 120, lid: null }, UPRIGHT),
      ...{ edge: null, end: null, nearFace: UPRIGHT, farFace: UPRIGHT },
    }
    const expected = Math.PI / 4 - Math.acos(120 / (100 * Math.SQRT2))
    const [negative, positive] = turnRange(setup, UPRIGHT_POSE, 3, 'rollRad')
    expect(negative).toBeCloseTo(expected, 6)
    expect(positive).toBeCloseTo(expected, 6)
    // Rolled by 0.1 already, there is less room on that side and more on the other.
    const [back, on] = turnRange(setup, { ...UPRIGHT_POSE, rollRad: 0.1 }, 3, 'rollRad')
    expect(back).toBeCloseTo(expected + 0.1, 6)
    expect(on).toBeCloseTo(expected - 0.1, 6)
    expect(turnRange(setup, { ...UPRIGHT_POSE, rollRad: 0.5 }, 3, 'rollRad')).toEqual([0, 0])
  })
})
