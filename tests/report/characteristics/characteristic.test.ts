import { describe, expect, test } from 'vitest'
import { type Quantity, quantityOf } from '../../../src/model/quantity/quantity'
import {
  limitsOf,
  requirementText,
  type Sense,
  spreadText,
} from '../../../src/report/characteristics/characteristic'

const oneSided = (side: 'above' | 'below'): Quantity =>
  quantityOf(3.4, 'um', 'data sheet', { plusMinus: 0.2, distribution: 'one-sided', side })

const CASES: readonly (readonly [Quantity, Sense, string, number | null, number | null])[] = [
  [quantityOf(8.2, 'um', 'estimate', 0.2), 'within', '8.2 ± 0.2 µm', 8, 8.4],
  [oneSided('above'), 'within', '3.4 +0.2/−0 µm', 3.4, 3.6],
  [oneSided('below'), 'within', '3.4 +0/−0.2 µm', 3.2, 3.4],
  [quantityOf(0.35, 'dB', 'estimate', 0.1), 'at most', '≤ 0.45 dB', null, 0.45],
  [quantityOf(0.25, '%', 'estimate'), 'at most', '≤ 0.25 %', null, 0.25],
  [quantityOf(30, 'dB', 'estimate', 2), 'at least', '≥ 28 dB', 28, null],
  [quantityOf(-8, 'deg', 'estimate', 0.3), 'within', '−8 ± 0.3°', -8.3, -7.7],
  [quantityOf(10, 'mm', 'estimate'), 'within', '10 mm, tolerance to be agreed', null, null],
]

describe('a characteristic', () => {
  test.each(CASES)('%o, %s: %s', (quantity, sense, text, lower, upper) => {
    expect(requirementText({ quantity, sense })).toBe(text)
    expect(limitsOf({ quantity, sense })).toEqual({ lower, upper })
  })

  test('says how far out its limits lie in the spread that the budget assumes', () => {
    const of = (tolerance: Quantity['tolerance']) =>
      spreadText({
        id: '',
        label: '',
        sense: 'within',
        method: 'size',
        quantity: quantityOf(1, 'um', 'estimate', tolerance),
      })
    expect(of({ plusMinus: 0.1, distribution: 'normal' })).toBe('normal, limits at 2 σ')
    expect(of({ plusMinus: 0.1, distribution: 'normal', coverage: 3 })).toBe('normal, limits at 3 σ')
    expect(of({ plusMinus: 0.1, distribution: 'uniform' })).toBe('uniform')
    expect(of(undefined)).toBe('')
  })
})
