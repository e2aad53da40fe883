// Where the rays of a field leave their sphere: a square grid, or rings. From rays on rings follows the area of their tubes:
//   J = (dx/dr dy/dt - dy/dr dx/dt) / r,  r the height of a ring, t the azimuth
// by the polynomial through the rays of a diameter, and the trigonometric one through those of a ring.
// Source: barycentric weights, J.-P. Berrut and L. N. Trefethen, SIAM Rev. 46 (2004) 501, sect. 9.3; L. N. Trefethen, Spectral Methods in MATLAB
// (2000), ch. 3 (from memory).

import { gaussLegendre } from '../../numerics/quadrature'
import { REACH } from './collimatedField'

/** Where rays leave: heights in 1/e^2 radii, and the area that each of them stands for; 0 for one that is left out. */
export interface Pupil {
  readonly u: Float64Array
  readonly v: Float64Array
  readonly area: Float64Array
  /** Of rings: how many, and the rays on each of them. */
  readonly rings?: RingSlopes
}

/** A square grid out to REACH in rows of u, `side` rays along each axis. */
export function squarePupil(side: number): Pupil {
  const step = (2 * REACH) / (side - 1)
  const [u, v] = [new Float64Array(side * side), new Float64Array(side * side)]
  for (let i = 0, at = 0; i < side; i++) {
    for (let j = 0; j < side; j++, at++) {
      u[at] = i * step - REACH
      v[at] = j * step - REACH
    }
  }
  const area = u.map((each, at) => (Math.hypot(each, v[at] as number) > REACH ? 0 : step * step))
  return { u, v, area }
}

/**
 * Rings out to `reach` at the nodes of Gauss's rule in u^2, in which a round field is smooth, each of an even number of rays that lie as in a
 * mirror about either axis.
 */
export function ringPupil(rings: number, azimuths: number, reach: number): Pupil {
  const count = rings * azimuths
  const [u, v, area] = [new Float64Array(count), new Float64Array(count), new Float64Array(count)]
  const { nodes, weights } = gaussLegendre(rings)
  const radii = nodes.map((x) => reach * Math.sqrt((1 + x) / 2))
  for (let i = 0, at = 0; i < rings; i++) {
    const radius = radii[i] as number
    const share = (Math.PI * reach ** 2 * (weights[i] as number)) / 2 / azimuths
    for (let k = 0; k < azimuths; k++, at++) {
      const angle = (2 * Math.PI * (k + 0.5)) / azimuths
      u[at] = radius * Math.cos(angle)
      v[at] = radius * Math.sin(angle)
      area[at] = share
    }
  }
  return {
    u,
    v,
    area,
    rings: {
      count: rings,
      azimuths,
      radii,
      across: slopesAcross(radii),
      around: slopesAround(azimuths),
      slopes: {
        x: new Float64Array(Math.max(2 * rings, azimuths)),
        y: new Float64Array(Math.max(2 * rings, azimuths)),
        xt: new Float64Array(count),
        yt: new Float64Array(count),
      },
    },
  }
}

interface RingSlopes {
  readonly count: number
  readonly azimuths: number
  readonly radii: Float64Array
  /** Slopes along a diameter and around a ring as matrices, row by row. */
  readonly across: Float64Array
  readonly around: Float64Array
  /** Room for a line of rays, and for the slopes around all rings; overwritten by every call. */
  readonly slopes: {
    readonly x: Float64Array
    readonly y: Float64Array
    readonly xt: Float64Array
    readonly yt: Float64Array
  }
}

/** The places of a diameter's rays from one end to the other. */
const diameterOf = (radii: Float64Array): Float64Array =>
  Float64Array.of(...radii.map((r) => -r).reverse(), ...radii)

function slopesAcross(radii: Float64Array): Float64Array {
  const at = diameterOf(radii)
  const n = at.length
  const share = at.map((x, i) => {
    let product = 1
    for (let k = 0; k < n; k++) if (k !== i) product *= x - (at[k] as number)
    return 1 / product
  })
  const slopes = new Float64Array(n * n)
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < n; k++) {
      if (k === i) continue
      const slope = (share[k] as number) / (share[i] as number) / ((at[i] as number) - (at[k] as number))
      slopes[i * n + k] = slope
      slopes[i * n + i] = (slopes[i * n + i] as number) - slope
    }
  }
  return slopes
}

function slopesAround(azimuths: number): Float64Array {
  const slopes = new Float64Array(azimuths * azimuths)
  for (let i = 0; i < azimuths; i++) {
    for (let k = 0; k < azimuths; k++) {
      if (k !== i)
        slopes[i * azimuths + k] = ((i - k) % 2 === 0 ? 0.5 : -0.5) / Math.tan((Math.PI * (i - k)) / azimuths)
    }
  }
  return slopes
}

/** The rays of the diameter through azimuth k, from its far end. */
const rayOf = ({ count, azimuths }: RingSlopes, k: number, i: number): number =>
  i < count ? (count - 1 - i) * azimuths + k + azimuths / 2 : (i - count) * azimuths + k

/** Sum of the products of a matrix row and a vector. */
function rowSum(matrix: Float64Array, start: number, vector: Float64Array, n: number): number {
  let even = 0
  let odd = 0
  // Two sums need not wait for each other; n is even.
  for (let j = 0; j < n; j += 2) {
    even += (matrix[start + j] as number) * (vector[j] as number)
    odd += (matrix[start + j + 1] as number) * (vector[j + 1] as number)
  }
  return even + odd
}

/** Writes the Jacobian of places x, y of the rays on all rings. */
export function fillRingJacobian(
  rings: RingSlopes,
  x: Float64Array,
  y: Float64Array,
  jacobian: Float64Array,
): void {
  const { count, azimuths, radii, across, around, slopes } = rings
  const n = 2 * count
  const { x: xLine, y: yLine, xt, yt } = slopes
  for (let ring = 0; ring < count; ring++) {
    const first = ring * azimuths
    for (let k = 0; k < azimuths; k++) {
      xLine[k] = x[first + k] as number
      yLine[k] = y[first + k] as number
    }
    for (let k = 0; k < azimuths; k++) {
      xt[first + k] = rowSum(around, k * azimuths, xLine, azimuths)
      yt[first + k] = rowSum(around, k * azimuths, yLine, azimuths)
    }
  }
  for (let k = 0; k < azimuths / 2; k++) {
    for (let i = 0; i < n; i++) {
      const from = rayOf(rings, k, i)
      xLine[i] = x[from] as number
      yLine[i] = y[from] as number
    }
    for (let i = 0; i < n; i++) {
      const xr = rowSum(across, i * n, xLine, n)
      const yr = rowSum(across, i * n, yLine, n)
      const at = rayOf(rings, k, i)
      // Beyond the middle the diameter runs inwards.
      const radius = (radii[i < count ? count - 1 - i : i - count] as number) * (i < count ? -1 : 1)
      jacobian[at] = (xr * (yt[at] as number) - yr * (xt[at] as number)) / radius
    }
  }
}
