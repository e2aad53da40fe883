import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { InputError } from '../../../src/numerics/inputError'
import { facePointing } from '../../../src/optics/faces/snell'
import { uniform } from '../../support/arbitrary'

const DEGREE = Math.PI / 180

/** Refraction by vectors: the tangential wave vector is kept. The normal is tilted towards -x for a positive angle. */
function refractedSlopeAngle(n1: number, n2: number, faceAngle: number): number {
  const normal = [-Math.sin(faceAngle), Math.cos(faceAngle)] as const
  const tangent = [Math.cos(faceAngle), Math.sin(faceAngle)] as const
  const along = n1 * (0 * tangent[0] + 1 * tangent[1])
  const through = Math.sqrt(n2 ** 2 - along ** 2)
  const x = along * tangent[0] + through * normal[0]
  const z = along * tangent[1] + through * normal[1]
  return Math.atan2(x, z)
}

describe('pointing of an angled face', () => {
  test('it follows from the kept tangential wave vector, sign included', () => {
    fc.assert(
      fc.property(
        uniform(1, 2),
        uniform(1, 2),
        uniform(-0.4, 0.4),
        (guideIndex, mediumIndex, faceAngleRad) => {
          const pointing = facePointing({ guideIndex, mediumIndex, faceAngleRad })
          if (pointing.totalInternalReflection) return
          const expected = refractedSlopeAngle(guideIndex, mediumIndex, faceAngleRad)
          expect(pointing.exitDeviationRad).toBeCloseTo(expected, 12)
        },
      ),
    )
  })

  // 1.468 is the group index of a standard fibre: here only a number at which the angle was worked out.
  test('8 degrees of n = 1.468 turn the beam by 3.7889 degrees in air towards the longer side', () => {
    const pointing = facePointing({ guideIndex: 1.468, mediumIndex: 1, faceAngleRad: 8 * DEGREE })
    expect(pointing).toMatchObject({ totalInternalReflection: false, incidenceRad: 8 * DEGREE })
    if (pointing.totalInternalReflection) return
    expect(pointing.exitDeviationRad / DEGREE).toBeCloseTo(3.788883, 6)
    expect(pointing.refractedRad / DEGREE).toBeCloseTo(11.788883, 6)
    expect(pointing.footprintScale).toBeCloseTo(Math.cos(11.788883 * DEGREE) / Math.cos(8 * DEGREE), 8)
  })

  test('a square face, or equal media, leave the beam alone', () => {
    for (const face of [
      { guideIndex: 1.468, mediumIndex: 1, faceAngleRad: 0 },
      { guideIndex: 1.468, mediumIndex: 1.468, faceAngleRad: 0.14 },
    ]) {
      const pointing = facePointing(face)
      if (pointing.totalInternalReflection) expect.fail('the light leaves')
      expect(pointing.exitDeviationRad).toBeCloseTo(0, 15)
      expect(pointing.footprintScale).toBeCloseTo(1, 15)
    }
  })

  test('the opposite angle turns the beam the opposite way', () => {
    const up = facePointing({ guideIndex: 1.468, mediumIndex: 1, faceAngleRad: 0.14 })
    const down = facePointing({ guideIndex: 1.468, mediumIndex: 1, faceAngleRad: -0.14 })
    if (up.totalInternalReflection || down.totalInternalReflection) expect.fail('the light leaves')
    expect(down.exitDeviationRad).toBe(-up.exitDeviationRad)
    expect(down.footprintScale).toBe(up.footprintScale)
  })

  test('beyond the critical angle no beam leaves, and the critical angle is named', () => {
    const none = facePointing({ guideIndex: 3.4757, mediumIndex: 1, faceAngleRad: 20 * DEGREE })
    expect(none).toMatchObject({ totalInternalReflection: true, incidenceRad: 20 * DEGREE })
    if (none.totalInternalReflection)
      expect(none.criticalRad / DEGREE).toBeCloseTo((Math.asin(1 / 3.4757) * 180) / Math.PI, 12)
  })

  test('impossible faces are refused', () => {
    for (const faceAngleRad of [2, -2])
      expect(() => facePointing({ guideIndex: 1.468, mediumIndex: 1, faceAngleRad })).toThrow(InputError)
    expect(() => facePointing({ guideIndex: 1.468, mediumIndex: 1, faceAngleRad: Math.PI / 2 })).toThrow(
      'between -pi/2 and pi/2, exclusive',
    )
    expect(() => facePointing({ guideIndex: 0, mediumIndex: 1, faceAngleRad: 0 })).toThrow(InputError)
  })
})
