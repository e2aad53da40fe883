// A smooth function of the two distances of a relay's end faces from their lenses, as a polynomial through a few of its values:
// Lagrange's, by barycentric weights at Chebyshev points of the first kind (Berrut & Trefethen, SIAM Rev. 46 (2004) 501).

/** Shares with which the values at the nodes make the value at t, written into `out`. */
function shares(t: number, { nodes, weights }: Nodes, out: Float64Array): void {
  let sum = 0
  for (let i = 0; i < nodes.length; i++) {
    const distance = t - (nodes[i] ?? 0)
    if (distance === 0) {
      out.fill(0)
      out[i] = 1
      return
    }
    out[i] = (weights[i] ?? 0) / distance
    sum += out[i] ?? 0
  }
  for (let i = 0; i < nodes.length; i++) out[i] = (out[i] ?? 0) / sum
}

interface Nodes {
  readonly nodes: Float64Array
  readonly weights: Float64Array
}

function nodesOf(points: number): Nodes {
  const angle = (i: number) => (Math.PI * (i + 0.5)) / points
  return {
    nodes: Float64Array.from({ length: points }, (_, i) => Math.cos(angle(i))),
    weights: Float64Array.from({ length: points }, (_, i) => (i % 2 === 0 ? 1 : -1) * Math.sin(angle(i))),
  }
}

/** The function from its table, within the half widths about the middle that the table was made for; um. */
export type DistanceTable = (frontUm: number, backUm: number) => number

/** `of` is evaluated at points x points places over `half` about `at`, um. */
export function distanceTable(
  at: readonly [frontUm: number, backUm: number],
  half: readonly [frontUm: number, backUm: number],
  points: number,
  of: (frontUm: number, backUm: number) => number,
): DistanceTable {
  const all = nodesOf(points)
  const position = (axis: 0 | 1, i: number) => at[axis] + half[axis] * (all.nodes[i] ?? 0)
  const values = Float64Array.from({ length: points * points }, (_, i) =>
    of(position(0, Math.floor(i / points)), position(1, i % points)),
  )
  const front = new Float64Array(points)
  const back = new Float64Array(points)
  return (frontUm, backUm) => {
    shares((frontUm - at[0]) / half[0], all, front)
    shares((backUm - at[1]) / half[1], all, back)
    let sum = 0
    for (let i = 0; i < points; i++) {
      let row = 0
      for (let j = 0; j < points; j++) row += (back[j] ?? 0) * (values[points * i + j] ?? 0)
      sum += (front[i] ?? 0) * row
    }
    return sum
  }
}
