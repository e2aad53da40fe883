// The plane waves that emitter and receiver have in common, and their sum behind a gap.

import type { FftPlan } from '../../numerics/fft/fft2'
import type { FieldGrid } from './fieldGrid'
import type { FieldPose, Propagation } from './fieldPose'

/** Waves weaker than this, summed, are ignored in repeated sums. */
const NEGLECTED = 1e-9

/** Waves that both modes share: wavenumbers and the product of the two transforms. */
export interface SharedWaves {
  readonly count: number
  readonly kx: Float64Array
  readonly ky: Float64Array
  readonly re: Float64Array
  readonly im: Float64Array
}

/** E times conj R where it matters, over the square root of both powers. Waves that are no longer needed give up their arrays. */
export function sharedWaves(
  plan: FftPlan,
  { nx, ny, dxUm, dyUm }: FieldGrid,
  e: { readonly re: Float64Array; readonly im: Float64Array },
  r: { readonly re: Float64Array; readonly im: Float64Array },
  scale: number,
  unneeded: SharedWaves | null = null,
): SharedWaves {
  const size = nx * ny
  let whole = 0
  let largest = 0
  const array = (name: 're' | 'im' | 'kx' | 'ky') =>
    unneeded?.[name].length === size ? unneeded[name] : new Float64Array(size)
  const re = array('re')
  const im = array('im')
  for (let i = 0; i < size; i++) {
    const a = e.re[i] as number
    const b = e.im[i] as number
    const c = r.re[i] as number
    const d = r.im[i] as number
    const x = (a * c + b * d) * scale
    const y = (b * c - a * d) * scale
    re[i] = x
    im[i] = y
    const power = x * x + y * y
    whole += power
    if (power > largest) largest = power
  }
  // Dropping what is below this for certain drops less than NEGLECTED in the sum.
  const least = Math.min(largest * 1e-20, (NEGLECTED / size) ** 2)
  const kx = array('kx')
  const ky = array('ky')
  const perX = (2 * Math.PI) / (nx * dxUm)
  const perY = (2 * Math.PI) / (ny * dyUm)
  let count = 0
  for (let iy = 0, i = 0; iy < ny; iy++) {
    for (let ix = 0; ix < nx; ix++, i++) {
      const x = re[i] as number
      const y = im[i] as number
      if (whole > 0 && x * x + y * y < least) continue
      re[count] = x
      im[count] = y
      kx[count] = perX * (plan.orderX[ix] as number)
      ky[count] = perY * (plan.orderY[iy] as number)
      count++
    }
  }
  return { count, kx, ky, re, im }
}

/** The power of the sum over shared waves behind a gap and at an offset. */
export function summedPower(
  waves: SharedWaves,
  k: number,
  pose: FieldPose,
  propagation: Propagation,
): number {
  const { count, kx, ky, re, im } = waves
  const { offsetXUm, offsetYUm, gapUm } = pose
  let sumRe = 0
  let sumIm = 0
  for (let i = 0; i < count; i++) {
    const x = kx[i] as number
    const y = ky[i] as number
    const across = x * x + y * y
    let phase = -(x * offsetXUm + y * offsetYUm)
    let size = 1
    if (gapUm !== 0) {
      if (propagation === 'paraxial') phase += (gapUm * across) / (2 * k)
      else if (across <= k * k) phase += (gapUm * across) / (k + Math.sqrt(k * k - across))
      else size = Math.exp(-gapUm * Math.sqrt(across - k * k))
    }
    const c = size * Math.cos(phase)
    const s = size * Math.sin(phase)
    sumRe += (re[i] as number) * c - (im[i] as number) * s
    sumIm += (re[i] as number) * s + (im[i] as number) * c
  }
  return sumRe * sumRe + sumIm * sumIm
}
