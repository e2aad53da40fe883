import { produce } from 'immer'
import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../src/analysis/index'
import { envelopeOutline, receiverOutline } from '../../src/figures/drawing/envelope'
import { guideOutline } from '../../src/figures/drawing/guideOutline'
import { jointPlane } from '../../src/figures/drawing/jointPlane'
import { fittedPxPerUm, scaleBarUm, zoomed, zPx } from '../../src/figures/drawing/scale'
import { demoProject } from '../../src/model/index'
import { quantityOf } from '../../src/model/quantity/quantity'
import type { GapElement } from '../../src/model/schema/candidate'
import type { GaussianJoint } from '../../src/optics/index'
import { moved } from '../../src/panels/drawing/fibreMove'
import { MATCHED } from '../optics/joint/jointCases'

const JOINT: GaussianJoint = {
  ...MATCHED,
  wavelengthUm: 1.6537,
  emitterMfdXUm: 10,
  emitterMfdYUm: 10,
  receiverMfdXUm: 3.4,
  receiverMfdYUm: 2.8,
  offsetXUm: 1,
  gapUm: 20,
}
const upright = (axis: 'x' | 'y') =>
  jointPlane({ joint: JOINT }, { nearFaceAngleRad: 0, farFaceAngleRad: 0, facePlane: 'x' }, axis)

describe('the envelope', () => {
  test('leaves the fibre with its own width about the offset, and grows by the law of a Gaussian beam', () => {
    const points = envelopeOutline(JOINT, 'x', upright('x'))
    expect(points[0]).toEqual({ zUm: -20, vUm: 6 })
    expect(points.at(-1)).toEqual({ zUm: -20, vUm: -4 })
    // w(z) = w0 sqrt(1 + (z/zR)^2), H. Kogelnik and T. Li, Appl. Opt. 5 (1966) 1550, eq. 20.
    const rayleighUm = (Math.PI * 25) / 1.6537
    expect(points[24]?.zUm).toBe(0)
    expect((points[24]?.vUm ?? 0) - 1).toBeCloseTo(5 * Math.hypot(1, 20 / rayleighUm), 12)
  })

  test('of the receiver has its own width at the chip, and stays on the axis', () => {
    const points = receiverOutline(JOINT, 'y', upright('y'))
    const atChip = points.filter((point) => point.zUm === 0).map((point) => point.vUm)
    expect(atChip).toEqual([1.4, -1.4])
  })

  test('ends at the faces where these are angled', () => {
    const slope = Math.tan(0.14)
    const points = envelopeOutline(JOINT, 'x', { ...upright('x'), nearFaceSlope: slope, farFaceSlope: slope })
    expect(points[0]?.zUm).toBeCloseTo(-20 + 5 * slope, 12)
    expect(points.at(-1)?.zUm).toBeCloseTo(-20 - 5 * slope, 12)
  })
})

