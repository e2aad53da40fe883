import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { InputError } from '../../../src/numerics/inputError'
import { lossDb } from '../../../src/optics/beam/decibel'
import type { GaussianJoint } from '../../../src/optics/joint/gaussianJoint'
import { jointEfficiency } from '../../../src/optics/joint/joint'
import {
  facetMfdForLoss,
  gapForLoss,
  offsetForLoss,
  tiltForLoss,
} from '../../../src/optics/joint/jointInverse'
import { logUniform, uniform } from '../../support/arbitrary'
import { anyJoint, MATCHED } from './jointCases'

const loss = (joint: GaussianJoint) => lossDb(jointEfficiency(joint))
const excess = logUniform(0.01, 6)
const modest = anyJoint.filter((joint) => loss(joint) < 100)

describe('offset and tilt for a loss', () => {
  test('putting the answer back into the joint gives the loss asked for', () => {
    fc.assert(
      fc.property(modest, excess, fc.constantFrom('x' as const, 'y' as const), (joint, excessDb, axis) => {
        const offset = axis === 'x' ? 'offsetXUm' : 'offsetYUm'
        const window = offsetForLoss(joint, axis, excessDb)
        const best = loss({ ...joint, [offset]: window.bestUm })
        expect(loss({ ...joint, [offset]: window.lowerUm })).toBeCloseTo(best + excessDb, 8)
        expect(loss({ ...joint, [offset]: window.upperUm })).toBeCloseTo(best + excessDb, 8)
        const tilt = axis === 'x' ? 'tiltXRad' : 'tiltYRad'
        const turn = tiltForLoss(joint, axis, excessDb)
        fc.pre(Math.max(Math.abs(turn.lowerRad), Math.abs(turn.upperRad)) < 1.5)
        const bestTurn = loss({ ...joint, [tilt]: turn.bestRad })
        expect(loss({ ...joint, [tilt]: turn.upperRad })).toBeCloseTo(bestTurn + excessDb, 8)
        expect(loss({ ...joint, [tilt]: turn.lowerRad })).toBeCloseTo(bestTurn + excessDb, 8)
      }),
    )
  })

  test('an aligned joint has its best point at zero and a symmetric window', () => {
    const window = offsetForLoss(MATCHED, 'y', 1)
    expect(window.bestUm).toBe(0)
    expect(window.lowerUm).toBe(-window.upperUm)
  })

  test('no loss is no width, and offset along x leaves y alone', () => {
    expect(offsetForLoss(MATCHED, 'x', 0)).toEqual({ bestUm: 0, lowerUm: 0, upperUm: 0 })
    const ellipse = { ...MATCHED, emitterMfdYUm: 4, receiverMfdYUm: 4 }
    expect(offsetForLoss(ellipse, 'x', 1).upperUm).toBeCloseTo(offsetForLoss(MATCHED, 'x', 1).upperUm, 12)
    expect(offsetForLoss(ellipse, 'y', 1).upperUm).toBeCloseTo(0.9597051824, 9)
  })

  test('whatever the chip mode, 1 dB of offset is at least 0.3393 of the fibre radius', () => {
    // The limit of a facet mode much smaller than the fibre's: sqrt(ln(10) / 20).
    fc.assert(
      fc.property(logUniform(0.05, 200), (mfdUm) => {
        const joint = { ...MATCHED, receiverMfdXUm: mfdUm }
        return offsetForLoss(joint, 'x', 1).upperUm >= 5.2 * Math.sqrt(Math.LN10 / 20) * (1 - 1e-12)
      }),
    )
  })
})

