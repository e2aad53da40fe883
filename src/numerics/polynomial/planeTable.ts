// A smooth function of two numbers, as a polynomial through a few of its values:
// Lagrange's, by barycentric weights at Chebyshev points of the first kind (Berrut & Trefethen, SIAM Rev. 46 (2004) 501).

/** A place this near a node, in half widths, is at it: what is left after a distance has been moved there and back. */
const AT_NODE = 1e-9

/** Shares with which the values at the nodes make the value at t, written into `out`. */
function shares(t: number, { nodes, weights }: Nodes, out: Float64Array): void {
  let sum = 0
  for (let i = 0; i < nodes.length; i++) {
    const distance = t - (nodes[i] as number)
    if (Math.abs(distance) < AT_NODE) {
      out.fill(0)
      out[i] = 1
      return
    }
    out[i] = (weights[i] as number) / distance
    sum += out[i] as number
  }
  for (let i = 0; i < nodes.length; i++) out[i] = (out[i] as number) / sum
}

interface Nodes {
  readonly nodes: Float64Array
  readonly weights: Float64Array
}

function nodesOf(points: number): Nodes {
  const angle = (i: number) => (Math.PI * (i + 0.5)) / points
  return {
    // cos(angle), and exactly 0 in the middle
    nodes: Float64Array.from({ length: points }, (_, i) =>
      Math.sin((Math.PI * (points - 1 - 2 * i)) / (2 * points)),
    ),
    weights: Float64Array.from({ length: points }, (_, i) => (i % 2 === 0 ? 1 : -1) * Math.sin(angle(i))),
  }
}

/** The function from its table, within the half widths about the middle that the table was made for. */
export type PlaneTable = (x: number, y: number) => number

/**
 * `of` is evaluated at points x points places over `half` about `at`, each where its value first matters: while one number stays in the
 * middle, that is one row or column. `points` is odd, so that the middle is a node.
 */
export function planeTable(
  at: readonly [x: number, y: number],
  half: readonly [x: number, y: number],
  points: number,
  of: (x: number, y: number) => number,
): PlaneTable {
  const all = nodesOf(points)
  const position = (axis: 0 | 1, i: number) => at[axis] + half[axis] * (all.nodes[i] as number)
  const values = new Float64Array(points * points)
  const isKnown = new Uint8Array(points * points)
  let unknown = points * points
  const alongX = new Float64Array(points)
  const alongY = new Float64Array(points)
  const learn = (): void => {
    for (let i = 0; i < points; i++) {
      if (alongX[i] === 0) continue
      for (let j = 0; j < points; j++) {
        const place = points * i + j
        if (alongY[j] === 0 || isKnown[place] === 1) continue
        values[place] = of(position(0, i), position(1, j))
        isKnown[place] = 1
        unknown--
      }
    }
  }
  return (x, y) => {
    shares((x - at[0]) / half[0], all, alongX)
    shares((y - at[1]) / half[1], all, alongY)
    if (unknown > 0) learn()
    let sum = 0
    for (let i = 0; i < points; i++) {
      let row = 0
      for (let j = 0; j < points; j++) row += (alongY[j] as number) * (values[points * i + j] as number)
      sum += (alongX[i] as number) * row
    }
    return sum
  }
}
