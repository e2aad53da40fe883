import { all, create } from 'mathjs'
import { describe, expect, test } from 'vitest'
import {
  bySign,
  call,
  differenceTerm,
  type FormulaTerm,
  literal,
  most,
  productTerm,
  quotientTerm,
  rootOfSquares,
  square,
  sumTerm,
  worseEnd,
} from '../../../src/report/workbook/term'

// The text of a term is computed by a reader that is not ours (mathjs); its value must be the same.
const math = create(all ?? {}, { predictable: true })
const FUNCTIONS = {
  SQRT: Math.sqrt,
  SIN: Math.sin,
  COS: Math.cos,
  ASIN: Math.asin,
  EXP: Math.exp,
  LOG10: Math.log10,
  MAX: Math.max,
  IF: (condition: boolean, then: number, otherwise: number) => (condition ? then : otherwise),
  SUMSQ: (...values: readonly number[]) => values.reduce((sum, each) => sum + each * each, 0),
}

const [a, b, c] = [literal(0.7), literal(-0.3), literal(2.5e-7)]

const TERMS: Readonly<Record<string, FormulaTerm>> = {
  'a negative number': b,
  'a small number': c,
  'a sum': sumTerm(a, b, c),
  'a difference': differenceTerm(a, b),
  'a product': productTerm(a, b, c),
  'a quotient': quotientTerm(a, c),
  'a square of a negative number': square(b),
  'a sine': call('SIN', a),
  'a cosine': call('COS', a),
  'an arc sine': call('ASIN', a),
  'an exponential': call('EXP', b),
  'a logarithm': call('LOG10', a),
  'the greatest': most(b, a, c),
  'up, by sign': bySign(literal(1), a, b),
  'down, by sign': bySign(literal(-1), a, b),
  'the upper end loses more': worseEnd(literal(1), literal(1.1), -1),
  'the lower end loses more': worseEnd(literal(1.1), literal(1), 1),
  'both ends lose alike, once up': worseEnd(literal(1), literal(1 + 1e-12), 1),
  'both ends lose alike, once down': worseEnd(literal(1), literal(1), -1),
  'a root of squares': rootOfSquares('0.7,(-0.3)', [0.7, -0.3]),
}

test.each(Object.entries(TERMS))('%s comes to what its text says', (_, { text, value }) => {
  expect(Number(math.evaluate(text, { ...FUNCTIONS }))).toBeCloseTo(value, 12)
})

describe('known values', () => {
  test('0.3 and 0.4 in quadrature are 0.5', () => {
    expect(rootOfSquares('A1:A2', [0.3, 0.4]).value).toBeCloseTo(0.5, 15)
  })

  test('the worse end is 1 above, -1 below, and the one given where both lose alike', () => {
    const ends = ([lower, upper]: readonly [number, number], otherwise: -1 | 1) =>
      worseEnd(literal(lower), literal(upper), otherwise).value
    expect([ends([1, 2], -1), ends([2, 1], 1), ends([1, 1], 1), ends([1, 1], -1)]).toEqual([1, -1, 1, -1])
  })
})
