// The transverse magnetic field of a solved mode and the power that it carries, in units in which a plane wave of index n has
// H = n E. From curl E and curl H with div H = 0:
//   beta k Hy = k^2 eps Ex + d2Ex/dy2 - d2Ey/dxdy,   -beta k Hx = k^2 eps Ey + d2Ey/dx2 - d2Ex/dxdy
// Source: A. W. Snyder and J. D. Love, Optical Waveguide Theory (1983), sect. 30-1 and 11-3 (from memory).

import { cellSizes } from './grid'
import type { GridAxes } from './interpolate'
import { addExToEy, addEyToEx, type VectorOperator } from './vectorOperator'
import type { WaveOperator } from './waveOperator'

export interface MagneticField {
  /** Hy where Ex is the leading component, -Hx where Ey is; on the grid of the leading component. */
  readonly leading: Float64Array
  /** Integral of Ex Hy - Ey Hx over the grid, um^2. */
  readonly flux: number
}

/** The coupling terms with permittivity 2 on the cells and 1 between them are the plain mixed derivative. */
function mixedOperator(operator: VectorOperator): VectorOperator {
  const plain = (part: WaveOperator): WaveOperator => ({
    ...part,
    cells: new Float64Array(part.cells.length).fill(2),
    between: new Float64Array(part.between.length).fill(1),
  })
  return { ...operator, ex: plain(operator.ex), ey: plain(operator.ey) }
}

/** k^2 eps E and the second derivative along the walls that E is tangential to; borders, where E is zero, contribute nothing. */
function ownPart(
  { nx, ny, cells, west, east, south, north }: WaveOperator,
  field: Float64Array,
  along: 'x' | 'y',
  k2: number,
): Float64Array {
  const [low, high, step] = along === 'x' ? [west, east, 1] : [south, north, nx]
  return field.map((value, i) => {
    const at = along === 'x' ? i % nx : Math.floor(i / nx)
    const last = (along === 'x' ? nx : ny) - 1
    const before = at === 0 ? 0 : (low[i] as number) * ((field[i - step] as number) - value)
    const after = at === last ? 0 : (high[i] as number) * ((field[i + step] as number) - value)
    return k2 * (cells[i] as number) * value + before + after
  })
}

/** Integral of the product of two fields on one grid. */
export function integralOfProduct({ x, y }: GridAxes, a: Float64Array, b: Float64Array): number {
  const [hx, hy] = [cellSizes(x), cellSizes(y)]
  const nx = hx.length
  let sum = 0
  for (let iy = 0, i = 0; iy < hy.length; iy++) {
    let row = 0
    for (let ix = 0; ix < nx; ix++, i++) row += (a[i] as number) * (b[i] as number) * (hx[ix] as number)
    sum += row * (hy[iy] as number)
  }
  return sum
}

/** For the mode of a full-vector operator: all of Ex, then all of Ey, at beta^2 = `value` in 1/um^2. */
export function magneticField(
  operator: VectorOperator,
  field: Float64Array,
  value: number,
  wavelengthUm: number,
): MagneticField {
  const { ex, ey, exAxes, eyAxes, polarisation } = operator
  const count = ex.nx * ex.ny
  const [fieldX, fieldY] = [field.slice(0, count), field.slice(count)]
  const k2 = ((2 * Math.PI) / wavelengthUm) ** 2
  const mixed = mixedOperator(operator)
  const mixedX = new Float64Array(fieldX.length)
  const mixedY = new Float64Array(fieldY.length)
  addEyToEx(mixed, fieldY, mixedX)
  addExToEy(mixed, fieldX, mixedY)
  const scale = 1 / Math.sqrt(value * k2)
  const besideX = ownPart(ex, fieldX, 'y', k2).map((own, i) => scale * (own - (mixedX[i] as number)))
  const besideY = ownPart(ey, fieldY, 'x', k2).map((own, i) => scale * (own - (mixedY[i] as number)))
  return {
    leading: polarisation === 'TE' ? besideX : besideY,
    flux: integralOfProduct(exAxes, fieldX, besideX) + integralOfProduct(eyAxes, fieldY, besideY),
  }
}
