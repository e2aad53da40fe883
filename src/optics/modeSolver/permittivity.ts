// Effective permittivities of cells and of the intervals between their centres. The transverse field along an axis is
// normal to the walls that this axis crosses (there D is continuous: inverses are averaged along it) and tangential to the
// others (there E is continuous: values are averaged). The flux of the discontinuous field is evaluated on the
// interval between two centres, q = (1/eps) dD/ds, hence the plain mean of eps there.
// Source: R. D. Meade et al., Phys. Rev. B 48 (1993) 8434 (normal and tangential averages); the one-dimensional rule is the
// harmonic mean of 1/eps of finite volumes. From memory; tests show second-order convergence.

import type { GridAxis } from './grid'
import { merged, type Slice, sliceMean } from './slices'

const POLARISATIONS = ['TE', 'TM'] as const
/** Quasi-TE: E mostly along x, the chip surface. Quasi-TM: E mostly along y. */
export type Polarisation = (typeof POLARISATIONS)[number]

/** Row-major, index iy * nx + ix. `between` has one more entry along the field's axis: before the first, …, after the last. */
export interface Permittivity {
  readonly cells: Float64Array
  /** Means from centre to centre along the field; the outermost two reach from the border to the first centre. */
  readonly between: Float64Array
}

type Bounds = readonly [number, number]

/** Positions of the centres, with the borders at the ends. */
function stretches({ centres, ends }: GridAxis): readonly Bounds[] {
  const positions = [ends[0], ...centres, ends[1]]
  return positions.slice(1).map((to, at) => [positions[at] as number, to] as const)
}

function harmonicMean({ breaks, values }: Slice, fromUm: number, toUm: number): number {
  return (
    1 / sliceMean({ bottomUm: 0, topUm: 1, breaks, values: values.map((value) => 1 / value) }, fromUm, toUm)
  )
}

/** Groups of slices that make up the rows of cells. */
function rowsOf(slices: readonly Slice[], { faces }: GridAxis): readonly (readonly Slice[])[] {
  return Array.from({ length: faces.length - 1 }, (_, j) => {
    const low = faces[j] as number
    const high = faces[j + 1] as number
    return slices.filter(
      ({ bottomUm, topUm }) => (bottomUm + topUm) / 2 > low && (bottomUm + topUm) / 2 < high,
    )
  })
}

/** Plain means over the cells, for the scalar equation and for shares of power. */
export function scalarPermittivity(slices: readonly Slice[], x: GridAxis, y: GridAxis): Float64Array {
  const nx = x.centres.length
  const cells = new Float64Array(nx * y.centres.length)
  rowsOf(slices, y).forEach((row, j) => {
    const whole = merged(row)
    for (let i = 0; i < nx; i++)
      cells[j * nx + i] = sliceMean(whole, x.faces[i] as number, x.faces[i + 1] as number)
  })
  return cells
}

function alongX(slices: readonly Slice[], x: GridAxis, y: GridAxis): Permittivity {
  const nx = x.centres.length
  const cells = new Float64Array(nx * y.centres.length)
  const between = new Float64Array((nx + 1) * y.centres.length)
  const gaps = stretches(x)
  rowsOf(slices, y).forEach((row, j) => {
    const whole = merged(row)
    for (let i = 0; i < nx; i++)
      cells[j * nx + i] = harmonicMean(whole, x.faces[i] as number, x.faces[i + 1] as number)
    gaps.forEach(([from, to], i) => {
      between[j * (nx + 1) + i] = sliceMean(whole, from, to)
    })
  })
  return { cells, between }
}

function alongY(slices: readonly Slice[], x: GridAxis, y: GridAxis): Permittivity {
  const nx = x.centres.length
  const ny = y.centres.length
  const cells = new Float64Array(nx * ny)
  const between = new Float64Array(nx * (ny + 1))
  const gaps = stretches(y)
  for (let i = 0; i < nx; i++) {
    const from = x.faces[i] as number
    const to = x.faces[i + 1] as number
    // The column seen as a slice of its own, lying along y.
    const column: Slice = {
      bottomUm: 0,
      topUm: 1,
      breaks: slices.slice(1).map((slice) => slice.bottomUm),
      values: slices.map((slice) => sliceMean(slice, from, to)),
    }
    const inverse = { ...column, values: column.values.map((value) => 1 / value) }
    const cursor = { at: 0 }
    for (let j = 0; j < ny; j++) {
      cells[j * nx + i] = 1 / meanFrom(inverse, y.faces[j] as number, y.faces[j + 1] as number, cursor)
    }
    cursor.at = 0
    gaps.forEach(([low, high], j) => {
      between[j * nx + i] = meanFrom(column, low, high, cursor)
    })
  }
  return { cells, between }
}

/** `sliceMean` for successive intervals: the search continues where the last one ended. */
function meanFrom({ breaks, values }: Slice, fromUm: number, toUm: number, cursor: { at: number }): number {
  let at = cursor.at
  while (at < breaks.length && (breaks[at] as number) <= fromUm) at++
  cursor.at = at
  let sum = 0
  let left = fromUm
  while (left < toUm) {
    const right = Math.min(toUm, breaks[at] ?? Number.POSITIVE_INFINITY)
    sum += (right - left) * (values[at] as number)
    left = right
    at++
  }
  return sum / (toUm - fromUm)
}

export function permittivityFor(
  polarisation: Polarisation,
  slices: readonly Slice[],
  x: GridAxis,
  y: GridAxis,
): Permittivity {
  return polarisation === 'TE' ? alongX(slices, x, y) : alongY(slices, x, y)
}
