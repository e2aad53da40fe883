// Lines of equal value on a grid, by marching squares: every cell gives at most two pieces.
// Source of the method: W. E. Lorensen and H. E. Cline, Comput. Graph. 21 (1987) 163, in two dimensions.

interface Grid {
  readonly x: Float64Array
  readonly y: Float64Array
  /** `rows[j][i]` belongs to `y[j]`, `x[i]`. */
  readonly rows: readonly Float64Array[]
}

/**
 * The ends of the pieces of one level, four numbers a piece: x1, y1, x2, y2. None where the grid stays on one side of it.
 * Four crossings of one cell are a saddle; pairing neighbours gives one of its two readings.
 */
export function contourPieces({ x, y, rows }: Grid, level: number): readonly number[] {
  const pieces: number[] = []
  const cross = (
    x0: number,
    x1: number,
    y0: number,
    y1: number,
    a: number,
    b: number,
    c: number,
    d: number,
  ) => {
    if (a < 0 !== b < 0) pieces.push(x0 + ((x1 - x0) * a) / (a - b), y0)
    if (b < 0 !== c < 0) pieces.push(x1, y0 + ((y1 - y0) * b) / (b - c))
    if (c < 0 !== d < 0) pieces.push(x1 + ((x0 - x1) * c) / (c - d), y1)
    if (d < 0 !== a < 0) pieces.push(x0, y1 + ((y0 - y1) * d) / (d - a))
  }
  for (let j = 0; j + 1 < rows.length; j++) {
    const y0 = y[j] ?? 0
    const y1 = y[j + 1] ?? 0
    const low = rows[j] ?? new Float64Array(0)
    const high = rows[j + 1] ?? new Float64Array(0)
    // Above the level at the four corners, in turn around the cell; the next cell begins with the side that it shares.
    let a = (low[0] ?? 0) - level
    let d = (high[0] ?? 0) - level
    for (let i = 0; i + 1 < x.length; i++) {
      const b = (low[i + 1] ?? 0) - level
      const c = (high[i + 1] ?? 0) - level
      const onOneSide = a < 0 === b < 0 && b < 0 === c < 0 && c < 0 === d < 0
      if (!onOneSide) cross(x[i] ?? 0, x[i + 1] ?? 0, y0, y1, a, b, c, d)
      a = b
      d = c
    }
  }
  return pieces
}
