import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { InputError } from '../../../src/numerics/inputError'
import { lossDb } from '../../../src/optics/beam/decibel'
import {
  faceAngleForReturnLoss,
  faceReturnLoss,
  farFaceReturnLoss,
  mirrorOverlap,
  turnedReturnDb,
} from '../../../src/optics/faces/faceReturnLoss'
import { fresnelReflectance } from '../../../src/optics/faces/fresnel'
import { jointEfficiency } from '../../../src/optics/joint/joint'
import { uniform } from '../../support/arbitrary'
import { MATCHED } from '../joint/jointCases'

// 1.468 is the group index of a standard fibre: here only a number at which the closed forms were worked out.
const FACE = {
  wavelengthUm: 1.55,
  guideIndex: 1.468,
  mediumIndex: 1,
  mfdXUm: 10.4,
  mfdYUm: 10.4,
  angleXRad: 0,
  angleYRad: 0,
}
const FAR = {
  wavelengthUm: 1.55,
  guideIndex: 1.468,
  mediumIndex: 1,
  farIndex: 1.99628,
  mfdXUm: 10.4,
  mfdYUm: 10.4,
  gapUm: 20,
  incidenceXRad: 0,
  incidenceYRad: 0,
}
const DEGREE = Math.PI / 180

describe('return loss of the own face', () => {
  test('square it is the Fresnel reflection: 14.442 dB for n = 1.468 against air', () => {
    expect(faceReturnLoss(FACE)).toBeCloseTo(14.442, 3)
  })

  test('it is the Fresnel reflection of the mode overlapped with itself turned by twice the angle', () => {
    const angle = uniform(-0.1, 0.1)
    const mfd = uniform(2, 8)
    fc.assert(
      fc.property(angle, angle, mfd, mfd, (angleXRad, angleYRad, mfdXUm, mfdYUm) => {
        const face = { ...FACE, angleXRad, angleYRad, mfdXUm, mfdYUm }
        const overlap = jointEfficiency({
          ...MATCHED,
          index: 1.468,
          emitterMfdXUm: mfdXUm,
          emitterMfdYUm: mfdYUm,
          receiverMfdXUm: mfdXUm,
          receiverMfdYUm: mfdYUm,
          tiltXRad: 2 * angleXRad,
          tiltYRad: 2 * angleYRad,
        })
        expect(faceReturnLoss(face)).toBeCloseTo(faceReturnLoss(FACE) + lossDb(overlap), 8)
      }),
    )
  })

  test('the angle helps a wide mode a lot and a narrow one little: 8 degrees give 95.5 dB against 22.1 dB', () => {
    const angled = { ...FACE, angleXRad: 8 * DEGREE }
    expect(faceReturnLoss(angled)).toBeCloseTo(95.51, 2)
    expect(faceReturnLoss({ ...angled, mfdXUm: 3.2, mfdYUm: 3.2 })).toBeCloseTo(22.12, 2)
  })

  test('equal indices return nothing', () => {
    expect(faceReturnLoss({ ...FACE, mediumIndex: 1.468 })).toBe(Number.POSITIVE_INFINITY)
  })

  test('impossible faces are refused', () => {
    expect(() => faceReturnLoss({ ...FACE, mfdXUm: 0 })).toThrow(InputError)
    expect(() => faceReturnLoss({ ...FACE, angleYRad: 0.8 })).toThrow('angleYRad is 0.8; must be -0.7 to 0.7')
    expect(() => faceReturnLoss({ ...FACE, wavelengthUm: Number.NaN })).toThrow(InputError)
  })
})

