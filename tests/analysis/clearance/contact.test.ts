// Contact by geometry on paper: right-angled triangles and circles, worked out next to each number.

import { describe, expect, test } from 'vitest'
import { type BodyPose, contactOf } from '../../../src/analysis/clearance/contact'
import { type EdgeSizes, obstaclesOf } from '../../../src/analysis/clearance/obstacles'
import { barrelSolids, endSolids } from '../../../src/analysis/clearance/outlines'
import { UPRIGHT } from '../../../src/analysis/clearance/solids'
import { quantityOf } from '../../../src/model/quantity/quantity'

const DEG = Math.PI / 180
const STRAIGHT: BodyPose = {
  axisXRad: 0,
  axisYRad: 0,
  rollRad: 0,
  beamXRad: 0,
  beamYRad: 0,
  offsetXUm: 0,
  offsetYUm: 0,
}
const EDGE: EdgeSizes = {
  recessUm: 15,
  ledgeDepthUm: 10,
  trench: null,
  topUm: 3.3,
  bottomUm: -700,
  lid: null,
  grooved: false,
}
const fibre = { acrossUm: 125, isFibre: true }
const cleaved = endSolids(fibre, UPRIGHT)
const against = (edge: Partial<EdgeSizes>, face = UPRIGHT) => obstaclesOf({ ...EDGE, ...edge }, face)

describe('a cleaved fibre and a ledge', () => {
  test('meets the ledge at the recess, and the facet where the ledge is deeper than its radius', () => {
    const met = contactOf(cleaved, against({}), STRAIGHT)
    expect(met).toMatchObject({ body: '125 µm cladding', obstacle: 'ledge', gapUm: 15 })
    expect(contactOf(cleaved, against({ ledgeDepthUm: 62.4 }), STRAIGHT)?.gapUm).toBeCloseTo(15, 9)
    const past = contactOf(cleaved, against({ ledgeDepthUm: 62.6 }), STRAIGHT)
    expect(past).toMatchObject({ obstacle: 'end face of the chip', gapUm: 0 })
  })

  test('a trench matters only where it is as long as the recess', () => {
    const trench = (lengthUm: number) => ({ trench: { lengthUm, depthUm: 80 } })
    expect(contactOf(cleaved, against(trench(14)), STRAIGHT)?.gapUm).toBe(15)
    expect(contactOf(cleaved, against(trench(15)), STRAIGHT)?.gapUm).toBe(0)
  })

  test('a lowered fibre reaches a ledge that it would pass on the axis', () => {
    const edge = against({ ledgeDepthUm: 65 })
    expect(contactOf(cleaved, edge, STRAIGHT)?.gapUm).toBe(0)
    expect(contactOf(cleaved, edge, { ...STRAIGHT, offsetYUm: -3 })?.gapUm).toBe(15)
  })
})

describe('a cone', () => {
  const tapered = (endUm: number) =>
    endSolids(
      {
        ...fibre,
        outline: {
          kind: 'tapered',
          endDiameter: quantityOf(endUm, 'um'),
          coneAngle: quantityOf(10, 'deg'),
        },
      },
      UPRIGHT,
    )

  test('meets the corner of the ledge with its side: recess less (ledge depth less end radius) / tan of the half angle', () => {
    const expected = 15 - (10 - 8.5) / Math.tan(10 * DEG)
    expect(contactOf(tapered(17), against({}), STRAIGHT)?.gapUm).toBeCloseTo(expected, 9)
    expect(expected).toBeCloseTo(6.4931, 4)
  })

  test('tilted about its face by 20 degrees, meets the corner where its lower side, then sloped by 30 degrees, passes', () => {
    // The lower rim is at y = -6 cos 20, z = -6 sin 20 ahead of the middle; the side goes down by tan(10 + 20) from there, backwards.
    const pose = { ...STRAIGHT, axisYRad: 20 * DEG }
    const rim = { y: -6 * Math.cos(20 * DEG), z: 6 * Math.sin(20 * DEG) }
    const expected = 15 + rim.z - (10 + rim.y) / Math.tan(30 * DEG)
    expect(contactOf(tapered(12), against({}), pose)?.gapUm).toBeCloseTo(expected, 6)
  })

  test('a blunt one meets the ledge with its end', () => {
    expect(contactOf(tapered(24), against({}), STRAIGHT)?.gapUm).toBe(15)
  })
})

