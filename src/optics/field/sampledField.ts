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
  /** Refractive index of the medium in which the field stands. */
  readonly index: number
}
