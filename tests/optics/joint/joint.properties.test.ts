import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { GaussianJoint } from '../../../src/optics/joint/gaussianJoint'
import { jointEfficiency } from '../../../src/optics/joint/joint'
import { logUniform, uniform } from '../../support/arbitrary'
import { anyJoint, MATCHED } from './jointCases'
import { jointByComplexNumbers } from './slowJoint'

const TOLERANCE = 1e-12 // what jointEfficiency promises

const near = (a: number, b: number) => Math.abs(a - b) < TOLERANCE

/** The joint with every vector of the x-y plane turned by an angle, for a round receiver. */
function turned(joint: GaussianJoint, angle: number): GaussianJoint {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)]
  return {
    ...joint,
    offsetXUm: cos * joint.offsetXUm - sin * joint.offsetYUm,
    offsetYUm: sin * joint.offsetXUm + cos * joint.offsetYUm,
    tiltXRad: cos * joint.tiltXRad - sin * joint.tiltYRad,
    tiltYRad: sin * joint.tiltXRad + cos * joint.tiltYRad,
    rollRad: joint.rollRad + angle,
  }
}

/** The same two modes with the light sent back, seen from the old emitter's axes; needs one common waist. */
function reversed(joint: GaussianJoint): GaussianJoint {
  const back = {
    ...joint,
    emitterMfdXUm: joint.receiverMfdXUm,
    emitterMfdYUm: joint.receiverMfdYUm,
    receiverMfdXUm: joint.emitterMfdXUm,
    receiverMfdYUm: joint.emitterMfdYUm,
    offsetXUm: -joint.offsetXUm - joint.gapUm * joint.tiltXRad,
    offsetYUm: -joint.offsetYUm - joint.gapUm * joint.tiltYRad,
    gapUm: joint.gapUm - joint.waistXUm,
    waistXUm: 0,
    waistYUm: 0,
    rollRad: 0,
  }
  return turned(back, -joint.rollRad)
}

