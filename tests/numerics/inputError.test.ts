import { describe, expect, test } from 'vitest'
import { InputError, requireFinite, requireInRange, requirePositive } from '../../src/numerics/inputError'

describe('the error for bad numbers', () => {
  test('it says the field, the value and what is allowed in one sentence', () => {
    const error = new InputError('gapUm', -3, '0 to 500')
    expect(error.message).toBe('gapUm is -3; must be 0 to 500')
    expect(error).toMatchObject({ name: 'InputError', field: 'gapUm', value: -3, allowed: '0 to 500' })
    expect(error).toBeInstanceOf(Error)
  })

  test('it quotes text and calls undefined missing', () => {
    expect(new InputError('mfdUm', '9.2', 'a number').message).toBe('mfdUm is "9.2"; must be a number')
    expect(new InputError('mfdUm', undefined, 'a number').message).toBe('mfdUm is missing; must be a number')
  })
})

describe('the door checks', () => {
  test('they return the value they accept, borders included', () => {
    expect(requireFinite('x', -0.5)).toBe(-0.5)
    expect(requirePositive('x', 1e-300)).toBe(1e-300)
    expect(requireInRange('x', 0, 0, 500)).toBe(0)
    expect(requireInRange('x', 500, 0, 500)).toBe(500)
  })

  test.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, '3', null, undefined])(
    'all of them refuse %s',
    (value) => {
      const bad = value as unknown as number
      expect(() => requireFinite('x', bad)).toThrow(InputError)
      expect(() => requirePositive('x', bad)).toThrow(InputError)
      expect(() => requireInRange('x', bad, 0, 1)).toThrow(InputError)
    },
  )

  test('zero and below are not positive, and outside a range is outside', () => {
    expect(() => requirePositive('mfdUm', 0)).toThrow('mfdUm is 0; must be a finite number above 0')
    expect(() => requirePositive('mfdUm', -1)).toThrow(InputError)
    expect(() => requireInRange('gapUm', -1e-9, 0, 500)).toThrow('gapUm is -1e-9; must be 0 to 500')
    expect(() => requireInRange('gapUm', 500.1, 0, 500)).toThrow(InputError)
  })
})