describe('leaning faces and turned fibres', () => {
  const deg = Math.PI / 180
  const faces = { nearFaceAngleRad: 8 * deg, farFaceAngleRad: 8 * deg, facePlane: 'x' } as const
  const drawn = (change: Partial<GapElement>) => {
    const gap = { nearFaceAngle: quantityOf(8, 'deg'), farFaceAngle: quantityOf(8, 'deg'), ...change }
    const project = produce(demoProject(), (draft) => {
      const own = draft.candidates
        .find((each) => each.id === 'cleaved-dry')
        ?.chain.find((each) => each.kind === 'gap')
      if (own !== undefined) Object.assign(own, gap)
    })
    const view = evaluateCandidate(project, 'cleaved-dry').joints[0]
    if (view === undefined) throw new Error('the candidate has one joint')
    return jointPlane(view, faces, 'x')
  }

  // Snell's law by hand: silica of index 1.4428 at 1653.7 nm (Malitson, J. Opt. Soc. Am. 55 (1965) 1205) in air, 8 degrees.
  const refractedRad = Math.asin((1.4428 / 1.00027) * Math.sin(8 * deg)) - 8 * deg

  test('a fibre tilted to follow the beam is drawn so that its beam leaves along the chip beam', () => {
    const plane = drawn({})
    expect(plane.beamRad).toBeCloseTo(plane.farBeamRad, 12)
    expect(plane.nearAxisRad).toBeCloseTo(plane.farBeamRad - refractedRad, 4)
    expect(Math.atan(plane.nearFaceSlope)).toBeCloseTo(8 * deg - plane.nearAxisRad, 12)
  })

  test('axes left parallel are drawn parallel, with the beam leaving at its refracted slope', () => {
    const plane = drawn({ pointing: 'parallel' })
    expect(plane.nearAxisRad).toBeCloseTo(0, 12)
    expect(plane.beamRad).toBeCloseTo(refractedRad, 4)
  })

  test('a typed tilt turns the fibre about the middle of its face', () => {
    const still = drawn({})
    const plane = drawn({ tiltX: quantityOf(2, 'deg') })
    expect(plane.nearAxisRad - still.nearAxisRad).toBeCloseTo(2 * deg, 12)
    expect(plane.centreVUm).toBe(still.centreVUm)
  })
})

describe('a move of the fibre', () => {
  const from = { gapUm: 3, offsetXUm: 0.123456, offsetYUm: 0 }

  test('to the right closes the gap and stops at contact', () => {
    expect(moved(from, 'y', 1, 0).gapUm).toBe(2)
    expect(moved(from, 'y', 50, 0).gapUm).toBe(0)
  })

  test('leaves alone what it does not touch', () => {
    expect(moved(from, 'x', -1, 0)).toEqual({ gapUm: 4, offsetXUm: 0.123456, offsetYUm: 0 })
    expect(moved(from, 'y', 0, 0.5)).toEqual({ gapUm: 3, offsetXUm: 0.123456, offsetYUm: 0.5 })
  })
})

describe('the scale', () => {
  test('keeps the place under the pointer where it is while zooming', () => {
    const before = { pxPerUm: 10, centreZUm: -4 }
    const after = zoomed(before, 1.5, 120)
    const middle = { middleXPx: 480, middleYPx: 115 }
    const positionUm = -4 + 120 / 10
    expect(zPx({ ...after, ...middle }, positionUm)).toBeCloseTo(600, 9)
  })

  test('fits both ways, and its bar is a round length that fits', () => {
    expect(fittedPxPerUm(100, 125, 960, 250)).toBe(2)
    expect(fittedPxPerUm(960, 125, 960, 250)).toBe(1)
    for (const pxPerUm of [0.07, 1.6, 14, 48, 399]) {
      const px = scaleBarUm(pxPerUm, 160) * pxPerUm
      expect(px).toBeLessThanOrEqual(160)
      expect(px).toBeGreaterThan(60)
    }
  })
})

describe('the guide behind the face', () => {
  const parts = { guideWidthUm: 0.15, guideHeightUm: 0.22, taper: null }
  const taper = { lengthUm: 200, tipWidthUm: 0.15, routingWidthUm: 0.45 }

  test('widens along an inverse taper in the top view, and keeps its height in the side view', () => {
    const top = guideOutline({ ...parts, taper }, 'x', 400, 0.01)
    expect(top.slice(0, 3)).toEqual([
      { zUm: 0, vUm: 0.075 },
      { zUm: 200, vUm: 0.225 },
      { zUm: 400, vUm: 0.225 },
    ])
    expect(guideOutline({ ...parts, taper }, 'y', 400, 0.01).every(({ vUm }) => Math.abs(vUm) === 0.11)).toBe(
      true,
    )
  })

  test('is a strip without a taper, never thinner than can be seen', () => {
    const strip = guideOutline(parts, 'x', 400, 2)
    expect(strip).toHaveLength(4)
    expect(strip.every(({ vUm }) => Math.abs(vUm) === 1)).toBe(true)
  })
})
