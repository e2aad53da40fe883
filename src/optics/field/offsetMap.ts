// Power coupled between two sampled fields for all offsets at once, by cross-correlation.
//   map(d) = |sum e(x - d) conj r(x)|^2 / (sum |e|^2 sum |r|^2):   the inverse transform of E conj R, squared
// Source: correlation theorem, R. N. Bracewell, The Fourier Transform and its Applications (1986), ch. 6 (from memory).

import { type FftPlan, fftPlan, forward2, inverse2Unscaled } from '../../numerics/fft/fft2'
import { InputError } from '../../numerics/inputError'
import type { RegularGrid } from '../../numerics/regularGrid'
import { requireField, type SampledField } from './sampledField'

/** Efficiencies 0..1 at offsets of the emitter: index iy*nx + ix, offset x0Um + ix*dxUm, y0Um + iy*dyUm. */
export interface OffsetMap extends RegularGrid {
  readonly efficiency: Float64Array
}

const powerOfTwoFrom = (n: number) => 2 ** Math.ceil(Math.log2(n))

/** The arrays of one size, which are large and reused: allocating new ones takes as long as a transform. */
interface Workspace {
  readonly plan: FftPlan
  readonly emitter: Spectrum
  readonly receiver: Spectrum
}

interface Spectrum {
  readonly re: Float64Array
  readonly im: Float64Array
}

let workspace: Workspace | null = null

function workspaceOf(nx: number, ny: number): Workspace {
  if (workspace?.plan.nx === nx && workspace.plan.ny === ny) return workspace
  const spectrum = () => ({ re: new Float64Array(nx * ny), im: new Float64Array(nx * ny) })
  workspace = { plan: fftPlan(nx, ny), emitter: spectrum(), receiver: spectrum() }
  return workspace
}

/** Copies the samples into the corner of a larger grid of zeros, transforms it, and returns their sum of squares. */
function fillSpectrum({ re, im }: Spectrum, field: SampledField, plan: FftPlan): number {
  let squares = 0
  for (let iy = 0; iy < field.ny; iy++) {
    const to = iy * plan.nx
    for (let ix = 0; ix < field.nx; ix++) {
      const a = field.re[iy * field.nx + ix] as number
      const b = field.im[iy * field.nx + ix] as number
      re[to + ix] = a
      im[to + ix] = b
      squares += a * a + b * b
    }
    re.fill(0, to + field.nx, to + plan.nx)
    im.fill(0, to + field.nx, to + plan.nx)
  }
  re.fill(0, field.ny * plan.nx)
  im.fill(0, field.ny * plan.nx)
  forward2(plan, re, im, field.ny)
  return squares
}

/** E times conj R, in place of E. */
function multiply(e: Spectrum, r: Spectrum): void {
  const [eRe, eIm, rRe, rIm] = [e.re, e.im, r.re, r.im]
  for (let i = 0; i < eRe.length; i++) {
    const a = eRe[i] as number
    const b = eIm[i] as number
    const c = rRe[i] as number
    const d = rIm[i] as number
    eRe[i] = a * c + b * d
    eIm[i] = b * c - a * d
  }
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
  const { plan, emitter: e, receiver: r } = workspaceOf(nx, ny)
  const squares = fillSpectrum(e, emitter, plan) * fillSpectrum(r, receiver, plan)
  multiply(e, r)
  inverse2Unscaled(plan, e.re, e.im)
  const { dxUm, dyUm } = emitter
  return {
    nx,
    ny,
    dxUm,
    dyUm,
    x0Um: (-nx / 2) * dxUm,
    y0Um: (-ny / 2) * dyUm,
    efficiency: centredPower(plan, e, 1 / (squares * (nx * ny) ** 2)),
  }
}

/** |c|^2 times a scale with offset 0 moved to the middle; place i of the correlation holds the offset -i. */
function centredPower({ nx, ny }: FftPlan, { re, im }: Spectrum, scale: number): Float64Array {
  const out = new Float64Array(nx * ny)
  for (let iy = 0; iy < ny; iy++) {
    const row = ((ny - iy + ny / 2) % ny) * nx
    const to = iy * nx
    // Sides are powers of two, so that a mask takes the remainder.
    for (let ix = 0; ix < nx; ix++) {
      const from = row + ((nx / 2 - ix) & (nx - 1))
      const a = re[from] as number
      const b = im[from] as number
      out[to + ix] = (a * a + b * b) * scale
    }
  }
  return out
}
