// Each misalignment of a joint alone, in closed form: W. B. Joyce and B. C. DeLoach, Appl. Opt. 23 (1984) 4187; D. Marcuse, Bell Syst.
// Tech. J. 56 (1977) 703 (both from memory).

import { expect, test } from 'vitest'
import { jointLines } from '../../../src/analysis/path/gap/jointLines'
import type { GaussianJoint } from '../../../src/optics/index'
import { MATCHED } from '../../optics/joint/jointCases'

const NEPER_DB = 10 * Math.log10(Math.E)
/** 1/e² radii of the modes, um. */
const [W1, W2] = [5.2, 3.6] as const
const JOINT: GaussianJoint = {
  ...MATCHED,
  wavelengthUm: 1.31,
  index: 1.45,
  emitterMfdXUm: 2 * W1,
  emitterMfdYUm: 2 * W1,
  receiverMfdXUm: 2 * W2,
  receiverMfdYUm: 2 * W2,
  offsetXUm: 0.8,
  offsetYUm: -0.5,
  gapUm: 18,
  tiltXRad: 0.02,
  tiltYRad: -0.013,
}

const linesOf = (joint: GaussianJoint) => {
  const { lines, lossDb } = jointLines('joint', () => joint)
  const v = new Float64Array(0)
  return {
    of: (kind: string) => lines.find((line) => line.kind === kind)?.lossDb(v) ?? Number.NaN,
    sum: lines.reduce((sum, line) => sum + line.lossDb(v), 0),
    all: lossDb(v),
  }
}

test('a joint of round modes has the mismatch of its radii, and what gap, offset and tilt add to it', () => {
  const { of, sum, all } = linesOf(JOINT)
  const { wavelengthUm, index, gapUm } = JOINT
  const square = W1 * W1 + W2 * W2
  const mismatch = -20 * Math.log10((2 * W1 * W2) / square)
  expect(of('mode mismatch')).toBeCloseTo(mismatch, 9)
  // A gap z gives 4 / ((W1/W2 + W2/W1)² + (λ z / (π n W1 W2))²).
  const bent = (wavelengthUm * gapUm) / (Math.PI * index * W1 * W2)
  expect(of('gap')).toBeCloseTo(-10 * Math.log10(4 / ((W1 / W2 + W2 / W1) ** 2 + bent ** 2)) - mismatch, 9)
  // An offset d multiplies by exp(-2 d² / (W1² + W2²)).
  const offset2 = JOINT.offsetXUm ** 2 + JOINT.offsetYUm ** 2
  expect(of('lateral offset')).toBeCloseTo((NEPER_DB * 2 * offset2) / square, 9)
  // A tilt t multiplies by exp(-2 (π n t / λ)² W1² W2² / (W1² + W2²)); slopes of two planes add up as their squares.
  const tilt2 = JOINT.tiltXRad ** 2 + JOINT.tiltYRad ** 2
  const turned = 2 * ((Math.PI * index) / wavelengthUm) ** 2 * tilt2 * ((W1 * W2) ** 2 / square)
  expect(of('tilt') / (NEPER_DB * turned)).toBeCloseTo(1, 3)
  expect(of('roll')).toBeCloseTo(0, 12)
  expect(sum).toBeCloseTo(all, 12)
})

test('roll alone costs what turns two ellipses against each other, and the mismatch is that of both axes', () => {
  const elliptical = {
    ...JOINT,
    emitterMfdXUm: 8,
    emitterMfdYUm: 4,
    receiverMfdXUm: 8,
    receiverMfdYUm: 4,
    rollRad: Math.PI / 2,
  }
  const { of } = linesOf(elliptical)
  expect(of('mode mismatch')).toBeCloseTo(0, 12)
  // A quarter turn meets each long axis with a short one: twice the mismatch of 4 and 2 along one axis of a plane.
  expect(of('roll')).toBeCloseTo(-20 * Math.log10((2 * 4 * 2) / (4 * 4 + 2 * 2)), 9)
})
