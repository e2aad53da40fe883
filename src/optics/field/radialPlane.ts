// Plane waves of a round profile from its Hankel transform: F(k) = 2 pi int f(r) J0(k r) r dr, tabled over |k|, four-point polynomial between.

import type { Amplitude, PlaneWaves } from './modeProfile'

/** The Hankel transform of a profile at a transverse wavenumber, 1/um, written in place. */
export type HankelTransform = (qPerUm: number, out: Amplitude) => void

/** Rows per 1/um and micrometre of reach: the polynomial between them is then good to 1e-6 of the peak. */
const ROWS_A_RADIAN = 8
/** Rows that a table gains at once. */
const BLOCK = 256

const greatest = (values: Float64Array): number => values.reduce((most, k) => Math.max(most, Math.abs(k)), 0)

/**
 * Plane waves of a round profile that has died at `reachUm` and holds `powerUm2` = int |f|^2. The table grows to the steepest wave
 * that is asked for.
 */
export function radialPlane(transform: HankelTransform, reachUm: number, powerUm2: number): PlaneWaves {
  const stepPerUm = 1 / (ROWS_A_RADIAN * reachUm)
  let rows = 0
  let tableRe = new Float64Array(0)
  let tableIm = new Float64Array(0)
  const out: Amplitude = { re: 0, im: 0 }
  /** Row i holds the transform at i - 1 steps: the table is even about 0. */
  const reachTo = (qPerUm: number) => {
    const wanted = BLOCK * Math.ceil((qPerUm / stepPerUm + 4) / BLOCK)
    if (wanted <= rows) return
    const [re, im] = [new Float64Array(wanted), new Float64Array(wanted)]
    re.set(tableRe)
    im.set(tableIm)
    for (let i = rows; i < wanted; i++) {
      transform(Math.abs(i - 1) * stepPerUm, out)
      re[i] = out.re
      im[i] = out.im
    }
    rows = wanted
    tableRe = re
    tableIm = im
  }
  return {
    powerUm2,
    isRound: true,
    waves: (kx, ky, re, im) => {
      reachTo(Math.hypot(greatest(kx), greatest(ky)))
      for (let iy = 0, i = 0; iy < ky.length; iy++) {
        const y = (ky[iy] as number) / stepPerUm
        for (let ix = 0; ix < kx.length; ix++, i++) {
          const x = (kx[ix] as number) / stepPerUm
          const row = Math.sqrt(x * x + y * y)
          const at = Math.floor(row)
          const t = row - at
          // Lagrange's polynomial through the rows at -1, 0, 1 and 2 steps.
          const a = (-t * (t - 1) * (t - 2)) / 6
          const b = ((t + 1) * (t - 1) * (t - 2)) / 2
          const c = (-(t + 1) * t * (t - 2)) / 2
          const d = ((t + 1) * t * (t - 1)) / 6
          re[i] =
            a * (tableRe[at] as number) +
            b * (tableRe[at + 1] as number) +
            c * (tableRe[at + 2] as number) +
            d * (tableRe[at + 3] as number)
          im[i] =
            a * (tableIm[at] as number) +
            b * (tableIm[at + 1] as number) +
            c * (tableIm[at + 2] as number) +
            d * (tableIm[at + 3] as number)
        }
      }
    },
  }
}
