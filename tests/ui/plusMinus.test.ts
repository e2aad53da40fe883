// The ± of a number: what is read, what is shown, and its steps by keys.

import { describe, expect, test } from 'vitest'
import { LIMITS } from '../../src/model/words/limits'
import { plusMinusText, readPlusMinus, steppedPlusMinus } from '../../src/ui/fields/plusMinus'

describe('a step of a ±', () => {
  test('adds the step of its number without noise in the last digits', () => {
    expect(steppedPlusMinus(0.2, 1, 0.1)).toBe(0.3)
    expect(steppedPlusMinus(0.3, -1, 0.1)).toBe(0.2)
    expect(steppedPlusMinus(0.5, 10, 0.5)).toBe(5.5)
  })

  test('ends at 0, which is no tolerance, and at what is allowed', () => {
    expect(steppedPlusMinus(0.2, -1, 0.5)).toBe(0)
    expect(steppedPlusMinus(0, -10, 0.1)).toBe(0)
    expect(steppedPlusMinus(LIMITS.plusMinus, 1, 1)).toBe(LIMITS.plusMinus)
  })
})

test('what is shown is read back, in the unit of the number and in others of its kind', () => {
  expect(plusMinusText({ tolerance: { distribution: 'uniform', plusMinus: 0.25 } })).toBe('± 0.25')
  expect(readPlusMinus('± 0.25', 'length', 'um')).toBe(0.25)
  expect(readPlusMinus('250 nm', 'length', 'um')).toBe(0.25)
  expect(readPlusMinus('', 'length', 'um')).toBe(0)
  expect(readPlusMinus('1 deg', 'length', 'um')).toBeNull()
})
