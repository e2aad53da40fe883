// A few linear equations, by elimination with the largest pivot. Source: any textbook.

/**
 * Solves equations given as rows [coefficients | right side], n of n + 1 numbers. Writes into the rows. Null where they depend on one
 * another.
 */
export function solveSmall(rows: readonly number[][]): readonly number[] | null {
  const n = rows.length
  const order = [...rows]
  for (let i = 0; i < n; i++) {
    let most = i
    for (let k = i + 1; k < n; k++) {
      if (Math.abs(order[k]?.[i] as number) > Math.abs(order[most]?.[i] as number)) most = k
    }
    const pivot = order[most] as number[]
    order[most] = order[i] as number[]
    order[i] = pivot
    if (!(Math.abs(pivot[i] as number) > 0)) return null
    for (let k = i + 1; k < n; k++) {
      const row = order[k] as number[]
      const factor = (row[i] as number) / (pivot[i] as number)
      for (let j = i; j <= n; j++) row[j] = (row[j] as number) - factor * (pivot[j] as number)
    }
  }
  const x = new Array<number>(n).fill(0)
  for (let i = n - 1; i >= 0; i--) {
    const row = order[i] as number[]
    let sum = row[n] as number
    for (let j = i + 1; j < n; j++) sum -= (row[j] as number) * (x[j] as number)
    x[i] = sum / (row[i] as number)
  }
  return x
}
