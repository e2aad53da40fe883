import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { squareOf } from '../../../src/numerics/complex'
import { jointEfficiency } from '../../../src/optics/joint/joint'
import { jointAmplitude } from '../../../src/optics/joint/jointAmplitude'
import { uniform } from '../../support/arbitrary'
import { MATCHED } from './jointCases'

describe('the amplitude of a coupling', () => {
  test('has the efficiency of the joint as its square, whatever the joint', () => {
    fc.assert(
      fc.property(
        fc.record({
          emitterMfdXUm: uniform(2, 15),
          emitterMfdYUm: uniform(2, 15),
          receiverMfdXUm: uniform(2, 15),
          receiverMfdYUm: uniform(2, 15),
          offsetXUm: uniform(-4, 4),
          offsetYUm: uniform(-4, 4),
          gapUm: uniform(0, 80),
          tiltXRad: uniform(-0.08, 0.08),
          tiltYRad: uniform(-0.08, 0.08),
          rollRad: uniform(-3, 3),
          waistXUm: uniform(-20, 20),
          waistYUm: uniform(-20, 20),
        }),
        (change) => {
          const joint = { ...MATCHED, ...change }
          expect(squareOf(jointAmplitude(joint))).toBeCloseTo(jointEfficiency(joint), 11)
        },
      ),
    )
  })

  // Equal modes z apart: the overlap of a Gaussian with itself is 1 / (1 - i z / (2 zR)), whose phase is atan(z / (2 zR)).
  // Source: H. Kogelnik and T. Li, Appl. Opt. 5 (1966) 1550 (the q parameter; the integral by hand).
  test('of equal modes apart has the phase atan(z / (2 zR))', () => {
    const rayleigh = (Math.PI * 5.2 ** 2) / 1.55
    for (const gapUm of [10, 50, 200]) {
      const { re, im } = jointAmplitude({ ...MATCHED, gapUm })
      expect(Math.atan2(im, re)).toBeCloseTo(Math.atan(gapUm / (2 * rayleigh)), 12)
    }
  })

  test('of a perfect joint is 1, real', () => {
    const { re, im } = jointAmplitude(MATCHED)
    expect(re).toBeCloseTo(1, 14)
    expect(im).toBeCloseTo(0, 14)
  })

  test('is refused for a joint that is none', () => {
    expect(() => jointAmplitude({ ...MATCHED, gapUm: -1 })).toThrow('gapUm is -1')
  })
})
