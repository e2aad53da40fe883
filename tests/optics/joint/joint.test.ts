import { describe, expect, test } from 'vitest'
import { jointEfficiency, jointEfficiencyAt, jointEfficiencyOf } from '../../../src/optics/joint/joint'
import { MATCHED } from './jointCases'

const ROUNDING = 1e-14

describe('limits of the joint', () => {
  test('equal modes in contact couple all light', () => {
    expect(jointEfficiency(MATCHED)).toBeCloseTo(1, 15)
  })

  test('equal modes on a shared waist couple all light across any gap', () => {
    // The emitter's waist lies on the receiver's face, so the gap is only a change of name.
    expect(jointEfficiency({ ...MATCHED, gapUm: 80, waistXUm: 80, waistYUm: 80 })).toBeCloseTo(1, 14)
  })

  test('a large offset, tilt or gap couples nothing', () => {
    expect(jointEfficiency({ ...MATCHED, offsetXUm: 60 })).toBeLessThan(1e-30)
    expect(jointEfficiency({ ...MATCHED, tiltYRad: 0.8 })).toBeLessThan(1e-30)
    expect(jointEfficiency({ ...MATCHED, gapUm: 1e6 })).toBeLessThan(1e-6)
  })

  test('a turned round beam is the same beam', () => {
    const offCentre = { ...MATCHED, offsetXUm: 1, tiltYRad: 0.02, gapUm: 12 }
    expect(jointEfficiency({ ...offCentre, rollRad: 0.7 })).toBeCloseTo(jointEfficiency(offCentre), 14)
  })

  test('a quarter turn swaps the axes of the emitter, and half a turn changes nothing', () => {
    const ellipse = { ...MATCHED, emitterMfdXUm: 4, emitterMfdYUm: 2.6, waistXUm: 3, waistYUm: 7, gapUm: 9 }
    const joint = { ...ellipse, offsetXUm: 0.4, tiltXRad: 0.01 }
    const swapped = { ...joint, emitterMfdXUm: 2.6, emitterMfdYUm: 4, waistXUm: 7, waistYUm: 3 }
    expect(jointEfficiency({ ...joint, rollRad: Math.PI / 2 })).toBeCloseTo(jointEfficiency(swapped), 14)
    for (const rollRad of [0.3, 1.2, 2.9]) {
      const here = jointEfficiency({ ...joint, rollRad })
      expect(Math.abs(jointEfficiency({ ...joint, rollRad: rollRad - Math.PI }) - here)).toBeLessThan(
        ROUNDING,
      )
      expect(Math.abs(jointEfficiency({ ...joint, rollRad: rollRad + Math.PI }) - here)).toBeLessThan(
        ROUNDING,
      )
    }
  })

  test('the sign of roll is x to y: an offset along the rolled major axis loses less than one across it', () => {
    const long = { ...MATCHED, emitterMfdXUm: 12, emitterMfdYUm: 3, receiverMfdXUm: 6, receiverMfdYUm: 6 }
    const turned = { ...long, rollRad: Math.PI / 4 }
    expect(jointEfficiency({ ...turned, offsetXUm: 2, offsetYUm: 2 })).toBeGreaterThan(
      1.2 * jointEfficiency({ ...turned, offsetXUm: 2, offsetYUm: -2 }),
    )
  })

  test('a tilted beam shifts with the gap: for equal modes an offset recovers half the shift', () => {
    // Symmetry of the two ends puts the best point half way, not at the whole gap * tilt.
    const tilted = { ...MATCHED, tiltXRad: 0.03, gapUm: 40 }
    const best = jointEfficiency({ ...tilted, offsetXUm: -0.6 })
    expect(best).toBeGreaterThan(jointEfficiency({ ...tilted, offsetXUm: -0.65 }))
    expect(best).toBeGreaterThan(jointEfficiency({ ...tilted, offsetXUm: -0.55 }))
    expect(jointEfficiency({ ...tilted, offsetXUm: -1.2 })).toBeCloseTo(jointEfficiency(tilted), 14)
  })
})

describe('trade facts (common practice, no source)', () => {
  test('standard fibre against a bare 0.4 um waveguide couples under 1 %', () => {
    const bare = { ...MATCHED, receiverMfdXUm: 0.5, receiverMfdYUm: 0.4 }
    expect(jointEfficiency(bare)).toBeLessThan(0.01)
  })

  test('a facet widened to 5 to 6 um brings the mode overlap to 65 to 75 %, half once taper losses are counted', () => {
    const widened = jointEfficiency({ ...MATCHED, receiverMfdXUm: 6, receiverMfdYUm: 5 })
    expect(widened).toBeGreaterThan(0.65)
    expect(widened).toBeLessThan(0.75)
  })

  test('one micrometre of offset between matched 4 um modes loses about 20 %', () => {
    const pair = { ...MATCHED, emitterMfdXUm: 4, emitterMfdYUm: 4, receiverMfdXUm: 4, receiverMfdYUm: 4 }
    expect(1 - jointEfficiency({ ...pair, offsetXUm: 1 })).toBeCloseTo(0.22, 2)
  })
})

// Series below a roll of about 0.03 rad, sine and cosine above.
test.each([0, -0.01, 0.0316, 0.0317, 0.7, -2])(
  'a record at a roll of %f rad couples what single numbers do',
  (rollRad) => {
    const joint = {
      emitterMfdXUm: 10.4,
      emitterMfdYUm: 4.1,
      receiverMfdXUm: 3.2,
      receiverMfdYUm: 5.8,
      offsetXUm: 0.7,
      offsetYUm: -0.4,
      gapUm: 6,
      tiltXRad: 0.03,
      tiltYRad: -0.02,
      rollRad,
      waistXUm: 1.5,
      waistYUm: -2,
    }
    const whole = jointEfficiency({ ...joint, wavelengthUm: 1.31, index: 1.45 })
    expect(jointEfficiencyOf(joint, 1.45, 1.31)).toBeCloseTo(whole, 14)
    const single = jointEfficiencyAt(
      1.31,
      1.45,
      10.4,
      4.1,
      3.2,
      5.8,
      0.7,
      -0.4,
      6,
      0.03,
      -0.02,
      rollRad,
      1.5,
      -2,
    )
    expect(jointEfficiencyOf(joint, 1.45, 1.31)).toBeCloseTo(single, 14)
  },
)
