// A gap that is aligned on power ends where the waist of the light lies on the facet, or at contact where it lies before.

import { expect, test } from 'vitest'
import { poseAligner } from '../../../src/analysis/path/gap/alignPose'

const aligned = (waistUm: number, residualUm = 0, tiltXRad = 0) => {
  const gap = {
    mediumIndex: 1,
    emitterMfdXUm: 6,
    emitterMfdYUm: 6,
    receiverMfdXUm: 6,
    receiverMfdYUm: 6,
    waistXUm: waistUm,
    waistYUm: waistUm,
    gapUm: residualUm,
    offsetXUm: 0,
    offsetYUm: 0,
    tiltXRad,
    tiltYRad: 0,
    rollRad: 0,
  }
  poseAligner(new Set(['gap', 'offsetX', 'offsetY']), 1.55)(gap, 0, 0)
  return gap
}

test('equal modes meet best at the distance of the waist, and the residual comes on top', () => {
  expect(aligned(12).gapUm).toBeCloseTo(12, 2)
  expect(aligned(40).gapUm).toBeCloseTo(40, 1)
  expect(aligned(12, 0.75).gapUm).toBeCloseTo(12.75, 2)
  expect(aligned(0).gapUm).toBe(0)
  expect(aligned(-5, 0.5).gapUm).toBe(0.5)
})

test('offsets follow a tilt that is held: the beam is led back to the facet over the gap', () => {
  // Tilted about the face of the fibre by θ, the beam arrives θ times the gap aside; equal modes at their common waist want none of it.
  const { offsetXUm, gapUm, tiltXRad } = aligned(12, 0, 0.02)
  expect(tiltXRad).toBe(0.02)
  expect(Math.abs(offsetXUm)).toBeCloseTo(0.02 * gapUm, 2)
})
