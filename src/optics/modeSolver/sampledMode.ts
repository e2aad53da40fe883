// A solved mode on the regular grid that the field engine works on, and the share of it within the cores.

import { requireInRange, requirePositive } from '../../numerics/inputError'
import type { SampledField } from '../field/sampledField'
import type { Core } from './crossSection'
import { cellSizes } from './grid'
import { meansOverCells } from './interpolate'
import { scalarPermittivity } from './permittivity'
import { slicesOf } from './slices'
import type { SolvedMode } from './solveMode'

export interface SampledGrid {
  readonly nx: number
  readonly ny: number
  readonly dxUm: number
  readonly dyUm: number
  /** Position of the centre of the grid in the cross-section, which becomes the origin of the field. */
  readonly centreXUm: number
  readonly centreYUm: number
}

/** Means of the field over the cells of a regular grid centred on a point; zero outside the solved window. */
export function sampledMode(mode: SolvedMode, grid: SampledGrid, index = 1): SampledField {
  const { nx, ny, dxUm, dyUm, centreXUm, centreYUm } = grid
  requireInRange('nx', nx, 2, 4096)
  requireInRange('ny', ny, 2, 4096)
  requirePositive('dxUm', dxUm)
  requirePositive('dyUm', dyUm)
  const { x, y } = mode.axes
  const count = x.centres.length
  const rows = y.centres.length
  const half = new Float64Array(nx * rows)
  for (let iy = 0; iy < rows; iy++) {
    const line = mode.field.subarray(iy * count, (iy + 1) * count)
    half.set(meansOverCells(x, line, centreXUm - (nx * dxUm) / 2, dxUm, nx), iy * nx)
  }
  const re = new Float64Array(nx * ny)
  const column = new Float64Array(rows)
  for (let ix = 0; ix < nx; ix++) {
    for (let iy = 0; iy < rows; iy++) column[iy] = half[iy * nx + ix] as number
    const means = meansOverCells(y, column, centreYUm - (ny * dyUm) / 2, dyUm, ny)
    for (let iy = 0; iy < ny; iy++) re[iy * nx + ix] = means[iy] as number
  }
  return {
    nx,
    ny,
    dxUm,
    dyUm,
    x0Um: (-(nx - 1) * dxUm) / 2,
    y0Um: (-(ny - 1) * dyUm) / 2,
    re,
    im: new Float64Array(nx * ny),
    wavelengthUm: mode.wavelengthUm,
    index,
  }
}

/** Share of |E|^2 within the cores, 0 to 1; within the box of a graded core. */
export function coreShare({ section, axes, field }: SolvedMode): number {
  // The cores alone, with permittivity 2 in vacuum: what exceeds 1 is the share of a cell that they cover.
  const cores = section.cores.map((core): Core => {
    const index = Math.SQRT2
    if (core.shape !== 'graded') return { ...core, index }
    const { xUm, bottomUm, widthUm, heightUm } = core
    return { shape: 'trapezoid', xUm, bottomUm, widthUm, heightUm, sidewallRad: Math.PI / 2, index }
  })
  const alone = { substrateIndex: 1, layers: [], coverIndex: 1, cores }
  const covered = scalarPermittivity(slicesOf(alone, axes.y.faces), axes.x, axes.y)
  const [hx, hy] = [cellSizes(axes.x), cellSizes(axes.y)]
  const nx = hx.length
  let inside = 0
  let all = 0
  for (let i = 0; i < field.length; i++) {
    const power = (field[i] as number) ** 2 * (hx[i % nx] as number) * (hy[Math.floor(i / nx)] as number)
    all += power
    inside += power * ((covered[i] as number) - 1)
  }
  return inside / all
}