describe('gap for a loss', () => {
  test('matched modes: the closed form z = 2 zR sqrt(10^(L/10) - 1)', () => {
    const zR = (Math.PI * 5.2 ** 2) / 1.55
    const window = gapForLoss(MATCHED, 1)
    expect(window.bestUm).toBe(0)
    expect(window.lowerUm).toBeNull()
    expect(window.upperUm).toBeCloseTo(2 * zR * Math.sqrt(10 ** 0.1 - 1), 8)
  })

  test('a waist in front of the fibre has a best working distance and a loss on both sides', () => {
    const focusing = {
      ...MATCHED,
      emitterMfdXUm: 3,
      emitterMfdYUm: 3,
      receiverMfdXUm: 3,
      receiverMfdYUm: 3,
      waistXUm: 20,
      waistYUm: 20,
    }
    const window = gapForLoss(focusing, 0.5)
    expect(window.bestUm).toBeCloseTo(20, 5)
    expect(window.lowerUm).toBeGreaterThan(10)
    expect((window.lowerUm ?? 0) + (window.upperUm ?? 0)).toBeCloseTo(40, 5)
  })

  test('putting the answer back gives the loss asked for, above the loss at the best gap', () => {
    fc.assert(
      fc.property(modest, excess, (joint, excessDb) => {
        const { bestUm, lowerUm, upperUm } = gapForLoss(joint, excessDb)
        const best = loss({ ...joint, gapUm: bestUm })
        for (const gapUm of [lowerUm, upperUm]) {
          if (gapUm !== null) expect(loss({ ...joint, gapUm })).toBeCloseTo(best + excessDb, 6)
        }
        if (lowerUm === null) expect(loss({ ...joint, gapUm: 0 })).toBeLessThan(best + excessDb + 1e-9)
        expect(loss({ ...joint, gapUm: bestUm * 1.01 + 0.01 })).toBeGreaterThan(best - 1e-7)
      }),
    )
  })
})

test('a joint that couples nothing at any gap has no gap window, and says so', () => {
  const astray = { ...MATCHED, tiltXRad: 1.4, emitterMfdXUm: 1e3, receiverMfdXUm: 1e3 }
  expect(() => gapForLoss(astray, 1)).toThrow('efficiency at the best gap is 0; must be above 0')
})

describe('facet mode for a loss', () => {
  test('both solutions give the required loss, and their product is the square of the fibre mode', () => {
    fc.assert(
      fc.property(uniform(1, 20), excess, (fibreMfdUm, lossAsked) => {
        const { smallerUm, largerUm } = facetMfdForLoss(fibreMfdUm, lossAsked)
        const joint = { ...MATCHED, emitterMfdXUm: fibreMfdUm, emitterMfdYUm: fibreMfdUm }
        for (const mfd of [smallerUm, largerUm]) {
          expect(loss({ ...joint, receiverMfdXUm: mfd, receiverMfdYUm: mfd })).toBeCloseTo(lossAsked, 9)
        }
        expect(smallerUm * largerUm).toBeCloseTo(fibreMfdUm ** 2, 9)
      }),
    )
  })

  test('a published coupler: 0.0682 dB against 8.2 um is a round facet of 7.23 um', () => {
    // Zhang et al., Photonics 11 (2024) 134: simulated 0.0682 dB, cleaved fibre of about 8.2 um.
    expect(facetMfdForLoss(8.2, 0.0682).smallerUm).toBeCloseTo(7.23, 2)
  })

  test('no loss means an equal mode', () => {
    expect(facetMfdForLoss(9.2, 0)).toEqual({ smallerUm: 9.2, largerUm: 9.2 })
  })
})

test('a negative or endless loss is refused by every inverse', () => {
  expect(() => offsetForLoss(MATCHED, 'x', -1)).toThrow('excessDb is -1; must be 0 to 100')
  expect(() => tiltForLoss(MATCHED, 'y', Number.POSITIVE_INFINITY)).toThrow(InputError)
  expect(() => gapForLoss(MATCHED, 101)).toThrow(InputError)
  expect(() => facetMfdForLoss(0, 1)).toThrow('fibreMfdUm is 0; must be a finite number above 0')
  expect(() => facetMfdForLoss(9.2, -1)).toThrow('lossDb is -1; must be 0 to 100')
})
