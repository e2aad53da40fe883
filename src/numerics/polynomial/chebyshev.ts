// A smooth function as a polynomial on an interval, for functions evaluated too often to be computed.
//   f(x) = c0 / 2 + sum of c_k T_k(t),  t = (2 x - from - to) / (to - from), c_k from the Chebyshev points
// Source: C. W. Clenshaw, Math. Comput. 9 (1955) 118 (evaluation); error falls by a constant factor with each term.

import { InputError, requireFinite } from '../inputError'

export interface ChebyshevSeries {
  readonly from: number
  readonly to: number
  readonly coefficients: Float64Array
  /** Size of the last two coefficients: about the largest error of the series inside its interval. */
  readonly error: number
}

/** The series through `count` Chebyshev points of f. Throws InputError for an empty interval or fewer than 4 points. */
export function chebyshevSeries(
  f: (x: number) => number,
  from: number,
  to: number,
  count: number,
): ChebyshevSeries {
  requireFinite('from', from)
  if (!(requireFinite('to', to) > from)) throw new InputError('to', to, `above from, ${from}`)
  if (!Number.isInteger(count) || count < 4) throw new InputError('count', count, 'a whole number, 4 or more')
  const values = Float64Array.from({ length: count }, (_, j) => {
    const t = Math.cos((Math.PI * (j + 0.5)) / count)
    return f(from + ((to - from) * (t + 1)) / 2)
  })
  const coefficients = Float64Array.from({ length: count }, (_, k) => {
    let sum = 0
    for (let j = 0; j < count; j++) sum += (values[j] as number) * Math.cos((Math.PI * k * (j + 0.5)) / count)
    return (2 * sum) / count
  })
  const error = Math.abs(coefficients[count - 1] as number) + Math.abs(coefficients[count - 2] as number)
  return { from, to, coefficients, error }
}

/** Value of the series; meaningful from `from` to `to` only. */
export function chebyshevValue({ from, to, coefficients }: ChebyshevSeries, x: number): number {
  const t = (2 * x - from - to) / (to - from)
  const twice = 2 * t
  let before = 0
  let now = 0
  for (let k = coefficients.length - 1; k > 0; k--) {
    // In this order the next step waits for one product and one sum only.
    const next = twice * now + ((coefficients[k] as number) - before)
    before = now
    now = next
  }
  return t * now - before + (coefficients[0] as number) / 2
}
