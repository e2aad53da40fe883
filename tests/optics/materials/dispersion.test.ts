import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type DispersionFormula, evaluateDispersion } from '../../../src/optics/materials/dispersion'
import { uniform } from '../../support/arbitrary'

const FORMULAS: Readonly<Record<string, DispersionFormula>> = {
  sellmeier: {
    form: 'sellmeier',
    constant: 1,
    terms: [
      { strength: 1.1, resonanceUm: 0.09 },
      { strength: 0.9, resonanceUm: 9.9 },
    ],
  },
  'inverse-square': { form: 'inverse-square', constant: 11.65, strengthUm2: 1.03 },
  gas: { form: 'gas', terms: [{ strengthPerUm2: 0.058, polePerUm2: 238 }] },
}

describe.each(Object.entries(FORMULAS))('the %s form', (_, formula) => {
  test('its slope is the derivative of its index', () => {
    fc.assert(
      fc.property(uniform(0.5, 3), (wavelengthUm) => {
        const h = 1e-4
        const above = evaluateDispersion(formula, wavelengthUm + h).index
        const below = evaluateDispersion(formula, wavelengthUm - h).index
        expect(evaluateDispersion(formula, wavelengthUm).slopePerUm).toBeCloseTo((above - below) / (2 * h), 6)
      }),
    )
  })
})

test('the forms are what their names say, term by term', () => {
  expect(evaluateDispersion(FORMULAS.sellmeier as DispersionFormula, 2).index ** 2).toBeCloseTo(
    1 + (1.1 * 4) / (4 - 0.0081) + (0.9 * 4) / (4 - 98.01),
    12,
  )
  expect(evaluateDispersion(FORMULAS['inverse-square'] as DispersionFormula, 2).index ** 2).toBeCloseTo(
    11.9075,
    12,
  )
  expect(evaluateDispersion(FORMULAS.gas as DispersionFormula, 2).index).toBeCloseTo(1 + 0.058 / 237.75, 14)
})