describe('laws of the joint', () => {
  test('the efficiency is a number from 0 to 1', () => {
    fc.assert(
      fc.property(anyJoint, (joint) => {
        const efficiency = jointEfficiency(joint)
        return efficiency >= 0 && efficiency <= 1
      }),
    )
  })

  test('the real closed form equals the complex Gaussian integral written out plainly', () => {
    fc.assert(
      fc.property(anyJoint, (joint) => near(jointEfficiency(joint), jointByComplexNumbers(joint))),
      { numRuns: 2000 },
    )
  })

  test('the short series of a small roll changes nothing, nor does the end of its range at 0.0316 rad', () => {
    const smallRoll = uniform(-0.04, 0.04)
    const elongated = { emitterMfdXUm: 15, emitterMfdYUm: 1, offsetXUm: 3, offsetYUm: -2 }
    fc.assert(
      fc.property(anyJoint, smallRoll, (joint, rollRad) => {
        const rolled = { ...joint, ...elongated, rollRad }
        return near(jointEfficiency(rolled), jointByComplexNumbers(rolled))
      }),
      { numRuns: 1000 },
    )
  })

  test('reciprocity: light sent back couples as well', () => {
    fc.assert(
      fc.property(anyJoint, (joint) => {
        const waistUm = Math.min(joint.waistXUm, joint.gapUm)
        const stigmatic = { ...joint, waistXUm: waistUm, waistYUm: waistUm }
        return near(jointEfficiency(stigmatic), jointEfficiency(reversed(stigmatic)))
      }),
    )
  })

  test('mirror images couple alike: x, y, or both flipped', () => {
    fc.assert(
      fc.property(anyJoint, (joint) => {
        const { offsetXUm, offsetYUm, tiltXRad, tiltYRad, rollRad } = joint
        const flipX = { ...joint, offsetXUm: -offsetXUm, tiltXRad: -tiltXRad, rollRad: -rollRad }
        const flipY = { ...joint, offsetYUm: -offsetYUm, tiltYRad: -tiltYRad, rollRad: -rollRad }
        const flipBoth = { ...flipX, offsetYUm: -offsetYUm, tiltYRad: -tiltYRad, rollRad }
        const here = jointEfficiency(joint)
        return [flipX, flipY, flipBoth].every((mirrored) => near(jointEfficiency(mirrored), here))
      }),
    )
  })

  test('the names of the axes do not matter: x and y swapped couple alike', () => {
    fc.assert(
      fc.property(anyJoint, (joint) => {
        const swapped = {
          ...joint,
          emitterMfdXUm: joint.emitterMfdYUm,
          emitterMfdYUm: joint.emitterMfdXUm,
          receiverMfdXUm: joint.receiverMfdYUm,
          receiverMfdYUm: joint.receiverMfdXUm,
          offsetXUm: joint.offsetYUm,
          offsetYUm: joint.offsetXUm,
          tiltXRad: joint.tiltYRad,
          tiltYRad: joint.tiltXRad,
          waistXUm: joint.waistYUm,
          waistYUm: joint.waistXUm,
          rollRad: -joint.rollRad,
        }
        return near(jointEfficiency(swapped), jointEfficiency(joint))
      }),
    )
  })

  test('all lengths scaled together change nothing', () => {
    fc.assert(
      fc.property(anyJoint, logUniform(0.1, 10), (joint, scale) => {
        const scaled: Record<string, number> = { ...joint }
        for (const field of Object.keys(joint) as (keyof GaussianJoint)[]) {
          if (field.endsWith('Um')) scaled[field] = joint[field] * scale
        }
        return near(jointEfficiency(scaled as unknown as GaussianJoint), jointEfficiency(joint))
      }),
    )
  })

  test('depends on wavelength over index only', () => {
    fc.assert(
      fc.property(anyJoint, (joint) => {
        const inAir = { ...joint, index: 1, wavelengthUm: joint.wavelengthUm / joint.index }
        return near(jointEfficiency(inAir), jointEfficiency(joint))
      }),
    )
  })

  test('against a round receiver, turning the whole emitter about the axis changes nothing', () => {
    fc.assert(
      fc.property(anyJoint, uniform(-4, 4), (joint, angle) => {
        const round = { ...joint, receiverMfdYUm: joint.receiverMfdXUm }
        return near(jointEfficiency(turned(round, angle)), jointEfficiency(round))
      }),
    )
  })

  test('without roll the efficiency is the product of one factor per axis', () => {
    fc.assert(
      fc.property(anyJoint, (joint) => {
        const unrolled = { ...joint, rollRad: 0 }
        // A joint round and aligned in y has the y factor 1 only if matched there: same mode, waist on the face.
        const perfectY = {
          emitterMfdYUm: 5,
          receiverMfdYUm: 5,
          offsetYUm: 0,
          tiltYRad: 0,
          waistYUm: joint.gapUm,
        }
        const perfectX = {
          emitterMfdXUm: 5,
          receiverMfdXUm: 5,
          offsetXUm: 0,
          tiltXRad: 0,
          waistXUm: joint.gapUm,
        }
        const xFactor = jointEfficiency({ ...unrolled, ...perfectY })
        const yFactor = jointEfficiency({ ...unrolled, ...perfectX })
        return near(jointEfficiency(unrolled), xFactor * yFactor)
      }),
    )
  })

  test('the factor of one axis is the published one-dimensional formula', () => {
    // W. B. Joyce and B. C. DeLoach, Appl. Opt. 23 (1984) 4187 (from memory): kappa form, waist on the emitter's face.
    fc.assert(
      fc.property(anyJoint, (joint) => {
        const { gapUm: z, offsetXUm, tiltXRad } = joint
        const lambda = joint.wavelengthUm / joint.index
        const w1 = joint.emitterMfdXUm / 2
        const w2 = joint.receiverMfdXUm / 2
        // Seen from the receiver: it sits at -(offset + gap tilt) and its axis is inclined by -tilt.
        const x0 = -(offsetXUm + z * tiltXRad)
        const theta = -tiltXRad
        const kappa = (4 * w1 ** 2 * w2 ** 2) / ((w1 ** 2 + w2 ** 2) ** 2 + ((lambda * z) / Math.PI) ** 2)
        const w1z2 = w1 ** 2 * (1 + ((lambda * z) / (Math.PI * w1 ** 2)) ** 2)
        const exponent =
          (x0 ** 2 / 2) * (1 / w1 ** 2 + 1 / w2 ** 2) +
          ((Math.PI * theta) ** 2 / (2 * lambda ** 2)) * (w1z2 + w2 ** 2) -
          (x0 * theta * z) / w1 ** 2
        const expected = Math.sqrt(kappa) * Math.exp(-kappa * exponent)
        const oneAxis = {
          ...joint,
          emitterMfdYUm: 5,
          receiverMfdYUm: 5,
          offsetYUm: 0,
          tiltYRad: 0,
          rollRad: 0,
          waistXUm: 0,
          waistYUm: z,
        }
        return near(jointEfficiency(oneAxis), expected)
      }),
    )
  })

  test('a perfect joint is the best there is: any offset from it loses light', () => {
    fc.assert(
      fc.property(logUniform(0.01, 20), (offsetXUm) => {
        expect(jointEfficiency({ ...MATCHED, offsetXUm })).toBeLessThan(1)
      }),
    )
  })
})
