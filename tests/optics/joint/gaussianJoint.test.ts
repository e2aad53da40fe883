import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { InputError } from '../../../src/numerics/inputError'
import {
  type GaussianJoint,
  JOINT_FIELDS,
  JOINT_RANGES,
  requireJoint,
} from '../../../src/optics/joint/gaussianJoint'
import { jointEfficiency } from '../../../src/optics/joint/joint'
import { MATCHED } from './jointCases'

/** What a joint is refused for, found the slow way; undefined if it is not. */
function refusalOf(
  joint: Record<string, unknown>,
): { field: string; value: unknown; allowed: string } | undefined {
  for (const field of JOINT_FIELDS) {
    const [least, greatest] = JOINT_RANGES[field]
    const value = joint[field]
    const isGood = typeof value === 'number' && Number.isFinite(value) && value >= least && value <= greatest
    if (!isGood) return { field, value, allowed: `${least} to ${greatest}` }
  }
  return undefined
}

function thrownBy(work: () => unknown): unknown {
  try {
    work()
  } catch (error) {
    return error
  }
  return undefined
}

/** Any number near a border of a field or far from all of them, and everything that only looks like a number. */
const anyValue = fc.oneof(
  fc.double(),
  fc
    .constantFrom(...Object.values(JOINT_RANGES).flat())
    .chain((border) =>
      fc.constantFrom(border, border * (1 + 2 ** -52), border * (1 - 2 ** -52), -border, Number.MIN_VALUE),
    ),
  fc.constantFrom(Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, -0),
  fc.constantFrom<unknown>(undefined, null, true, false, '', '1', 1n, Symbol('1'), [1], { valueOf: () => 1 }),
)

describe('the door of a joint', () => {
  test('jointEfficiency refuses what the slow check refuses, with the same field, value and range, and nothing else', () => {
    const changes = fc.array(fc.tuple(fc.constantFrom(...JOINT_FIELDS), anyValue), { maxLength: 3 })
    fc.assert(
      fc.property(changes, (changed) => {
        const joint: Record<string, unknown> = { ...MATCHED, ...Object.fromEntries(changed) }
        const error = thrownBy(() => jointEfficiency(joint as unknown as GaussianJoint))
        const expected = refusalOf(joint)
        if (expected === undefined) expect(error).toBeUndefined()
        else {
          expect(error).toBeInstanceOf(InputError)
          expect({ ...(error as InputError) }).toMatchObject(expected)
          expect(thrownBy(() => requireJoint(joint as unknown as GaussianJoint))).toEqual(error)
        }
      }),
      { numRuns: 3000 },
    )
  })

  test.each(JOINT_FIELDS)(
    '%s: missing, not a number, not finite, text or outside its range is refused',
    (field) => {
      const [least, greatest] = JOINT_RANGES[field]
      const bad = [undefined, Number.NaN, Number.POSITIVE_INFINITY, '1', least - 0.1, greatest * 1.1]
      for (const value of bad) {
        const joint = { ...MATCHED, [field]: value as number }
        expect(() => jointEfficiency(joint)).toThrow(InputError)
        expect(() => jointEfficiency(joint)).toThrow(
          new RegExp(`^${field} is .*; must be ${least} to ${greatest}$`),
        )
      }
    },
  )

  test('a joint in range passes unchanged, borders included', () => {
    const border = {
      ...MATCHED,
      gapUm: 0,
      tiltXRad: JOINT_RANGES.tiltXRad[0],
      offsetYUm: JOINT_RANGES.offsetYUm[1],
    }
    expect(requireJoint(border)).toBe(border)
  })

  test('a negative gap and a zero mode are named with what is allowed', () => {
    expect(() => jointEfficiency({ ...MATCHED, gapUm: -3 })).toThrow('gapUm is -3; must be 0 to 1000000')
    expect(() => jointEfficiency({ ...MATCHED, receiverMfdXUm: 0 })).toThrow(
      'receiverMfdXUm is 0; must be 0.01 to 100000',
    )
  })

  test('no corner of the allowed ranges gives anything but a number from 0 to 1', () => {
    for (let corner = 0; corner < 2 ** JOINT_FIELDS.length; corner++) {
      const joint = { ...MATCHED }
      for (const [bit, field] of JOINT_FIELDS.entries()) {
        joint[field as keyof typeof joint] = JOINT_RANGES[field][(corner >> bit) & 1 ? 1 : 0]
      }
      const efficiency = jointEfficiency(joint)
      if (!(efficiency >= 0 && efficiency <= 1)) expect.fail(`${efficiency} for ${JSON.stringify(joint)}`)
    }
  })
})
