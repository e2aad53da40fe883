// A cell formula together with what it comes to: every formula of the workbook is built from these, so that the value kept
// for viewers cannot differ from what a spreadsheet program computes.

export interface Term {
  /** As it stands in a formula, in the notation of ECMA-376, without the leading =. */
  readonly text: string
  readonly value: number
}

/** A number in the notation of formulas. */
export function literal(value: number): Term {
  const text = String(value).replace('e', 'E')
  return { text: value < 0 ? `(${text})` : text, value }
}

const joined = (terms: readonly Term[], sign: string) => `(${terms.map(({ text }) => text).join(sign)})`

export function plus(...terms: readonly Term[]): Term {
  return { text: joined(terms, '+'), value: terms.reduce((sum, { value }) => sum + value, 0) }
}

export function minus(a: Term, b: Term): Term {
  return { text: `(${a.text}-${b.text})`, value: a.value - b.value }
}

export function times(...terms: readonly Term[]): Term {
  return { text: joined(terms, '*'), value: terms.reduce((product, { value }) => product * value, 1) }
}

export function over(a: Term, b: Term): Term {
  return { text: `(${a.text}/${b.text})`, value: a.value / b.value }
}

/** Written as a product: programs differ in how tightly a power binds to a sign. */
export function square(a: Term): Term {
  return times(a, a)
}

const FUNCTIONS = {
  SQRT: Math.sqrt,
  SIN: Math.sin,
  COS: Math.cos,
  ASIN: Math.asin,
  EXP: Math.exp,
  LOG10: Math.log10,
} as const

export function call(name: keyof typeof FUNCTIONS, a: Term): Term {
  return { text: `${name}(${a.text})`, value: FUNCTIONS[name](a.value) }
}

export function most(...terms: readonly Term[]): Term {
  return {
    text: `MAX(${terms.map(({ text }) => text).join(',')})`,
    value: Math.max(...terms.map(({ value }) => value)),
  }
}

/** Root of the sum of squares of some cells, given as a range and as their values. */
export function rootOfSquares(range: string, values: readonly number[]): Term {
  return {
    text: `SQRT(SUMSQ(${range}))`,
    value: Math.sqrt(values.reduce((sum, value) => sum + value * value, 0)),
  }
}
