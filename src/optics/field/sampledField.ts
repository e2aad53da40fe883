// A scalar field on a regular grid, the form in which solver, imports and field engine exchange modes.

import { InputError, requireFinite, requireInRange, requirePositive } from '../../numerics/inputError'

/**
 * A scalar field on a regular grid across the beam: sample (ix, iy) lies at x0Um + ix*dxUm,
 * y0Um + iy*dyUm and is kept at index iy*nx + ix. The scale of the amplitude is arbitrary;
 * the time dependence is exp(+i w t), so a forward wave runs as exp(-i k z).
 */
export interface SampledField {
  readonly nx: number
  readonly ny: number
  readonly dxUm: number
  readonly dyUm: number
  /** Centre of sample (0, 0). */
  readonly x0Um: number
  readonly y0Um: number
  /** Row-major, index iy*nx + ix, scalar field amplitude in arbitrary scale. */
  readonly re: Float64Array
  readonly im: Float64Array
  readonly wavelengthUm: number
  /** Refractive index of the medium of the field. */
  readonly index: number
}

const LEAST_POINTS = 4
const GREATEST_POINTS = 4096

/** Returns the field if its grid, medium and arrays fit together and it holds power; throws InputError otherwise. */
export function requireField(field: SampledField): SampledField {
  for (const n of ['nx', 'ny'] as const) {
    if (!Number.isInteger(field[n])) throw new InputError(n, field[n], 'a whole number')
    requireInRange(n, field[n], LEAST_POINTS, GREATEST_POINTS)
  }
  for (const name of ['dxUm', 'dyUm', 'wavelengthUm', 'index'] as const) requirePositive(name, field[name])
  for (const name of ['x0Um', 'y0Um'] as const) requireFinite(name, field[name])
  const count = field.nx * field.ny
  for (const name of ['re', 'im'] as const) {
    if (field[name].length !== count) {
      throw new InputError(`${name}.length`, field[name].length, `nx * ny = ${count}`)
    }
  }
  const squares = sumOfSquares(field)
  if (!Number.isFinite(squares)) throw new InputError('field', squares, 'made of finite numbers')
  if (squares === 0) throw new InputError('field', 0, 'somewhere other than 0')
  return field
}

function sumOfSquares({ re, im }: SampledField): number {
  let sum = 0
  for (let i = 0; i < re.length; i++) sum += (re[i] as number) ** 2 + (im[i] as number) ** 2
  return sum
}

/** Power of the field: the integral of |E|^2 over the grid, in um^2 of the arbitrary scale. */
export function fieldPower(field: SampledField): number {
  return sumOfSquares(field) * field.dxUm * field.dyUm
}

/** Share of the power in the outermost frame of samples, `width` samples wide: large where a window is too small. */
export function frameShare(field: SampledField, width = 1): number {
  const { nx, ny, re, im } = field
  let frame = 0
  for (let iy = 0; iy < ny; iy++) {
    const edgeRow = iy < width || iy >= ny - width
    for (let ix = 0; ix < nx; ix++) {
      if (!edgeRow && ix >= width && ix < nx - width) continue
      const i = iy * nx + ix
      frame += (re[i] as number) ** 2 + (im[i] as number) ** 2
    }
  }
  return frame / sumOfSquares(field)
}
