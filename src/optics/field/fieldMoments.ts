// Place and size of a sampled field by the moments of its intensity.
// Source: ISO 11146-1:2021, D4-sigma = 4 sqrt(<x^2> - <x>^2) (from memory). The whole grid is included.

import type { SampledField } from './sampledField'

export interface FieldMoments {
  readonly centreXUm: number
  readonly centreYUm: number
  /** D4-sigma diameters along the grid's axes; the MFD of a Gaussian. */
  readonly widthXUm: number
  readonly widthYUm: number
  /** Greatest amplitude. */
  readonly peak: number
}

export function fieldMoments({ nx, ny, dxUm, dyUm, x0Um, y0Um, re, im }: SampledField): FieldMoments {
  let [power, x, y, xx, yy, most] = [0, 0, 0, 0, 0, 0]
  for (let iy = 0, i = 0; iy < ny; iy++) {
    const py = y0Um + iy * dyUm
    for (let ix = 0; ix < nx; ix++, i++) {
      const px = x0Um + ix * dxUm
      const own = (re[i] as number) ** 2 + (im[i] as number) ** 2
      power += own
      x += own * px
      y += own * py
      xx += own * px * px
      yy += own * py * py
      if (own > most) most = own
    }
  }
  const [centreXUm, centreYUm] = [x / power, y / power]
  const width = (square: number, centre: number) => 4 * Math.sqrt(Math.max(0, square / power - centre ** 2))
  return {
    centreXUm,
    centreYUm,
    widthXUm: width(xx, centreXUm),
    widthYUm: width(yy, centreYUm),
    peak: Math.sqrt(most),
  }
}
