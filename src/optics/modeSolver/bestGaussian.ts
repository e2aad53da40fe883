// The elliptical Gaussian of greatest overlap with a field, its position free. The axes are fitted in turn, each to the
// projection of the field, until nothing changes.

import { minimiseBrent } from '../../numerics/minimise'
import { cellSizes, type GridAxis } from './grid'
import type { GridAxes } from './interpolate'

interface Pair {
  readonly x: number
  readonly y: number
}

export interface BestGaussian {
  readonly mfdUm: Pair
  readonly centreUm: Pair
  /** Share of power, 0 to 1: how Gaussian the mode is. */
  readonly overlap: number
}

interface Fit {
  centre: number
  radius: number
}

const ROUNDS = 40
const STILL = 1e-7

function gaussianLine(axis: GridAxis, sizes: Float64Array, { centre, radius }: Fit): Float64Array {
  return axis.centres.map(
    (position, i) => Math.exp(-(((position - centre) / radius) ** 2)) * (sizes[i] as number),
  )
}

/** Sum of the field along the other axis, weighted by the other axis's line. */
function projection(field: Float64Array, nx: number, weights: Float64Array, onto: 'x' | 'y'): Float64Array {
  const ny = field.length / nx
  const out = new Float64Array(onto === 'x' ? nx : ny)
  for (let iy = 0; iy < ny; iy++) {
    for (let ix = 0; ix < nx; ix++) {
      const value = field[iy * nx + ix] as number
      if (onto === 'x') out[ix] = (out[ix] as number) + value * (weights[iy] as number)
      else out[iy] = (out[iy] as number) + value * (weights[ix] as number)
    }
  }
  return out
}

/** Moves the fit to the Gaussian that overlaps a line best; returns overlap^2 over the Gaussian's own power. */
function improve(line: Float64Array, axis: GridAxis, sizes: Float64Array, fit: Fit): number {
  const gain = ({ centre, radius }: Fit): number => {
    let sum = 0
    for (let i = 0; i < line.length; i++) {
      const distance = ((axis.centres[i] as number) - centre) / radius
      sum += (line[i] as number) * Math.exp(-distance * distance) * (sizes[i] as number)
    }
    return (sum * sum) / (radius * Math.sqrt(Math.PI / 2))
  }
  const { centre, radius } = fit
  fit.centre = minimiseBrent((x) => -gain({ centre: x, radius }), centre - radius / 2, centre + radius / 2).x
  fit.radius = minimiseBrent((w) => -gain({ centre: fit.centre, radius: w }), radius / 2, radius * 2).x
  return gain(fit)
}

/** Starts from the given centre and diameters, such as those of the second moments. */
export function bestGaussian(
  { x, y, field }: GridAxes & { readonly field: Float64Array },
  centreUm: Pair,
  diameterUm: Pair,
): BestGaussian {
  const nx = x.centres.length
  const [hx, hy] = [cellSizes(x), cellSizes(y)]
  let power = 0
  field.forEach((value, i) => {
    power += value * value * (hx[i % nx] as number) * (hy[Math.floor(i / nx)] as number)
  })
  const fitX: Fit = { centre: centreUm.x, radius: diameterUm.x / 2 }
  const fitY: Fit = { centre: centreUm.y, radius: diameterUm.y / 2 }
  let overlap = 0
  for (let round = 0; round < ROUNDS; round++) {
    const before = { x: { ...fitX }, y: { ...fitY } }
    improve(projection(field, nx, gaussianLine(y, hy, fitY), 'x'), x, hx, fitX)
    const gain = improve(projection(field, nx, gaussianLine(x, hx, fitX), 'y'), y, hy, fitY)
    overlap = gain / (power * fitX.radius * Math.sqrt(Math.PI / 2))
    const moved = (now: Fit, then: Fit) =>
      (Math.abs(now.centre - then.centre) + Math.abs(now.radius - then.radius)) / now.radius
    if (moved(fitX, before.x) + moved(fitY, before.y) < STILL) break
  }
  return {
    mfdUm: { x: 2 * fitX.radius, y: 2 * fitY.radius },
    centreUm: { x: fitX.centre, y: fitY.centre },
    overlap: Math.min(1, overlap),
  }
}
