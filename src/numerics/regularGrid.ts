// A regular grid of points in a plane, for values that are stored row-major from the lower left.

/** Point (ix, iy) lies at x0Um + ix * dxUm, y0Um + iy * dyUm, and has index iy * nx + ix. */
export interface RegularGrid {
  readonly nx: number
  readonly ny: number
  readonly dxUm: number
  readonly dyUm: number
  readonly x0Um: number
  readonly y0Um: number
}
