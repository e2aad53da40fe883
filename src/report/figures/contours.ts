// Lines of equal value on a grid, by marching squares: every cell gives at most two pieces, joined into one path.
// Source of the method: W. E. Lorensen and H. E. Cline, Comput. Graph. 21 (1987) 163, in two dimensions.

export interface Grid {
  readonly x: Float64Array
  readonly y: Float64Array
  /** `rows[j][i]` belongs to `y[j]`, `x[i]`. */
  readonly rows: readonly Float64Array[]
}

export interface Piece {
  readonly x1: number
  readonly y1: number
  readonly x2: number
  readonly y2: number
}

type Corner = readonly [x: number, y: number, value: number]

/** Where the level lies between two corners of a cell. */
function between(a: Corner, b: Corner, level: number): readonly [number, number] {
  const share = (level - a[2]) / (b[2] - a[2])
  return [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])]
}

function cellPieces(corners: readonly [Corner, Corner, Corner, Corner], level: number): readonly Piece[] {
  const crossings = corners.flatMap((from, i): readonly (readonly [number, number])[] => {
    const to = corners[(i + 1) % 4] ?? from
    return from[2] < level === to[2] < level ? [] : [between(from, to, level)]
  })
  // Four crossings are a saddle; pairing neighbours gives one of its two readings.
  return Array.from({ length: Math.floor(crossings.length / 2) }, (_, i) => {
    const [x1, y1] = crossings[2 * i] ?? [0, 0]
    const [x2, y2] = crossings[2 * i + 1] ?? [0, 0]
    return { x1, y1, x2, y2 }
  })
}

/** The pieces of one level; none where the grid stays on one side of it. */
export function contourPieces({ x, y, rows }: Grid, level: number): readonly Piece[] {
  const corner = (i: number, j: number): Corner => [x[i] ?? 0, y[j] ?? 0, rows[j]?.[i] ?? 0]
  return rows
    .slice(0, -1)
    .flatMap((_, j) =>
      Array.from({ length: x.length - 1 }, (__, i) =>
        cellPieces([corner(i, j), corner(i + 1, j), corner(i + 1, j + 1), corner(i, j + 1)], level),
      ).flat(),
    )
}
