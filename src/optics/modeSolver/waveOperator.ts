// The semivectorial wave equation on a grid of cells:
//   quasi-TE  d/dx [1/eps d(eps Ex)/dx] + d2Ex/dy2 + k^2 eps Ex = beta^2 Ex,   quasi-TM the same with x and y exchanged
//   scalar    d2E/dx2 + d2E/dy2 + k^2 eps E = beta^2 E
// as five numbers per cell. Neighbours have weights above 0, so the fundamental mode is the positive one, and
// sigma - operator is an M-matrix exactly where sigma lies above its beta^2.
// Source: M. S. Stern, IEE Proc. J 135 (1988) 56 (semivectorial finite differences); K. Kawano and T. Kitoh, Introduction to
// Optical Waveguide Analysis (2001), ch. 4. From memory.

import type { GridMatrix } from '../../numerics/linear/gridLu'
import { cellSizes, type GridAxis } from './grid'
import { type Permittivity, type Polarisation, permittivityFor, scalarPermittivity } from './permittivity'
import type { Slice } from './slices'

/** The field at a border: it is zero there, or continues as its own mirror image. */
type Border = 'wall' | 'mirror'

interface Borders {
  readonly left: Border
  readonly right: Border
  readonly bottom: Border
  readonly top: Border
}

export const WALLS: Borders = { left: 'wall', right: 'wall', bottom: 'wall', top: 'wall' }

/** Equations that can be solved; scalar is for weak guidance and for checks. */
export type WaveKind = Polarisation | 'scalar'

/** The equation on the grid, weights in 1/um^2. */
export interface WaveOperator extends GridMatrix {
  /** Areas of the cells. */
  readonly area: Float64Array
  readonly cells: Float64Array
  /** As in Permittivity; empty for the scalar equation. */
  readonly between: Float64Array
}

interface Direction {
  readonly count: number
  readonly sizes: Float64Array
  readonly centres: Float64Array
  readonly ends: readonly [number, number]
  readonly low: Border
  readonly high: Border
}

function direction(axis: GridAxis, low: Border, high: Border): Direction {
  const { centres, ends } = axis
  return { count: centres.length, sizes: cellSizes(axis), centres, ends, low, high }
}

/** Weights along one line of cells: to the neighbour before, to the one after, and the sum that is subtracted at the cell itself. */
function lineWeights(
  { count, sizes, centres, ends, low, high }: Direction,
  at: number,
  cell: (at: number) => number,
  between: (at: number) => number,
): readonly [number, number, number] {
  const size = sizes[at] as number
  // A value on the border itself has no interval below it, and no flux there.
  const toLow = (centres[at] as number) - (at === 0 ? ends[0] : (centres[at - 1] as number)) || size
  const toHigh = (at === count - 1 ? ends[1] : (centres[at + 1] as number)) - (centres[at] as number)
  const lowFlux = 1 / (size * toLow * between(at))
  const highFlux = 1 / (size * toHigh * between(at + 1))
  const open = (border: Border, isBorder: boolean) => !isBorder || border === 'wall'
  return [
    at === 0 ? 0 : lowFlux * cell(at - 1),
    at === count - 1 ? 0 : highFlux * cell(at + 1),
    cell(at) * ((open(low, at === 0) ? lowFlux : 0) + (open(high, at === count - 1) ? highFlux : 0)),
  ]
}

const one = () => 1

export function waveOperator(
  kind: WaveKind,
  slices: readonly Slice[],
  x: GridAxis,
  y: GridAxis,
  wavelengthUm: number,
  borders: Borders,
): WaveOperator {
  const [nx, ny] = [x.centres.length, y.centres.length]
  const permittivity: Permittivity =
    kind === 'scalar'
      ? { cells: scalarPermittivity(slices, x, y), between: new Float64Array(0) }
      : permittivityFor(kind, slices, x, y)
  const { cells, between } = permittivity
  const alongX = direction(x, borders.left, borders.right)
  const alongY = direction(y, borders.bottom, borders.top)
  const empty = () => new Float64Array(nx * ny)
  const operator = {
    nx,
    ny,
    own: empty(),
    west: empty(),
    east: empty(),
    south: empty(),
    north: empty(),
    area: empty(),
    cells,
    between,
  }
  const k2 = (2 * Math.PI) ** 2 / wavelengthUm ** 2
  for (let iy = 0; iy < ny; iy++) {
    for (let ix = 0; ix < nx; ix++) {
      const cellIndex = iy * nx + ix
      const [west, east, ownX] =
        kind === 'TE'
          ? lineWeights(
              alongX,
              ix,
              (at) => cells[iy * nx + at] as number,
              (at) => between[iy * (nx + 1) + at] as number,
            )
          : lineWeights(alongX, ix, one, one)
      const [south, north, ownY] =
        kind === 'TM'
          ? lineWeights(
              alongY,
              iy,
              (at) => cells[at * nx + ix] as number,
              (at) => between[at * nx + ix] as number,
            )
          : lineWeights(alongY, iy, one, one)
      operator.west[cellIndex] = west
      operator.east[cellIndex] = east
      operator.south[cellIndex] = south
      operator.north[cellIndex] = north
      operator.own[cellIndex] = k2 * (cells[cellIndex] as number) - ownX - ownY
      operator.area[cellIndex] = (alongX.sizes[ix] as number) * (alongY.sizes[iy] as number)
    }
  }
  return operator
}

/** out = operator * field. */
export function applyOperator(operator: WaveOperator, field: Float64Array, out: Float64Array): void {
  const { nx, own, west, east, south, north } = operator
  // The first and the last value lack one neighbour, whose weight is 0.
  for (let i = 0; i < field.length; i++) {
    out[i] =
      (own[i] as number) * (field[i] as number) +
      (west[i] as number) * (field[i - 1] ?? 0) +
      (east[i] as number) * (field[i + 1] ?? 0) +
      (south[i] as number) * (field[i - nx] ?? 0) +
      (north[i] as number) * (field[i + nx] ?? 0)
  }
}
