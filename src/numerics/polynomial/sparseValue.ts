// The value of a sum of products of Chebyshev polynomials of several variables, as sparseChebyshev.ts fits them:
//   f(x) = sum of c_a T_a1(t1) T_a2(t2) ...,  t = (2 x - from - to) / (to - from), cut to -1..1
// The terms become a matrix: f = sum over k of T_k(t) (sum over c of m_kc P_c), t one of the variables and P products of the
// others. A few dozen products then serve hundreds of terms.

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

/** Entries of a row that are summed side by side; rows are filled up with zeros to a multiple of it. */
const LANES = 4

/** The terms that matter: their orders, and codes that distinguish them. */
interface Terms {
  readonly orders: readonly (readonly number[])[]
  readonly coefficients: readonly number[]
  /** Sum of the orders, each times its variable's weight. */
  readonly codes: readonly number[]
  readonly weights: readonly number[]
}

function termsOf({ orders, before, factor, coefficients }: SparseSeries): Terms {
  let weight = 1
  const weights = orders.map((highest) => {
    const own = weight
    weight *= highest + 1
    return own
  })
  const indices = orders.flatMap((highest, variable) =>
    Array.from({ length: highest + 1 }, (_, order) => ({ variable, order })),
  )
  const all: number[][] = []
  const codes: number[] = []
  for (let i = 0; i < coefficients.length; i++) {
    const own = [...(all[before[i] ?? -1] ?? orders.map(() => 0))]
    const index = indices[factor[i] ?? 0]
    if (i > 0 && index !== undefined) own[index.variable] = index.order
    all.push(own)
    codes.push(own.reduce((sum, order, k) => sum + order * (weights[k] ?? 0), 0))
  }
  const counts = (_: unknown, i: number) => coefficients[i] !== 0
  return {
    orders: all.filter(counts),
    coefficients: [...coefficients].filter(counts),
    codes: codes.filter(counts),
    weights,
  }
}

/** Codes of the terms without the polynomial of one variable. */
const codesWithout = ({ orders, codes, weights }: Terms, variable: number) =>
  codes.map((code, i) => code - (orders[i]?.[variable] ?? 0) * (weights[variable] ?? 0))

/** About what a matrix costs whose rows are the orders of a variable: each reaches to the last column that it uses. */
function costOf(terms: Terms, variable: number): number {
  const columns = codesWithout(terms, variable)
  const uses = new Map<number, number>()
  for (const column of columns) uses.set(column, (uses.get(column) ?? 0) + 1)
  const rank = new Map([...uses].sort((a, b) => b[1] - a[1]).map(([column], i) => [column, i + 1]))
  const lengths: number[] = []
  for (const [i, each] of terms.orders.entries()) {
    const row = each[variable] ?? 0
    lengths[row] = Math.max(lengths[row] ?? 0, rank.get(columns[i] ?? 0) ?? 0)
  }
  return lengths.reduce((sum, length) => sum + length, 2 * uses.size)
}

/** Products by their codes, in an order in which each comes after the one that it is a polynomial times. */
interface Products {
  readonly index: ReadonlyMap<number, number>
  readonly before: Int32Array
  readonly factor: Int32Array
}

/** The products of these codes and what they are made of, the most used ones first. */
function productsOf(
  codes: readonly number[],
  weights: readonly number[],
  orders: readonly number[],
): Products {
  const starts = orders.map((_, i) => orders.slice(0, i).reduce((sum, order) => sum + order + 1, 0))
  const made = new Map([[0, { uses: codes.length, parent: 0, factor: 0 }]])
  const use = (code: number): void => {
    if (code === 0) return
    const last = weights.findLastIndex((weight, i) => (orders[i] ?? 0) > 0 && code >= weight)
    const order = Math.floor(code / (weights[last] ?? 1))
    const parent = code - order * (weights[last] ?? 0)
    use(parent)
    const known = made.get(code)
    if (known === undefined) made.set(code, { uses: 1, parent, factor: (starts[last] ?? 0) + order })
    else known.uses++
  }
  for (const code of codes) use(code)
  // What a product is made of is used at least as often, and was met first.
  const sorted = [...made].sort((a, b) => b[1].uses - a[1].uses)
  const index = new Map(sorted.map(([code], i) => [code, i]))
  return {
    index,
    before: Int32Array.from(sorted, ([, { parent }]) => index.get(parent) ?? 0),
    factor: Int32Array.from(sorted, ([, { factor }]) => factor),
  }
}

