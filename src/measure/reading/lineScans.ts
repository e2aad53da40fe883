// A table of x, y and power need not be a raster: two line scans that cross, one along each axis, are written the same way.

export interface LineScan {
  readonly axis: 'x' | 'y'
  /** Rows of the table on this line, in file order; a row at the crossing is on both. */
  readonly rows: readonly number[]
}

const FEWEST_POINTS = 5
/** How far the axis at rest may wander, as a share of the whole travel (common practice, no source). */
const AT_REST = 0.01

/** One or two line scans along the axes that contain every row; null for points over an area, or along no axis. */
export function lineScans(x: Float64Array, y: Float64Array): readonly LineScan[] | null {
  const travel = Math.max(extent(x), extent(y))
  if (!(travel > 0)) return null
  const alongX = rowsNear(y, commonValue(y, AT_REST * travel), AT_REST * travel)
  const alongY = rowsNear(x, commonValue(x, AT_REST * travel), AT_REST * travel)
  const lines: LineScan[] = []
  if (isLine(x, alongX)) lines.push({ axis: 'x', rows: alongX })
  if (isLine(y, alongY)) lines.push({ axis: 'y', rows: alongY })
  const covered = new Set(lines.flatMap(({ rows }) => rows))
  return lines.length > 0 && covered.size === x.length ? lines : null
}

function extent(values: Float64Array): number {
  let low = Infinity
  let high = -Infinity
  for (const value of values) {
    low = Math.min(low, value)
    high = Math.max(high, value)
  }
  return high - low
}

/** The value with the most others within `reach` of it. */
function commonValue(values: Float64Array, reach: number): number {
  const sorted = Float64Array.from(values).sort()
  let from = 0
  let most = 0
  let found = 0
  for (let to = 0; to < sorted.length; to++) {
    while ((sorted[to] as number) - (sorted[from] as number) > reach) from++
    if (to - from + 1 > most) {
      most = to - from + 1
      found = ((sorted[to] as number) + (sorted[from] as number)) / 2
    }
  }
  return found
}

function rowsNear(values: Float64Array, at: number, reach: number): readonly number[] {
  const rows: number[] = []
  values.forEach((value, row) => {
    if (Math.abs(value - at) <= reach) rows.push(row)
  })
  return rows
}

function isLine(along: Float64Array, rows: readonly number[]): boolean {
  return new Set(rows.map((row) => along[row])).size >= FEWEST_POINTS
}