describe('return loss of a far face', () => {
  const far = fresnelReflectance({ index1: 1, index2: 1.99628 }).unpolarised
  const near = fresnelReflectance({ index1: 1.468, index2: 1 }).unpolarised
  const contactDb = lossDb(far) + 2 * lossDb(1 - near)

  test('in contact and square it is its Fresnel reflection, seen twice through the near face', () => {
    expect(farFaceReturnLoss({ ...FAR, gapUm: 0 })).toBeCloseTo(contactDb, 10)
  })

  test('a square far face returns the mode after twice the gap: 1 / (1 + Z^2)', () => {
    const zR = (Math.PI * 5.2 ** 2) / 1.55
    const spread = (2 * 20) / (2 * zR)
    expect(farFaceReturnLoss(FAR) - contactDb).toBeCloseTo(10 * Math.log10(1 + spread ** 2), 10)
  })

  test('an angle adds exactly the loss of turning by twice the angle, whatever the gap', () => {
    // The image is turned by 2 beta and shifted by 2 beta gap, which for a mode against itself cancels to the
    // overlap at a common waist: the lateral shift is half the image distance times the tilt.
    const angle = 3 * DEGREE
    const turned = lossDb(jointEfficiency({ ...MATCHED, tiltXRad: 2 * angle }))
    for (const gapUm of [0, 5, 20, 100]) {
      const square = farFaceReturnLoss({ ...FAR, gapUm })
      expect(farFaceReturnLoss({ ...FAR, gapUm, incidenceXRad: angle }) - square).toBeCloseTo(turned, 8)
      expect(farFaceReturnLoss({ ...FAR, gapUm, incidenceYRad: -angle }) - square).toBeCloseTo(turned, 8)
    }
  })

  test('a far medium equal to the gap returns nothing, and impossible gaps are refused', () => {
    expect(farFaceReturnLoss({ ...FAR, farIndex: 1 })).toBe(Number.POSITIVE_INFINITY)
    expect(() => farFaceReturnLoss({ ...FAR, gapUm: -1 })).toThrow('gapUm is -')
    expect(() => farFaceReturnLoss({ ...FAR, mfdYUm: 0 })).toThrow(InputError)
  })
})

describe('the angle that a wanted return loss takes', () => {
  const R0 = fresnelReflectance({ index1: 1.468, index2: 1 }).unpolarised
  const guide = (mfdUm: number) => ({ wavelengthUm: 1.55, guideIndex: 1.468, mfdUm })

  // D. Marcuse, Appl. Opt. 14 (1975) 3016: 95.51 dB at 8 degrees for 10.4 um, 22.12 dB for 3.2 um.
  test('is 8 degrees for 95.51 dB at 10.4 um, and for 22.12 dB at 3.2 um', () => {
    expect(faceAngleForReturnLoss(guide(10.4), R0, 95.51) / DEGREE).toBeCloseTo(8, 3)
    expect(faceAngleForReturnLoss(guide(3.2), R0, 22.1175) / DEGREE).toBeCloseTo(8, 3)
  })

  test('undoes the return loss of any angle', () => {
    fc.assert(
      fc.property(uniform(0.01, 0.3), uniform(2, 12), (angle, mfdUm) => {
        const wanted = faceReturnLoss({ ...FACE, mfdXUm: mfdUm, mfdYUm: mfdUm, angleXRad: angle })
        fc.pre(wanted <= 200)
        expect(faceAngleForReturnLoss(guide(mfdUm), R0, wanted)).toBeCloseTo(angle, 9)
      }),
    )
  })

  test('is none where the square face already returns less, and no reflectance above 1 is taken', () => {
    expect(faceAngleForReturnLoss(guide(10.4), R0, 10)).toBe(0)
    expect(faceAngleForReturnLoss(guide(10.4), 0, 60)).toBe(0)
    expect(() => faceAngleForReturnLoss(guide(10.4), 1.1, 60)).toThrow('reflectance is 1.1')
  })
})

describe('the parts of the return losses', () => {
  test('square faces turn nothing, and a mirror at no distance gives the whole mode back', () => {
    expect(turnedReturnDb(FACE)).toBe(0)
    expect(mirrorOverlap({ ...FAR, gapUm: 0 })).toBeCloseTo(1, 12)
  })
})
