// Orthogonal triangularisation of small dense least-squares systems. Matrices are row-major Float64Array.
// Source: G. H. Golub, Numer. Math. 7 (1965) 206.

/** A pivot this small relative to its column's length means that the column depends on those before it. */
const DEPENDENT_COLUMN = 1e-14

/**
 * Turns the first `columns` columns of `matrix` (rows × columns) into an upper triangle R in place, and
 * `rhs` into Qᵀ·rhs. Needs rows ≥ columns. Entries below the triangle are left as scratch.
 */
export function triangularise(matrix: Float64Array, rows: number, columns: number, rhs: Float64Array): void {
  for (let k = 0; k < columns; k++) {
    let square = 0
    for (let i = k; i < rows; i++) square += (matrix[i * columns + k] as number) ** 2
    if (square === 0) continue
    const head = matrix[k * columns + k] as number
    const pivot = head > 0 ? -Math.sqrt(square) : Math.sqrt(square)
    const scale = square - head * pivot
    matrix[k * columns + k] = head - pivot
    for (let j = k + 1; j <= columns; j++) {
      const target = j === columns ? rhs : matrix
      const stride = j === columns ? 1 : columns
      const offset = j === columns ? 0 : j
      let dot = 0
      for (let i = k; i < rows; i++)
        dot += (matrix[i * columns + k] as number) * (target[i * stride + offset] as number)
      const factor = dot / scale
      for (let i = k; i < rows; i++) {
        const at = i * stride + offset
        target[at] = (target[at] as number) - factor * (matrix[i * columns + k] as number)
      }
    }
    matrix[k * columns + k] = pivot
  }
}

/** Solves R·x = b for the upper triangle in the first n rows of `r`; a zero pivot gives x = 0 there. */
export function backSubstitute(r: Float64Array, n: number, b: Float64Array, x: Float64Array): void {
  for (let i = n - 1; i >= 0; i--) {
    let sum = b[i] as number
    for (let j = i + 1; j < n; j++) sum -= (r[i * n + j] as number) * (x[j] as number)
    const pivot = r[i * n + i] as number
    x[i] = pivot === 0 ? 0 : sum / pivot
  }
}

/** (RᵀR)⁻¹, row-major n × n, or null where a column depends on the others to working precision. */
export function inverseOfGram(r: Float64Array, n: number): Float64Array | null {
  for (let j = 0; j < n; j++) {
    let square = 0
    for (let i = 0; i <= j; i++) square += (r[i * n + j] as number) ** 2
    if (!(Math.abs(r[j * n + j] as number) > DEPENDENT_COLUMN * Math.sqrt(square))) return null
  }
  const inverse = new Float64Array(n * n)
  const unit = new Float64Array(n)
  const column = new Float64Array(n)
  for (let j = 0; j < n; j++) {
    unit.fill(0)
    unit[j] = 1
    backSubstitute(r, n, unit, column)
    for (let i = 0; i < n; i++) inverse[i * n + j] = column[i] as number
  }
  const result = new Float64Array(n * n)
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      let sum = 0
      for (let k = Math.max(i, j); k < n; k++)
        sum += (inverse[i * n + k] as number) * (inverse[j * n + k] as number)
      result[i * n + j] = sum
    }
  }
  return result
}
