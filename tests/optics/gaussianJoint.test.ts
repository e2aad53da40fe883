import { describe, expect, test } from 'vitest'
import { InputError } from '../../src/numerics/inputError'
import { JOINT_FIELDS, JOINT_RANGES, requireJoint } from '../../src/optics/gaussianJoint'
import { jointEfficiency } from '../../src/optics/joint'
import { MATCHED } from './jointCases'

describe('the door of a joint', () => {
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
