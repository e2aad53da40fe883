import { describe, expect, test } from 'vitest'
import type { GaussianJoint } from '../../src/optics/index'
import { envelopeOutline, receiverOutline } from '../../src/report/figures/envelope'
import { moved } from '../../src/panels/drawing/fibreMove'
import { fittedPxPerUm, scaleBarUm, zoomed, zPx } from '../../src/report/figures/scale'

const JOINT: GaussianJoint = {
  wavelengthUm: 1.6537,
  index: 1,
  emitterMfdXUm: 10,
  emitterMfdYUm: 10,
  receiverMfdXUm: 3.4,
  receiverMfdYUm: 2.8,
  offsetXUm: 1,
  offsetYUm: 0,
  gapUm: 20,
  tiltXRad: 0,
  tiltYRad: 0,
  rollRad: 0,
  waistXUm: 0,
  waistYUm: 0,
}
const UPRIGHT = { near: 0, far: 0 }

describe('the envelope', () => {
  test('leaves the fibre with its own width about the offset, and grows by the law of a Gaussian beam', () => {
    const points = envelopeOutline(JOINT, 'x', UPRIGHT)
    expect(points[0]).toEqual({ zUm: -20, vUm: 6 })
    expect(points.at(-1)).toEqual({ zUm: -20, vUm: -4 })
    // w(z) = w0 sqrt(1 + (z/zR)^2), H. Kogelnik and T. Li, Appl. Opt. 5 (1966) 1550, eq. 20.
    const rayleighUm = (Math.PI * 25) / 1.6537
    expect(points[24]?.zUm).toBe(0)
    expect((points[24]?.vUm ?? 0) - 1).toBeCloseTo(5 * Math.hypot(1, 20 / rayleighUm), 12)
  })

  test('of the receiver has its own width at the chip, and stays on the axis', () => {
    const points = receiverOutline(JOINT, 'y', UPRIGHT)
    const atChip = points.filter((point) => point.zUm === 0).map((point) => point.vUm)
    expect(atChip).toEqual([1.4, -1.4])
  })

  test('ends on the faces where these lean', () => {
    const slope = Math.tan(0.14)
    const points = envelopeOutline(JOINT, 'x', { near: slope, far: slope })
    expect(points[0]?.zUm).toBeCloseTo(-20 + 5 * slope, 12)
    expect(points.at(-1)?.zUm).toBeCloseTo(-20 - 5 * slope, 12)
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
    const placeUm = -4 + 120 / 10
    expect(zPx({ ...after, ...middle }, placeUm)).toBeCloseTo(600, 9)
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
