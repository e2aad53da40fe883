// Power coupled between two sampled fields for all offsets at once, by cross-correlation.
//   map(d) = |sum e(x - d) conj r(x)|^2 / (sum |e|^2 sum |r|^2):   the inverse transform of E conj R, squared
// Source: correlation theorem, R. N. Bracewell, The Fourier Transform and its Applications (1986), ch. 6 (from memory).

import { type FftPlan, fftPlan, forward2, inverse2 } from '../../numerics/fft/fft2'
import { InputError } from '../../numerics/inputError'
import { requireField, type SampledField } from './sampledField'

/** Efficiencies 0..1 at offsets of the emitter: index iy*nx + ix, offset x0Um + ix*dxUm, y0Um + iy*dyUm. */
export interface OffsetMap {
  readonly nx: number
  readonly ny: number
  readonly dxUm: number
  readonly dyUm: number
  readonly x0Um: number
  readonly y0Um: number
  readonly efficiency: Float64Array
}

const powerOfTwoFrom = (n: number) => 2 ** Math.ceil(Math.log2(n))

/** Copies the samples into the corner of a larger grid of zeros and transforms it. */
function spectrum(field: SampledField, plan: FftPlan) {
  const re = new Float64Array(plan.nx * plan.ny)
  const im = new Float64Array(plan.nx * plan.ny)
  let squares = 0
  for (let iy = 0; iy < field.ny; iy++) {
    for (let ix = 0; ix < field.nx; ix++) {
      const from = iy * field.nx + ix
      const to = iy * plan.nx + ix
      const a = field.re[from] ?? 0
      const b = field.im[from] ?? 0
      re[to] = a
      im[to] = b
      squares += a * a + b * b
    }
  }
  forward2(plan, re, im, field.ny)
  return { re, im, squares }
}

/**
 * The map for all offsets at which the two windows touch, 0 in its middle sample. Both fields on one grid, whose shape
 * and place are the same. Throws InputError where they are not.
 */
export function offsetMap(emitter: SampledField, receiver: SampledField): OffsetMap {
  requireField(emitter)
  requireField(receiver)
  for (const name of ['nx', 'ny', 'dxUm', 'dyUm', 'x0Um', 'y0Um'] as const) {
    if (emitter[name] !== receiver[name]) {
      throw new InputError(`emitter.${name}`, emitter[name], `that of the receiver, ${receiver[name]}`)
    }
  }
  const nx = powerOfTwoFrom(2 * emitter.nx)
  const ny = powerOfTwoFrom(2 * emitter.ny)
  const plan = fftPlan(nx, ny)
  const e = spectrum(emitter, plan)
  const r = spectrum(receiver, plan)
  for (let i = 0; i < nx * ny; i++) {
    const [a, b, c, d] = [e.re[i] ?? 0, e.im[i] ?? 0, r.re[i] ?? 0, r.im[i] ?? 0]
    e.re[i] = a * c + b * d
    e.im[i] = b * c - a * d
  }
  inverse2(plan, e.re, e.im)
  return {
    nx,
    ny,
    ...spacing(emitter, nx, ny),
    efficiency: centredPower(plan, e, 1 / (e.squares * r.squares)),
  }
}

function spacing({ dxUm, dyUm }: SampledField, nx: number, ny: number) {
  return { dxUm, dyUm, x0Um: (-nx / 2) * dxUm, y0Um: (-ny / 2) * dyUm }
}

/** |c|^2 times a scale with offset 0 moved to the middle; place i of the correlation holds the offset -i. */
function centredPower(
  { nx, ny }: FftPlan,
  { re, im }: { readonly re: Float64Array; readonly im: Float64Array },
  scale: number,
): Float64Array {
  const out = new Float64Array(nx * ny)
  for (let iy = 0; iy < ny; iy++) {
    const row = ((ny - iy + ny / 2) % ny) * nx
    for (let ix = 0; ix < nx; ix++) {
      const from = row + ((nx - ix + nx / 2) % nx)
      out[iy * nx + ix] = ((re[from] ?? 0) ** 2 + (im[from] ?? 0) ** 2) * scale
    }
  }
  return out
}
