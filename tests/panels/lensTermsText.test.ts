import { describe, expect, test } from 'vitest'
import { quantityOf } from '../../src/model/quantity/quantity'
import { readTerms, termsText, withTerms } from '../../src/panels/parts/lensTermsText'

describe('conic and aspheric terms as text', () => {
  test.each([
    ['', { conic: 0, aspheric: [] }],
    ['-0.6', { conic: -0.6, aspheric: [] }],
    ['-0.6; 0.12 -0.03', { conic: -0.6, aspheric: [0.12, -0.03] }],
  ])('"%s" is read and written back', (text, terms) => {
    expect(readTerms(text)).toEqual(terms)
    expect(termsText(terms)).toBe(text)
  })

  test('what is no number, too many or too large is named', () => {
    expect(readTerms('-0.6; a')).toContain('"a" is not a number')
    expect(readTerms('80')).toContain('−50 to 50')
    expect(readTerms('0; 1 2 3 4 5 6 7 8')).toContain('8 entered; the limit is 7')
  })

  test('a sphere keeps neither field, and the rest of the shape stays', () => {
    const shape = {
      kind: 'plano-convex',
      radius: quantityOf(500, 'um'),
      thickness: quantityOf(500, 'um'),
    } as const
    const bent = withTerms({ ...shape }, 'conic', 'aspheric', { conic: -1, aspheric: [2] })
    expect(bent).toEqual({ ...shape, conic: -1, aspheric: [2] })
    expect(withTerms(bent, 'conic', 'aspheric', { conic: 0, aspheric: [] })).toEqual(shape)
  })
})
