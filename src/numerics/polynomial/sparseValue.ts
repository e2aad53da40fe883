// The value of a sum of products of Chebyshev polynomials of several variables, as sparseChebyshev.ts fits them:
//   f(x) = sum of c_a T_a1(t1) T_a2(t2) ...,  t = (2 x - from - to) / (to - from), cut to -1..1

export interface Box {
  readonly from: readonly number[]
  readonly to: readonly number[]
}

export interface SparseSeries {
  readonly box: Box
  /** Highest order of each variable. */
  readonly orders: readonly number[]
  /** Of each term: the term that it multiplies (itself less its last variable), and the table place of the polynomial. */
  readonly before: Int32Array
  readonly factor: Int32Array
  readonly coefficients: Float64Array
}

/** Products that differ only in one variable, whose polynomials follow one another by two. */
interface Run {
  readonly before: number
  readonly start: number
  readonly coefficients: readonly number[]
}

/** The terms as runs over one variable: of each parity one for every product of the others. */
function runsOf({ orders, before, factor, coefficients }: SparseSeries, along: number): readonly Run[] {
  const start = orders.slice(0, along).reduce((sum, order) => sum + order + 1, 0)
  const end = start + (orders[along] ?? 0)
  const rows = new Map<string, Run & { readonly coefficients: number[] }>()
  const add = (term: number, order: number, coefficient: number) => {
    const key = `${term} ${order % 2}`
    const row = rows.get(key) ?? { before: term, start: order % 2, coefficients: [] }
    rows.set(key, row)
    const at = (order - (order % 2)) / 2
    while (row.coefficients.length <= at) row.coefficients.push(0)
    row.coefficients[at] = coefficient
  }
  for (let i = 0; i < coefficients.length; i++) {
    const place = factor[i] ?? 0
    const isAlong = i > 0 && place > start && place <= end
    const coefficient = coefficients[i] ?? 0
    if (coefficient === 0) continue
    if (isAlong) add(before[i] ?? 0, place - start, coefficient)
    else add(i, 0, coefficient)
  }
  return [...rows.values()]
}

/**
 * The function of the series: beyond its box it holds the value of the nearest point. Allocates nothing when called.
 * Sums run along the variable of highest order, whose polynomials are stored beside one another.
 */
export function sparseValue(series: SparseSeries): (point: ArrayLike<number>) => number {
  const { box, orders } = series
  const width = orders.length
  const along = orders.reduce((most, order, i) => (order >= (orders[most] ?? 0) ? i : most), 0)
  const runs = runsOf(series, along)
  // Products of the other variables, each once, in an order in which the one that it multiplies comes first.
  const products: number[] = []
  const placeOf = new Map<number, number>()
  const need = (term: number): number => {
    const known = placeOf.get(term)
    if (known !== undefined) return known
    if (term > 0) need(series.before[term] ?? 0)
    placeOf.set(term, products.length)
    products.push(term)
    return products.length - 1
  }
  need(0)
  const runBefore = Int32Array.from(runs, (run) => need(run.before))
  const runStart = Int32Array.from(runs, (run) => run.start)
  const runEnd = new Int32Array(runs.length)
  const flat: number[] = []
  for (const [i, run] of runs.entries()) {
    flat.push(...run.coefficients)
    runEnd[i] = flat.length
  }
  const coefficients = Float64Array.from(flat)
  const before = Int32Array.from(products, (term) => placeOf.get(series.before[term] ?? 0) ?? 0)
  const factor = Int32Array.from(products, (term) => series.factor[term] ?? 0)
  const values = new Float64Array(products.length)
  values[0] = 1
  const from = Float64Array.from(box.from)
  const scale = Float64Array.from(box.to, (to, i) =>
    to > (box.from[i] ?? 0) ? 2 / (to - (box.from[i] ?? 0)) : 0,
  )
  const table = new Float64Array(orders.reduce((sum, order) => sum + order + 1, 0))
  const highest = Int32Array.from(orders)
  const alongStart = orders.slice(0, along).reduce((sum, order) => sum + order + 1, 0)
  const alongOrder = orders[along] ?? 0
  const apart = new Float64Array(alongOrder + 2)
  const odd = (alongOrder >> 1) + 1
  return (point) => {
    for (let i = 0, at = 0; i < width; i++) {
      const order = highest[i] as number
      if (order > 0) {
        const raw = (scale[i] as number) * ((point[i] as number) - (from[i] as number)) - 1
        const t = Math.max(-1, Math.min(raw, 1))
        let a = 1
        let b = t
        table[at] = 1
        table[at + 1] = t
        for (let k = 2; k <= order; k++) {
          const c = 2 * t * b - a
          table[at + k] = c
          a = b
          b = c
        }
      }
      at += order + 1
    }
    for (let k = 0; k <= alongOrder; k++) {
      apart[(k & 1) * odd + (k >> 1)] = k === 0 ? 1 : (table[alongStart + k] as number)
    }
    for (let i = 1; i < values.length; i++) {
      values[i] = (values[before[i] as number] as number) * (table[factor[i] as number] as number)
    }
    let sum = 0
    for (let i = 0, j = 0; i < runBefore.length; i++) {
      const end = runEnd[i] as number
      let at = (runStart[i] as number) * odd
      let part = 0
      for (; j < end; j++, at++) part += (coefficients[j] as number) * (apart[at] as number)
      sum += part * (values[runBefore[i] as number] as number)
    }
    return sum
  }
}