describe('faces that are not parallel', () => {
  const wide = against({ recessUm: 0, topUm: 1e6, bottomUm: -1e6 })

  test('touch at the rim: 62.5 um sin 5 degrees for a tilted fibre against an upright face', () => {
    const contact = contactOf(cleaved, wide, { ...STRAIGHT, axisXRad: 5 * DEG })
    expect(contact?.gapUm).toBeCloseTo(62.5 * Math.sin(5 * DEG), 9)
    expect(contact?.xUm).toBeCloseTo(-62.5 * Math.cos(5 * DEG), 9)
  })

  test('touch at the middle of nothing where both are polished alike', () => {
    const face = { x: Math.tan(8 * DEG), y: 0 }
    const contact = contactOf(endSolids(fibre, face), against({ recessUm: 0 }, face), STRAIGHT)
    expect(contact?.gapUm).toBeCloseTo(0, 9)
  })

  test('touch only as far as the chip reaches: its upper edge, 3.3 um above the waveguide, for a fibre tilted backwards above', () => {
    const contact = contactOf(cleaved, against({ recessUm: 0 }), { ...STRAIGHT, axisYRad: -5 * DEG })
    expect(contact?.yUm).toBeCloseTo(3.3, 9)
    expect(contact?.gapUm).toBeCloseTo(3.3 * Math.tan(5 * DEG), 6)
  })

  test('follow the beam: the place of the fibre moves with the gap', () => {
    // At gap g the fibre is g tan 10 above the axis: over the ledge it comes down to it where 62.5 - g tan 10 = 60.5.
    const edge = against({ ledgeDepthUm: 60.5 })
    const pose = { ...STRAIGHT, beamYRad: -10 * DEG }
    expect(contactOf(cleaved, edge, pose)?.gapUm).toBeCloseTo(2 / Math.tan(10 * DEG), 6)
    expect(contactOf(cleaved, edge, { ...pose, beamYRad: -5 * DEG })?.gapUm).toBeCloseTo(15, 6)
  })
})

describe('blocks, lids and barrels', () => {
  const block = (over: number) =>
    endSolids(
      {
        ...fibre,
        outline: {
          kind: 'block',
          width: quantityOf(2, 'mm'),
          below: quantityOf(500, 'um'),
          above: quantityOf(400, 'um'),
          lidOverhang: quantityOf(over, 'um'),
        },
      },
      UPRIGHT,
    )

  test('the lid of a block meets a lid on the chip at its overhang less the distance of the lid', () => {
    const edge = against({ recessUm: 0, lid: { heightUm: 200, distanceUm: 30 } })
    expect(contactOf(block(40), edge, STRAIGHT)).toMatchObject({
      body: 'lid of the glass block',
      obstacle: 'lid',
      gapUm: 10,
    })
    expect(contactOf(block(20), edge, STRAIGHT)?.gapUm).toBe(0)
  })

  test('roll of a block brings its lower corner to a ledge', () => {
    const edge = against({ ledgeDepthUm: 501 })
    expect(contactOf(block(0), edge, STRAIGHT)?.gapUm).toBe(0)
    // The corner at (1000, -500) goes to -500 cos r - 1000 sin r: 501 at about 0.001 rad.
    expect(contactOf(block(0), edge, { ...STRAIGHT, rollRad: 0.0009 })?.gapUm).toBe(0)
    expect(contactOf(block(0), edge, { ...STRAIGHT, rollRad: 0.0011 })?.gapUm).toBe(15)
  })

  test('a barrel meets the ledge at recess and overhang together, a protruding lens by its edge', () => {
    const barrel = { diameter: quantityOf(1.2, 'mm'), barrelOverhang: quantityOf(20, 'um') }
    expect(contactOf(barrelSolids(300, barrel), against({}), STRAIGHT)?.gapUm).toBe(35)
    expect(contactOf(barrelSolids(300, undefined), against({ ledgeDepthUm: 151 }), STRAIGHT)?.gapUm).toBe(0)
  })
})

test('a lensed tip without a stated cone passes a ledge that its cap and cone clear', () => {
  const tip = endSolids({ ...fibre, tipRadiusUm: 10 }, UPRIGHT)
  // Cap to 55 degrees: 8.19 um wide, 4.26 um behind the apex; then a cone of slope 1 / 1.4.
  const behind = 10 * (1 - Math.cos(55 * DEG)) + 1.4 * (10 - 10 * Math.sin(55 * DEG))
  expect(contactOf(tip, against({}), STRAIGHT)?.gapUm).toBeCloseTo(15 - behind, 9)
})
