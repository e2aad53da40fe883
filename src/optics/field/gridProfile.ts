// A sampled field as a profile: the cubic spline through its samples, 0 outside them.
// Source: M. Unser, IEEE Signal Process. Mag. 16 (6) (1999) 22, boxes 1 and 2 (from memory): samples become coefficients
// by a causal and an anticausal recursion with the pole sqrt(3) - 2, mirrored at both ends; values are sums of four by four
// cubic B-splines.

import type { ModeProfile } from './modeProfile'
import { requireField, type SampledField } from './sampledField'

const POLE = Math.sqrt(3) - 2
const GAIN = 6
/** After this many samples the recursion no longer depends on where it began: the pole to this power is 1e-16. */
const MEMORY = 28

/** Turns a line of samples into spline coefficients, in place. */
function toCoefficients(data: Float64Array, start: number, step: number, count: number): void {
  const last = start + (count - 1) * step
  let before = 0
  for (let i = Math.min(MEMORY, count - 1); i >= 0; i--)
    before = before * POLE + (data[start + i * step] as number)
  data[start] = before
  for (let at = start + step; at <= last; at += step) {
    before = (data[at] as number) + POLE * before
    data[at] = before
  }
  let after = (POLE / (POLE * POLE - 1)) * (before + POLE * (data[last - step] as number))
  data[last] = GAIN * after
  for (let at = last - step; at >= start; at -= step) {
    after = POLE * (after - (data[at] as number))
    data[at] = GAIN * after
  }
}

function coefficients(values: Float64Array, nx: number, ny: number): Float64Array {
  const data = values.slice()
  for (let iy = 0; iy < ny; iy++) toCoefficients(data, iy * nx, 1, nx)
  for (let ix = 0; ix < nx; ix++) toCoefficients(data, ix, nx, ny)
  return data
}

/**
 * Steps a wavelength of the first grid at most, however finely the field was sampled: nothing steeper than four times the
 * medium's own waves couples to anything, and doubling the grid shows what this leaves out.
 */
const FINEST_A_WAVE = 8

const mirrored = (i: number, n: number) => (i < 0 ? -i : i >= n ? 2 * n - 2 - i : i)

/**
 * The profile about the point (centreXUm, centreYUm) of the field's own frame. Throws InputError for an invalid
 * field.
 */
export function gridProfile(field: SampledField, centreXUm = 0, centreYUm = 0): ModeProfile {
  requireField(field)
  const { nx, ny, dxUm, dyUm } = field
  const re = coefficients(field.re, nx, ny)
  const isFlat = field.im.every((value) => value === 0)
  const im = isFlat ? null : coefficients(field.im, nx, ny)
  const x0 = field.x0Um - centreXUm
  const y0 = field.y0Um - centreYUm
  const rows = new Float64Array(4)
  const columns = new Float64Array(4)
  const weigh = (weights: Float64Array, w: number) => {
    const v = 1 - w
    weights[0] = (v * v * v) / 6
    weights[1] = (4 - 3 * w * w * (2 - w)) / 6
    weights[2] = (4 - 3 * v * v * (2 - v)) / 6
    weights[3] = (w * w * w) / 6
  }
  const sum = (data: Float64Array, i: number, j: number): number => {
    let total = 0
    for (let b = 0; b < 4; b++) {
      const row = mirrored(j - 1 + b, ny) * nx
      let line = 0
      for (let a = 0; a < 4; a++)
        line += (columns[a] as number) * (data[row + mirrored(i - 1 + a, nx)] as number)
      total += (rows[b] as number) * line
    }
    return total
  }
  const finest = field.wavelengthUm / (FINEST_A_WAVE * field.index)
  const furthest = (from: number, n: number, d: number) =>
    Math.max(Math.abs(from), Math.abs(from + (n - 1) * d))
  return {
    at: (xUm, yUm, out) => {
      const x = (xUm - x0) / dxUm
      const y = (yUm - y0) / dyUm
      if (!(x >= 0 && x <= nx - 1 && y >= 0 && y <= ny - 1)) {
        out.re = 0
        out.im = 0
        return
      }
      const i = Math.min(Math.floor(x), nx - 2)
      const j = Math.min(Math.floor(y), ny - 2)
      weigh(columns, x - i)
      weigh(rows, y - j)
      out.re = sum(re, i, j)
      out.im = im === null ? 0 : sum(im, i, j)
    },
    reachXUm: furthest(x0, nx, dxUm),
    reachYUm: furthest(y0, ny, dyUm),
    stepXUm: Math.max(dxUm, finest),
    stepYUm: Math.max(dyUm, finest),
  }
}