/** The variable whose orders make the cheapest matrix. */
function cheapestRows(terms: Terms, orders: readonly number[]): number {
  let [best, least] = [0, Number.POSITIVE_INFINITY]
  for (const [variable, highest] of orders.entries()) {
    if (highest === 0) continue
    const cost = costOf(terms, variable)
    if (cost < least) [best, least] = [variable, cost]
  }
  return best
}

/** The function of the series: beyond its box it holds the value of the nearest point. Allocates nothing when called. */
export function sparseValue(series: SparseSeries): (point: ArrayLike<number>) => number {
  const { box, orders } = series
  const terms = termsOf(series)
  const along = cheapestRows(terms, orders)
  const columns = codesWithout(terms, along)
  const products = productsOf(columns, terms.weights, orders)
  const rows = Array.from({ length: (orders[along] ?? 0) + 1 }, (): number[] => [])
  for (const [i, each] of terms.orders.entries()) {
    const row = rows[each[along] ?? 0] ?? []
    const column = products.index.get(columns[i] ?? 0) ?? 0
    while (row.length <= column || row.length % LANES > 0) row.push(0)
    row[column] = terms.coefficients[i] ?? 0
  }
  const entries = Float64Array.from(rows.flat())
  const rowLength = Int32Array.from(rows, (row) => row.length)
  const rowStart = orders.slice(0, along).reduce((sum, order) => sum + order + 1, 0)
  const from = Float64Array.from(box.from)
  const scale = Float64Array.from(box.to, (to, i) =>
    to > (box.from[i] ?? 0) ? 2 / (to - (box.from[i] ?? 0)) : 0,
  )
  const table = new Float64Array(orders.reduce((sum, order) => sum + order + 1, 0)).fill(1)
  const highest = Int32Array.from(orders)
  // Beyond the last product lie zeros, which meet those that rows are filled up with.
  const across = new Float64Array(products.before.length + LANES)
  return (point) => {
    fillTable(table, highest, from, scale, point)
    fillProducts(across, products, table)
    let sum = 0
    for (let r = 0, j = 0; r < rowLength.length; r++) {
      const length = rowLength[r] as number
      let a = 0
      let b = 0
      let c = 0
      let d = 0
      for (let k = 0; k < length; j += LANES, k += LANES) {
        a += (entries[j] as number) * (across[k] as number)
        b += (entries[j + 1] as number) * (across[k + 1] as number)
        c += (entries[j + 2] as number) * (across[k + 2] as number)
        d += (entries[j + 3] as number) * (across[k + 3] as number)
      }
      sum += (a + b + (c + d)) * (table[rowStart + r] as number)
    }
    return sum
  }
}

/** T_0 to the highest order of every variable, one after the other. */
function fillTable(
  table: Float64Array,
  highest: Int32Array,
  from: Float64Array,
  scale: Float64Array,
  point: ArrayLike<number>,
): void {
  for (let i = 0, at = 0; i < highest.length; i++) {
    const order = highest[i] as number
    if (order > 0) {
      const raw = (scale[i] as number) * ((point[i] as number) - (from[i] as number)) - 1
      const t = Math.max(-1, Math.min(raw, 1))
      let a = 1
      let b = t
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
}

function fillProducts(out: Float64Array, { before, factor }: Products, table: Float64Array): void {
  out[0] = 1
  for (let i = 1; i < before.length; i++)
    out[i] = (out[before[i] as number] as number) * (table[factor[i] as number] as number)
}
