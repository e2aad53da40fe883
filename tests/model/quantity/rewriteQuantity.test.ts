import { expect, test } from 'vitest'
import { coreHalfWidth, coreValue, quantityOf } from '../../../src/model/quantity/quantity'
import { rewriteQuantity } from '../../../src/model/quantity/rewriteQuantity'

test('a value entered in another unit leaves the size of the tolerance unchanged', () => {
  for (const [value, unit] of [
    [3000, 'nm'],
    [0.003, 'mm'],
    [3, 'um'],
  ] as const) {
    const gap = quantityOf(3, 'um', 'data sheet', 1)
    rewriteQuantity(gap, { value, unit })
    expect(coreValue(gap, 'gap')).toBeCloseTo(3, 12)
    expect(coreHalfWidth(gap, 'gap')).toBeCloseTo(1, 12)
    expect(gap.provenance).toBe('data sheet')
  }
})

test('a plain value takes the place of an expression', () => {
  const gap = { ...quantityOf(40, 'um'), typed: '80/2 um' }
  rewriteQuantity(gap, { value: 12, unit: 'um' })
  expect(gap).toMatchObject({ value: 12, typed: undefined })
})
