import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { InputError } from '../../../src/numerics/inputError'
import { jointEfficiency } from '../../../src/optics/joint/joint'
import {
  FORM_AXES,
  formLossDb,
  formWindow,
  misalignmentForm,
} from '../../../src/optics/joint/misalignmentForm'
import { logUniform, uniform } from '../../support/arbitrary'
import { anyJoint, MATCHED } from './jointCases'

describe('the quadratic form of offset and tilt', () => {
  test('it gives the exact loss of any joint, however far off', () => {
    fc.assert(
      fc.property(anyJoint, (joint) => {
        const exact = 0 - 10 * Math.log10(jointEfficiency(joint))
        fc.pre(exact < 300) // beyond, the efficiency itself runs out of digits
        return Math.abs(formLossDb(misalignmentForm(joint), joint) - exact) < 1e-9 * Math.max(1, exact)
      }),
      { numRuns: 1000 },
    )
  })

  test('its curvature is symmetric and never negative along an axis', () => {
    fc.assert(
      fc.property(anyJoint, (joint) => {
        const { curvatureDb } = misalignmentForm(joint)
        for (let i = 0; i < 4; i++) {
          expect(curvatureDb[5 * i]).toBeGreaterThan(0)
          for (let j = 0; j < 4; j++) {
            const scale = Math.sqrt((curvatureDb[5 * i] ?? 0) * (curvatureDb[5 * j] ?? 0))
            expect(Math.abs((curvatureDb[4 * i + j] ?? 0) - (curvatureDb[4 * j + i] ?? 0))).toBeLessThan(
              1e-12 * scale,
            )
          }
        }
      }),
    )
  })

  test('matched modes of 10.4 um lose 0.160612 dB at 1 um and 0.146954 dB at 1 degree in air', () => {
    // D. Marcuse, Bell Syst. Tech. J. 56 (1977) 703 (formula from memory).
    const { curvatureDb, alignedLossDb } = misalignmentForm(MATCHED)
    expect(alignedLossDb).toBeCloseTo(0, 14)
    expect(curvatureDb[0]).toBeCloseTo(0.160612, 6)
    expect((curvatureDb[10] ?? 0) * (Math.PI / 180) ** 2).toBeCloseTo(0.146954, 6)
  })
})

describe('the window of one axis', () => {
  test('at both ends the loss is higher than at the best point by what was asked, and no point beats the best', () => {
    fc.assert(
      fc.property(
        anyJoint,
        fc.constantFrom(...FORM_AXES),
        logUniform(0.01, 10),
        uniform(-1, 1),
        (joint, axis, excessDb, share) => {
          const form = misalignmentForm(joint)
          const { best, lower, upper } = formWindow(form, axis, joint, excessDb)
          const loss = (value: number) => formLossDb(form, { ...joint, [axis]: value })
          const scale = Math.max(1, loss(best))
          expect(Math.abs(loss(lower) - loss(best) - excessDb)).toBeLessThan(1e-9 * scale)
          expect(Math.abs(loss(upper) - loss(best) - excessDb)).toBeLessThan(1e-9 * scale)
          expect(loss(best + share * (upper - best))).toBeGreaterThan(loss(best) - 1e-9 * scale)
        },
      ),
    )
  })

  test('a joint that is not one is refused', () => {
    expect(() => misalignmentForm({ ...MATCHED, emitterMfdXUm: 0 })).toThrow(InputError)
  })
})
