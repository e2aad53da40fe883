// Propagation of a sampled field through a homogeneous medium by its angular spectrum.
//   exact:    E(k) exp(-i z (sqrt(k^2 - kx^2 - ky^2) - k)), evanescent waves die away;
//   paraxial: E(k) exp(i z (kx^2 + ky^2) / (2 k))
// The common phase exp(-i k z) is omitted. The window is periodic: a beam that spreads beyond it reappears on the
// other side, which frameShare shows.
// Source: J. W. Goodman, Introduction to Fourier Optics (1996), sect. 3.10 and 4.2 (from memory).

import { fftPlan, forward2, inverse2 } from '../../numerics/fft/fft2'
import { requireInRange } from '../../numerics/inputError'
import type { Propagation } from './fieldPose'
import { requireField, type SampledField } from './sampledField'

/** Multiplies every plane wave by size * exp(i phase), both functions of the transverse wavenumbers. */
function throughSpectrum(
  field: SampledField,
  transfer: (kx: number, ky: number) => { readonly size: number; readonly phase: number },
): SampledField {
  const { nx, ny, dxUm, dyUm } = requireField(field)
  const plan = fftPlan(nx, ny)
  const re = field.re.slice()
  const im = field.im.slice()
  forward2(plan, re, im)
  const perX = (2 * Math.PI) / (nx * dxUm)
  const perY = (2 * Math.PI) / (ny * dyUm)
  for (let iy = 0, i = 0; iy < ny; iy++) {
    const ky = perY * (plan.orderY[iy] as number)
    for (let ix = 0; ix < nx; ix++, i++) {
      const { size, phase } = transfer(perX * (plan.orderX[ix] as number), ky)
      const c = size * Math.cos(phase)
      const s = size * Math.sin(phase)
      const a = re[i] as number
      const b = im[i] as number
      re[i] = a * c - b * s
      im[i] = a * s + b * c
    }
  }
  inverse2(plan, re, im)
  return { ...field, re, im }
}

/**
 * The field `distanceUm` further on (negative: before). Sides of the grid must be powers of two. Going backwards exactly
 * is refused where evanescent waves would grow. Throws InputError.
 */
export function propagateField(
  field: SampledField,
  distanceUm: number,
  propagation: Propagation,
): SampledField {
  requireInRange('distanceUm', distanceUm, propagation === 'exact' ? 0 : -1e6, 1e6)
  const k = (2 * Math.PI * field.index) / field.wavelengthUm
  return throughSpectrum(field, (kx, ky) => {
    const across = kx * kx + ky * ky
    if (propagation === 'paraxial') return { size: 1, phase: (distanceUm * across) / (2 * k) }
    if (across > k * k) return { size: Math.exp(-distanceUm * Math.sqrt(across - k * k)), phase: 0 }
    return { size: 1, phase: (distanceUm * across) / (k + Math.sqrt(k * k - across)) }
  })
}
