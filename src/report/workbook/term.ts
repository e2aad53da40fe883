// A cell formula together with what it comes to: every formula of the workbook is built from these, so that the value kept
// for viewers cannot differ from what a spreadsheet program computes.

export interface FormulaTerm {
  /** As written in a formula, in the notation of ECMA-376, without the leading =. */
  readonly text: string
  readonly value: number
}

/** A number in the notation of formulas. */
export function literal(value: number): FormulaTerm {
  const text = String(value).replace('e', 'E')
  return { text: value < 0 ? `(${text})` : text, value }
}

const joined = (terms: readonly FormulaTerm[], sign: string) =>
  `(${terms.map(({ text }) => text).join(sign)})`

export function sumTerm(...terms: readonly FormulaTerm[]): FormulaTerm {
  return { text: joined(terms, '+'), value: terms.reduce((sum, { value }) => sum + value, 0) }
}

export function differenceTerm(a: FormulaTerm, b: FormulaTerm): FormulaTerm {
  return { text: `(${a.text}-${b.text})`, value: a.value - b.value }
}

export function productTerm(...terms: readonly FormulaTerm[]): FormulaTerm {
  return { text: joined(terms, '*'), value: terms.reduce((product, { value }) => product * value, 1) }
}

export function quotientTerm(a: FormulaTerm, b: FormulaTerm): FormulaTerm {
  return { text: `(${a.text}/${b.text})`, value: a.value / b.value }
}

/** Written as a product: programs differ in how tightly a power binds to a sign. */
export function square(a: FormulaTerm): FormulaTerm {
  return productTerm(a, a)
}

const FUNCTIONS = {
  SQRT: Math.sqrt,
  SIN: Math.sin,
  COS: Math.cos,
  ASIN: Math.asin,
  EXP: Math.exp,
  LOG10: Math.log10,
} as const

export function call(name: keyof typeof FUNCTIONS, a: FormulaTerm): FormulaTerm {
  return { text: `${name}(${a.text})`, value: FUNCTIONS[name](a.value) }
}

export function most(...terms: readonly FormulaTerm[]): FormulaTerm {
  return {
    text: `MAX(${terms.map(({ text }) => text).join(',')})`,
    value: Math.max(...terms.map(({ value }) => value)),
  }
}

/** One of two terms by a cell that holds 1 or -1. */
export function bySign(sign: FormulaTerm, up: FormulaTerm, down: FormulaTerm): FormulaTerm {
  return { text: `IF(${sign.text}>0,${up.text},${down.text})`, value: sign.value > 0 ? up.value : down.value }
}

/** Losses that differ by less are equal, dB. */
const EQUAL_DB = 1e-9

/** 1 where the upper end of a tolerance loses more, -1 where the lower one does, and `otherwise` where both lose alike. */
export function worseEnd(lower: FormulaTerm, upper: FormulaTerm, otherwise: -1 | 1): FormulaTerm {
  const step = upper.value - lower.value
  const limit = literal(EQUAL_DB).text
  return {
    text: `IF((${upper.text}-${lower.text})>${limit},1,IF((${lower.text}-${upper.text})>${limit},(-1),${literal(otherwise).text}))`,
    value: step > EQUAL_DB ? 1 : step < -EQUAL_DB ? -1 : otherwise,
  }
}

/** Root of the sum of squares of some cells, given as a range and as their values. */
export function rootOfSquares(range: string, values: readonly number[]): FormulaTerm {
  return {
    text: `SQRT(SUMSQ(${range}))`,
    value: Math.sqrt(values.reduce((sum, value) => sum + value * value, 0)),
  }
}
